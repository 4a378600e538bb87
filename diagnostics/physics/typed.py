"""Numbers as people type them: decimal comma, thousands marks, digits of any script, a unit.

The same rule stands in static/js/typed.js; both are held to tests/physics/typed_vectors.json.
"""

import unicodedata
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from diagnostics.physics.errors import Malformed

Problem = Literal["no_number", "too_long", "two_ways"]

MAX_LENGTH = 40
_SPACES = "\u00a0\u2007\u2009\u202f\u2002\u2003\t\n\r"
_MINUS = "\u2212\u2010\u2011\u2012\u2013\u2014\ufe63\uff0d"
_APOSTROPHES = "'\u2019\u02bc\u066c"
_POINTS = "\u066b\uff0e"
_COMMAS = "\uff0c\u060c"


class Unreadable(Malformed):
    """What was typed is no number; `code` names in one word why."""

    def __init__(self, code: Problem, sentence: str) -> None:
        super().__init__(sentence)
        self.code = code


def _plain(typed: str) -> str:
    """Digits of every script, minus signs, spaces and marks brought to one form."""
    out = []
    for letter in typed:
        digit = unicodedata.decimal(letter, None)
        if digit is not None:
            out.append(str(digit))
        elif letter in _SPACES:
            out.append(" ")
        elif letter in _MINUS:
            out.append("-")
        elif letter in _APOSTROPHES:
            out.append("'")
        elif letter in _POINTS:
            out.append(".")
        elif letter in _COMMAS:
            out.append(",")
        else:
            out.append(letter)
    return "".join(out).strip(" ")


def _quoted(typed: str) -> str:
    return f"“{typed.strip(_SPACES + ' ')}”"


def _no_number(typed: str) -> Unreadable:
    if len(typed) > MAX_LENGTH:
        return Unreadable(
            "too_long", f"That is {len(typed)} characters long. Type the number alone."
        )
    return Unreadable(
        "no_number", f"{_quoted(typed)} is no number. Type digits with one point or one comma."
    )


def _grouped(whole: str, mark: str) -> bool:
    """Whether thousands marks stand where they belong."""
    first, *rest = whole.split(mark)
    return 1 <= len(first) <= 3 and all(len(group) == 3 for group in rest)


def _whole(text: str, typed: str) -> str:
    """The part before the decimal mark, its thousands marks taken out."""
    marks = {letter for letter in text if not letter.isdigit()}
    if not marks:
        return text
    if len(marks) > 1 or not _grouped(text, (mark := marks.pop())):
        raise _no_number(typed)
    return text.replace(mark, "")


def _digits(text: str, typed: str) -> str:
    """Digits with marks to digits with one point."""
    if not text or any(letter not in "0123456789.,' " for letter in text):
        raise _no_number(typed)
    if text.startswith(("'", " ")) or not any(letter.isdigit() for letter in text):
        raise _no_number(typed)
    last = max(text.rfind("."), text.rfind(","))
    if last < 0:
        return _whole(text, typed)
    mark, before, after = text[last], text[:last], text[last + 1 :]
    if mark in before:  # the same mark twice can only part thousands
        return _whole(text, typed)
    if after and not after.isdigit():
        raise _no_number(typed)
    short = before.isdigit() and len(before) <= 3 and before.strip("0")
    if mark == "," and short and len(after) == 3:
        raise Unreadable(
            "two_ways",
            f"{_quoted(typed)} can be {before}.{after} or {before}{after}. "
            "Type it with a point, or without the mark.",
        )
    return f"{_whole(before, typed) or '0'}.{after}" if after else _whole(before, typed)


@lru_cache(maxsize=4096)  # a page reads the same few numbers many times over
def split(typed: str) -> tuple[Decimal, str]:
    """The number and the text of the unit typed behind it, which may be empty.

    Raises:
        Unreadable: no number, or a comma followed by three digits, which can be read in two ways.

    """
    plain = _plain(typed)
    if not plain or len(plain) > MAX_LENGTH:
        raise _no_number(typed)
    sign = ""
    if plain[0] in "+-":
        sign, plain = plain[0], plain[1:].lstrip(" ")
    end = 0
    while end < len(plain) and (plain[end] in "0123456789.,'" or plain[end] == " "):
        end += 1
    number, unit = plain[:end].rstrip(" "), plain[end:].strip(" ")
    return Decimal(sign + _digits(number, typed)), unit
