"""What can only be said of several variables together, and is worded so.

After power at the coil without pull-in the command may be at fault as well; that it is the whole
of the trouble is another question, and the one that people mean.
"""

from dataclasses import dataclass

from diagnostics.evidence.inference.verdict import Weighed

# The links of one chain: a fault in one is enough, and none shows while another is broken.
CHAINS: tuple[tuple[str, ...], ...] = (
    ("command", "clutch", "belt", "mechanics"),
    ("tightness", "amount", "gas"),
    ("flow", "outside", "amount", "gas"),
)
ALONE = 0.02  # below it a fault is not the cause on its own: our judgement
MAY_BE = 0.05  # what is less likely than that needs no such sentence


@dataclass(frozen=True)
class NotAlone:
    """A variable that may be at fault, but does not account for this on its own.

    `beside` is the variable that is at fault by what was found.
    """

    variable: str
    beside: str


def not_alone(weighed: Weighed) -> list[NotAlone]:
    """Each variable of a chain that may be at fault, where another one of it surely is."""
    there = {one.name for one in weighed.plain.variables}
    found: dict[str, NotAlone] = {}
    for chain in CHAINS:
        links = [name for name in chain if name in there]
        faulty = {name: 1 - weighed.share(name, ["ok"]) for name in links}
        sure = max(links, key=lambda name: faulty[name])
        if faulty[sure] < 0.8 or not any(
            one.speaks_of(sure, code) for one in weighed.told for code in faults(weighed, sure)
        ):
            continue
        for name in links:
            if name != sure and name not in found and faulty[name] >= MAY_BE:
                alone = weighed.joint({name: faults(weighed, name), sure: ["ok"]})
                if alone <= ALONE:
                    found[name] = NotAlone(name, sure)
    return list(found.values())


def faults(weighed: Weighed, variable: str) -> list[str]:
    """The answers of a variable but "ok"."""
    return [code for code in weighed.plain.answers[variable] if code != "ok"]
