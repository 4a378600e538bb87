"""Texts as the paper can draw them: what it cannot draw is replaced where everyone sees it.

A character without a glyph stops the making of an archivable file, and an invisible one can change
what a reader sees: an override written into a reading would print 92.0 for 0.29. So each text is
gone through before it is set, and the exact text stays in the attached data.
"""

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from jobs.paper.fonts import Coverage

# Scripts whose letters change their shape by a joiner or non-joiner between them.
JOINS = re.compile("[\u0600-\u08ff\u0900-\u0dff\u1780-\u17ff]")
JOINERS = "\u200c\u200d"
# More marks on one letter than any writing needs would climb over the lines above.
MARKS_ON_A_LETTER = 4
# In a run of undrawn characters so many are named, then the rest is counted.
NAMED_IN_A_RUN = 8
SPACES = {ord(char): " " for char in "\t\x0b\x0c\x1c\x1d\x1e\x1f"}
LINES = re.compile("\r\n|[\r\x85\u2028\u2029]")


@dataclass
class Undrawn:
    """What could not be drawn so far: code point and how often."""

    counts: Counter[str] = field(default_factory=Counter)

    def listed(self) -> list[dict[str, str | int]]:
        """One line a character, by code point: code, its name in Unicode, how often."""
        return [
            {"code": code_of(char), "name": name_of(char), "times": times}
            for char, times in sorted(self.counts.items())
        ]


def drawable(value: object, coverages: Sequence[Coverage], undrawn: Undrawn) -> object:
    """The same JSON value with every text made drawable; keys and numbers untouched."""
    if isinstance(value, str):
        return drawable_text(value, coverages, undrawn)
    if isinstance(value, Mapping):
        return {key: drawable(held, coverages, undrawn) for key, held in value.items()}
    if isinstance(value, Sequence):
        return [drawable(held, coverages, undrawn) for held in value]
    return value


def drawable_text(text: str, coverages: Sequence[Coverage], undrawn: Undrawn) -> str:
    """The text with tabs as spaces, ends of lines as LF, and undrawable characters named.

    A run of them is put together: ‹U+1F600 U+200D›, a long one counted: ‹U+7A7A … and 12 more›.
    """
    made: list[str] = []
    run: list[str] = []
    text = LINES.sub("\n", text).translate(SPACES)
    if text.isascii() and text.isprintable():
        return text
    for cluster in [*clusters(re.sub("\n{3,}", "\n\n", text)), ""]:
        keep, lost = split(cluster, coverages)
        if run and keep:
            made.append(named(run))
            run = []
        made.append(keep)
        run += lost
        if run and not cluster:
            made.append(named(run))
        undrawn.counts.update(lost)
    return "".join(made)


def clusters(text: str) -> Iterator[str]:
    """A character with the marks that sit on it: they are drawn by one font or not at all."""
    start = 0
    for at in range(1, len(text)):
        if not unicodedata.category(text[at]).startswith("M") and not joiner(text, at):
            yield text[start:at]
            start = at
    if text:
        yield text[start:]


def joiner(text: str, at: int) -> bool:
    """Whether a joiner stands here that belongs to the word: after a letter of such a script."""
    return text[at] in JOINERS and bool(JOINS.match(text, at - 1))


def split(cluster: str, coverages: Sequence[Coverage]) -> tuple[str, list[str]]:
    """What of a cluster can be drawn, and the characters that cannot.

    One font must have all of it. If none has, the marks are given up before their letter. A joiner
    that joins nothing is not drawn: nobody would see it.
    """
    if cluster[:1] in JOINERS:
        return "", list(cluster)
    for length in range(min(len(cluster), 1 + MARKS_ON_A_LETTER), 0, -1):
        kept = cluster[:length]
        if any(all(seen(char, one) for char in kept) for one in coverages):
            return kept, list(cluster[length:])
    return "", list(cluster)


def seen(char: str, coverage: Coverage) -> bool:
    """Whether a font draws this character, or it is a line's end, or a joiner inside a word."""
    if char == "\n" or char in JOINERS:
        return True
    # C: controls, formats (also those that turn writing round), surrogates, private, unassigned
    return not unicodedata.category(char).startswith("C") and ord(char) in coverage


def named(run: Sequence[str]) -> str:
    """The visible substitute for a run of characters."""
    codes = [code_of(char) for char in run]
    if len(codes) > NAMED_IN_A_RUN + 1:
        codes = [*codes[:NAMED_IN_A_RUN], f"and {len(codes) - NAMED_IN_A_RUN} more"]
    return f"‹{' '.join(codes)}›"


def code_of(char: str) -> str:
    """U+1F600 for 😀."""
    return f"U+{ord(char):04X}"


def name_of(char: str) -> str:
    """The character's name in Unicode, in small letters; controls have none."""
    kind = {"Cc": "control character", "Cs": "half a character", "Co": "private character"}
    known = kind.get(unicodedata.category(char), "no name")
    return unicodedata.name(char, known).lower()
