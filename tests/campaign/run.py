"""The campaign itself: form after form, accident after accident, and a look at every promise."""

import collections
import time
from dataclasses import dataclass, field
from typing import Any

from playwright.sync_api import Error

from tests.campaign import forms
from tests.campaign.accidents import ACCIDENTS, Moment
from tests.campaign.check import NAMES, Wrong, what_is_wrong
from tests.campaign.crew import Crew
from tests.campaign.ledger import Ledger
from tests.proxy import Line

SETTLES_EVERY = 3  # rounds until everything must have arrived; before that entries may queue up
SETTLE_S = 90


@dataclass
class Told:
    """What a campaign found."""

    forms: collections.Counter[str] = field(default_factory=collections.Counter)
    faults: collections.Counter[str] = field(default_factory=collections.Counter)
    wrong: dict[str, list[str]] = field(default_factory=dict)

    def note(self, wrong: Wrong, when: str) -> None:
        """A sentence counts once, when it is first true."""
        known = {one.split(" | ")[0] for told in self.wrong.values() for one in told}
        for name, sentences in wrong.items():
            new = [one for one in sentences if one not in known]
            for one in new:
                print(f"WRONG {name}: {one[:300]} | {when}", flush=True)
            self.wrong.setdefault(name, []).extend(f"{one} | {when}" for one in new)

    def counts(self) -> dict[str, int]:
        """How many of each, none included."""
        return {name: len(self.wrong.get(name, [])) for name in [*NAMES, "stuck", "harness"]}


class Campaign:
    """So many accidents, from one seed."""

    def __init__(self, crew: Crew, faults: int, say: Any, only: str = "") -> None:
        self.crew, self.faults, self.say = crew, faults, say
        self.ledger = Ledger()
        self.told = Told()
        self.ends = float("inf")
        self.stops = False  # at the first thing that is wrong
        self.names = [name for name in ACCIDENTS if only in name]

    def run(self) -> None:
        """All of it; every kind of accident comes up before one comes again."""
        for hand in self.crew.hands:
            forms.bring_a_car(hand, self.ledger, self.crew.chance, self.crew.folder)
            self.told.forms["intake"] += 1
        bag: list[str] = []
        for number in range(1, self.faults + 1):
            if not bag:
                bag = self.crew.chance.sample(self.names, len(self.names))
            name = bag.pop()
            if self.stops and any(self.told.wrong.values()):
                return
            if time.monotonic() > self.ends:
                break
            try:
                self.round(number, name)
            except (Error, AssertionError) as error:
                self.told.note({"harness": [f"{number}: {name}: {error}"[:600]]}, "")
                self.recover()
        self.recover()
        self.settle("at the end")

    def round(self, number: int, name: str) -> None:
        """One form, one accident; a look at once, and one when all is well again."""
        crew = self.crew
        hand = crew.chance.choice(crew.hands)
        began = time.monotonic()
        fill = forms.choose(hand, self.ledger, crew.chance)
        tap = fill(hand, self.ledger, crew.chance, crew.folder)
        if tap.key in hand.seen.kept:
            self.told.note({"doubled": [f"a form opened anew has a kept key: {tap.key}"]}, name)
            return
        self.ledger.tapped(tap)
        self.told.forms[tap.kind + (" with photo" if tap.photo else "")] += 1
        self.told.faults[name] += 1
        when = f"{number}: {name}, {tap.kind} {tap.key}"
        try:
            ACCIDENTS[name](Moment(crew, hand, tap))
            self.told.note(what_is_wrong(crew, self.ledger), f"{when}, at once")
        except Error as error:
            self.told.note({"script": [f"{hand.name}: {error}"]}, when)
        self.ledger.kept_in_ms += [(bool(tap.photo), ms) for ms in hand.kept_in_ms]
        hand.kept_in_ms.clear()
        self.recover()
        if number % SETTLES_EVERY == 0:
            self.settle(when)
        else:
            self.told.note(what_is_wrong(crew, self.ledger), f"{when}, recovered")
        seconds = time.monotonic() - began
        wrong = {name: number for name, number in self.told.counts().items() if number}
        self.say(f"{when}: {seconds:.1f} s, {wrong or 'all holds'}")

    def recover(self) -> None:
        """The accident is over: everything runs again, and each tablet has a page open."""
        crew = self.crew
        crew.no_faults()
        crew.shop.clock(0)
        crew.lines(Line())
        crew.serve()
        for hand in crew.hands:
            if not hand.alive:
                hand.start()
                hand.open("/unsent/")
            hand.context.set_offline(False)

    def settle(self, when: str) -> None:
        """Everything must have arrived after a while."""
        end = time.monotonic() + SETTLE_S
        for hand in self.crew.hands:
            hand.open("/unsent/")
        left = [hand for hand in self.crew.hands if hand.items()]
        while left and time.monotonic() < end:
            left[0].page.wait_for_timeout(100)
            left = [hand for hand in left if hand.items()]
        stuck = [
            f"{one['key']} {one['state']} {one['errors']}" for hand in left for one in hand.items()
        ]
        self.told.note({"stuck": stuck} if stuck else {}, when)
        self.told.note(what_is_wrong(self.crew, self.ledger), f"{when}, settled")
