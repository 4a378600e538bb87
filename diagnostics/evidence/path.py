"""The command's way from "A/C asked for" to "shaft turns", link by link.

A link is filled only by what a test of that link showed: what is left over because another part was
found at fault, and what cars usually have, fill nothing. Three ways: by a magnetic clutch, without
one, and to an electric compressor.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from diagnostics.evidence.concluded import Concluded
from diagnostics.evidence.inference.verdict import LIKELY, PROVED, Stands
from diagnostics.evidence.system import System
from diagnostics.evidence.verdict_shown import numbers
from diagnostics.evidence.verdict_words import BY_NAME

State = Literal["passes", "likely", "open", "stops", "may_stop"]
SAID: Mapping[State, str] = {
    "passes": "shown",
    "likely": "likely, not shown",
    "open": "not shown yet",
    "stops": "does not pass here",
    "may_stop": "most likely does not pass here",
}


@dataclass(frozen=True)
class Link:
    """A link: its words, and the answers of a variable with which it does not pass."""

    words: str
    variable: str
    codes: tuple[str, ...]
    test: str = ""  # the kind that looks at it alone; without it, it is shown by what flows through


@dataclass(frozen=True)
class LinkShown:
    """A link as it is drawn. `why` says what stops it, `steps` who showed it, by their numbers."""

    words: str
    state: State
    why: str = ""
    steps: tuple[int, ...] = ()
    through: bool = False  # shown by the current through it alone

    @property
    def by(self) -> str:
        """What a step tells of it, with its number; empty where no step looked at it."""
        if not self.steps or self.state not in ("open", "passes"):
            return ""
        numbered = f"step{'s' if len(self.steps) > 1 else ''} {', '.join(map(str, self.steps))}"
        if self.state == "open":
            return f"tested, not settled: {numbered}"
        return f"current flows through it: {numbered}" if self.through else numbered

    @property
    def said(self) -> str:
        """How it stands, for who does not see the drawing."""
        looked = self.state == "open" and self.steps
        return "tested, not settled" if looked else SAID[self.state]


@dataclass(frozen=True)
class Group:
    """Links that belong together; one whose links all pass is drawn as one."""

    words: str
    links: tuple[LinkShown, ...]

    @property
    def is_whole(self) -> bool:
        """Whether every link of it was shown to pass."""
        return all(one.state == "passes" for one in self.links)


REFUSED = ("refused_cold", "refused_low", "refused_high", "refused_engine", "refused_lock")
ASKED = (
    Link("A/C asked for", "command", ("not_asked",)),
    Link("Allowed", "command", REFUSED),
    Link("Switches, sensors", "command", ("switch_false",)),
    Link("Control unit", "command", ("driver",)),
)
POWER = (
    Link("Relay", "command", ("relay_open", "relay_stuck")),
    Link("Fuse", "command", ("fuse",), "fuse"),
    Link("Feed wire", "command", ("wire_open", "short_ground", "feed_resistance")),
    Link("Ground", "command", ("ground_resistance",)),
)
COIL = Link("Coil", "clutch", ("coil_open", "melt_open", "coil_shorted", "fails_hot"))
BELT = Link("Belt", "belt", ("slips", "off"))
SHAFT = Link("Shaft turns", "mechanics", ("locked", "stiff"))
Groups = tuple[tuple[str, tuple[Link, ...]], ...]
BY_CLUTCH: Groups = (
    ("Asked and allowed", ASKED),
    ("Power to the coil", (*POWER, COIL)),
    (
        "Clutch and shaft",
        (
            BELT,
            Link("Air gap", "clutch", ("gap_wide", "gap_small")),
            Link("Friction face", "clutch", ("worn", "oily")),
            Link("Hub", "clutch", ("hub_broken",)),
            SHAFT,
        ),
    ),
)
WITHOUT_CLUTCH: Groups = (
    ("Asked and allowed", ASKED),
    ("Power to the valve", (*POWER, Link("Control valve", "mechanics", ("valve",)))),
    ("Limiter and shaft", (BELT, Link("Limiter", "clutch", ("hub_broken",)), SHAFT)),
)
ELECTRIC: Groups = (
    ("Asked and allowed", ASKED),
    (
        "High voltage and its drive",
        (
            Link("Commanded", "mechanics", ("not_commanded",)),
            Link("Isolation", "mechanics", ("isolation",)),
            Link("Inverter", "mechanics", ("inverter",)),
        ),
    ),
    ("Shaft", (SHAFT,)),
)
BY_DRIVE: Mapping[str, Groups] = {
    "belt_clutchless": WITHOUT_CLUTCH,
    "electric_hv": ELECTRIC,
    "electric_48": ELECTRIC,
}


def path_of(system: System, found: Concluded) -> tuple[Group, ...]:
    """The way of this car's command; where its drive is not known, by a clutch."""
    groups = BY_DRIVE.get(system.get("drive", ""), BY_CLUTCH)
    return tuple(
        Group(words, tuple(link_shown(one, found) for one in links)) for words, links in groups
    )


def link_shown(link: Link, found: Concluded) -> LinkShown:
    """A link as what was found shows it."""
    faults = list(answers(link, found))
    spoken = {code for name, code in found.spoken if name == link.variable}
    carried = [one for one in faults if one.carried]
    if not faults or not carried:
        return LinkShown(link.words, "open")
    share = sum(one.share for one in faults)
    if share >= LIKELY:
        worst = max(faults, key=lambda one: one.share)
        state: State = "stops" if share >= PROVED and spoken & {*link.codes} else "may_stop"
        why = BY_NAME[link.variable].answer(worst.code).words
        return LinkShown(link.words, state, why, steps_for(worst, speak_for=True))
    fine = "ok" in spoken
    looked_at = all(fine or one.code in spoken for one in faults)
    steps = tuple(sorted({step for one in carried for step in steps_for(one, speak_for=False)}))
    if looked_at and all(one.standing == "ruled_out" for one in faults):
        own = {each.kind for one in carried for each in one.carried}
        return LinkShown(link.words, "passes", "", steps, bool(link.test) and link.test not in own)
    ok = found.of(link.variable, "ok")
    if looked_at and ok and ok.carried and ok.standing in ("proved", "likely"):
        return LinkShown(link.words, "likely", "", steps)
    looked = numbers(each for one in carried for each in one.carried)
    return LinkShown(link.words, "open", "", looked if spoken & {*link.codes} else ())


def answers(link: Link, found: Concluded) -> Iterator[Stands]:
    """The link's answers that this car can have."""
    for code in link.codes:
        one = found.of(link.variable, code)
        if one:
            yield one


def steps_for(one: Stands, *, speak_for: bool) -> tuple[int, ...]:
    """The steps that speak for an answer, or against it."""
    return numbers(each for each in one.carried if (each.odds > 1) == speak_for)
