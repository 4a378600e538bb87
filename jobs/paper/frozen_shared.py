"""What several parts of a record's data are made of: a fact with its name, and times."""

from typing import TypedDict

# A number, a code or the codes tapped; null: not known.
Value = str | int | list[str] | None


class Label(TypedDict):
    """A fact with its name: label and one text a line, and by column what the lines say."""

    label: str
    lines: list[str]
    values: dict[str, Value]


class Times(TypedDict):
    """When it happened and when it arrived at the shop server.

    `arrived` is a text only where the two differ by more than ten minutes, else empty.
    """

    at: str
    when: str
    arrived_at: str
    arrived: str


class DoneTimes(Times):
    """The times of an entry, and when what it tells was done: told first, where it was corrected.

    `corrected` is when this entry corrected what was told before, empty where it corrected nothing;
    `done_by` told it first.
    """

    done_at: str
    done: str
    corrected: str
    done_by: str
