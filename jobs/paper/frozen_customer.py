"""What a record's data hold of the customer's page, and of what is concluded from the tests."""

from typing import Literal, TypedDict

Standing = Literal["proved", "likely", "open", "ruled_out"]


class Sentence(TypedDict):
    """Something found, in one or two sentences, with the numbers of the steps that carry it.

    `standing` is null where nothing is concluded: it tells what was read.
    """

    text: str
    standing: Standing | None
    steps: list[int]


class Statement(TypedDict):
    """What stands large on the customer's page, the line under it, and the code it follows from.

    `code` is that of the ending or of the stage; "cools" where two readings under like conditions
    show it.
    """

    text: str
    under: str
    code: str


class Warranty(TypedDict):
    """For how long who pays for what again, as typed; months, codes, null and none: not typed."""

    text: list[str]
    shop_months: int | None
    shop_pays: list[str]
    seller_months: int | None
    seller_pays: list[str]


class Customer(TypedDict):
    """The customer's page. `did` says what was changed, `remains` what was not seen to."""

    states: Statement
    back: Statement
    found: list[Sentence]
    did: list[str]
    remains: list[str]
    warranty: Warranty


class Part(TypedDict):
    """A part of one question as the tests leave it: variable, its standing, what is said of it."""

    variable: str
    text: str
    standing: Standing
    steps: list[int]
    notes: list[str]


class Concluded(TypedDict):
    """One question as the tests leave it, apart from what was read.

    `words` is the standing in the customer's words; `steps` all that bear on it.
    """

    question: str
    name: str
    text: str
    standing: Standing
    words: str
    steps: list[int]
    by_part: list[Part]
