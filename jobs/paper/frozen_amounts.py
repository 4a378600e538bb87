"""What a record's data hold of refrigerant and oil: the balance, each work, each move."""

from typing import Literal, TypedDict

from jobs.paper.frozen_shared import DoneTimes


class GramsRow(TypedDict):
    """A line of the drawing, from `start` to `end` in milligrams, `amount` as told beside it.

    `looks`: "bar" was weighed, "unknown" may be there, "length" is worked out, "back" was taken
    back. `group` numbers the parts between which a rule stands.
    """

    code: str
    text: str
    amount: str
    start: int
    end: int
    looks: Literal["bar", "unknown", "length", "back"]
    group: int
    strong: bool


class OilRow(TypedDict):
    """An amount of oil in whole microliters, on which `side` it counts, and by which entry.

    `measured`: somebody measured it; false: it stands in a table of the maker's.
    """

    side: Literal["out", "into", "aside"]
    text: str
    amount: str
    microliters: int
    measured: bool
    entry: str


class Reading(TypedDict):
    """What a work told: the field's name on its form, in words; a number as typed and in SI."""

    field: str
    name: str
    text: str
    typed: str
    unit: str
    si: float | None
    code: str | None


class Work(DoneTimes):
    """One piece of work on the loop. `counts`: it stands; false where another took its place.

    `state` is the number of the car state that it opened, null: none.
    """

    key: str
    what: str
    text: str
    lines: list[str]
    readings: list[Reading]
    state: int | None
    counts: bool
    by: str
    author: str


class Moved(TypedDict):
    """So much from one place to another: milligrams of refrigerant, microliters of oil or dye.

    `from_place` and `to_place` are codes, a cylinder is named by its key and its name. `undone`: a
    later entry took it back.
    """

    entry: str
    substance: str
    gas: str
    amount: int
    from_place: str
    from_cylinder: str | None
    to_place: str
    to_cylinder: str | None
    undone: bool
    at: str


class Amounts(TypedDict):
    """The balance of a job. `recovered_mg`, `charged_mg`: all that came out and what went in last.

    `missing_least_mg` is what the label has more than was in the car at least, null: cannot be
    told; `remainder_mg` what the machine may have left, null: not known.
    """

    text: str
    rows: list[GramsRow]
    says: list[str]
    label_mg: int | None
    recovered_mg: int | None
    remainder_mg: int | None
    missing_least_mg: int | None
    charged_mg: int | None
    oil: list[OilRow]
    oil_says: list[str]
    works: list[Work]
    moves: list[Moved]
