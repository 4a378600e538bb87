"""The fonts the paper is set in, and which characters each of them has.

Fonts come from packages only, so that a record looks the same on every machine. Inter (Latin,
Greek, Cyrillic), IBM Plex Sans Arabic and Noto Sans Thai are installed with the program (2.5 MB to
load); larger or rarer ones are used where somebody installed them, Chinese, Japanese and Korean
with 15 MB among them. All are under the SIL Open Font License. The Arabic one was chosen because
its text can be searched and read aloud from the file: in a font that composes letters from skeleton
and dots, readers find every dotted letter twice.

The coverage is read here and not by fontTools: that is 24 MB on disk, and 37 MB of memory for one
Chinese font, where two of the table's formats and a bisection do.
"""

import struct
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from pathlib import Path


@dataclass(frozen=True)
class Face:
    """A family, the package that carries it, and its file there."""

    family: str
    package: str
    file: str


NEEDED = (
    Face("Inter", "fontpkg_inter", "files/Inter[opsz,wght].ttf"),
    Face(
        "IBM Plex Sans Arabic",
        "fontpkg_ibm_plex_sans_arabic",
        "files/IBMPlexSansArabic-Regular.ttf",
    ),
    Face("Noto Sans Thai", "fontpkg_noto_sans_thai", "files/NotoSansThai[wdth,wght].ttf"),
)
HEBREW = "fonts/ofl/notosanshebrew/NotoSansHebrew[wdth,wght].ttf"
OPTIONAL = (
    Face("Noto Sans CJK SC", "noto_cjk_sans_otc", "NotoSansCJK-Regular.ttc"),
    Face("Noto Sans Hebrew", "justmytype_intl_rtl", HEBREW),
    Face(
        "Noto Sans Devanagari",
        "fontpkg_noto_sans_devanagari",
        "files/NotoSansDevanagari[wdth,wght].ttf",
    ),
    Face("Noto Sans Tamil", "fontpkg_noto_sans_tamil", "files/NotoSansTamil[wdth,wght].ttf"),
    Face("Noto Sans Telugu", "fontpkg_noto_sans_telugu", "files/NotoSansTelugu[wdth,wght].ttf"),
    Face("Noto Sans Khmer", "fontpkg_noto_sans_khmer", "files/NotoSansKhmer[wdth,wght].ttf"),
)


class FontMissing(RuntimeError):
    """A font that the program is installed with is not there; the sentence names its package."""


@dataclass(frozen=True)
class Coverage:
    """Which code points a font has: sorted, disjoint ranges, first and last of each."""

    firsts: tuple[int, ...]
    lasts: tuple[int, ...]

    def __contains__(self, code: int) -> bool:
        """Whether the font has a glyph for this code point."""
        at = bisect_right(self.firsts, code) - 1
        return at >= 0 and code <= self.lasts[at]


@dataclass(frozen=True)
class Typeface:
    """The fonts found on this machine, in their order of use: families, folders, coverages."""

    families: tuple[str, ...]
    folders: tuple[Path, ...]
    coverages: tuple[Coverage, ...]


@cache
def typeface(optional: bool = True) -> Typeface:
    """The fonts in their order of use; without the optional ones if told so.

    Raises:
        FontMissing: a needed font's package is not installed.

    """
    found = []
    for face in NEEDED + (OPTIONAL if optional else ()):
        path = file_of(face)
        if path:
            found.append((face.family, path))
        elif face in NEEDED:
            raise FontMissing(
                f"The font {face.family} is missing: install {face.package.replace('_', '-')}."
            )
    return Typeface(
        families=tuple(family for family, _ in found),
        folders=tuple(path.parent for _, path in found),
        coverages=tuple(coverage(path.read_bytes()) for _, path in found),
    )


def file_of(face: Face) -> Path | None:
    """The font's file, if its package is installed. The package is looked up, not run."""
    spec = find_spec(face.package)
    for folder in (spec.submodule_search_locations or []) if spec else []:
        path = Path(folder) / face.file
        if path.is_file():
            return path
    return None


def coverage(data: bytes) -> Coverage:
    """The code points of a font file, from its cmap table (ISO/IEC 14496-22:2019, 5.2.1).

    Reads segment mapping (format 4) and segmented coverage (format 12) of the first font in the
    file; every font made in this century has one of them.

    Raises:
        ValueError: the file has no such table.

    """
    merged: list[list[int]] = []
    for first, last in sorted(ranges(data, cmap_at(data))):
        if merged and first <= merged[-1][1] + 1:
            merged[-1][1] = max(merged[-1][1], last)
        else:
            merged.append([first, last])
    return Coverage(tuple(first for first, _ in merged), tuple(last for _, last in merged))


def cmap_at(data: bytes) -> int:
    """Where the cmap table begins, in a font or in the first font of a collection."""
    start = struct.unpack_from(">I", data, 12)[0] if data[:4] == b"ttcf" else 0
    (tables,) = struct.unpack_from(">H", data, start + 4)
    for number in range(tables):
        tag, _, at, _ = struct.unpack_from(">4sIII", data, start + 12 + 16 * number)
        if tag == b"cmap":
            return int(at)
    raise ValueError("The font file has no cmap table.")


def ranges(data: bytes, cmap: int) -> Iterator[tuple[int, int]]:
    """First and last code point of each run that has glyphs; format 12 before format 4."""
    (count,) = struct.unpack_from(">H", data, cmap + 2)
    at = {}
    for number in range(count):
        platform, encoding, offset = struct.unpack_from(">HHI", data, cmap + 4 + 8 * number)
        if platform == 0 or (platform == 3 and encoding in (1, 10)):
            (format_,) = struct.unpack_from(">H", data, cmap + offset)
            at[format_] = cmap + offset
    if 12 in at:
        yield from segmented(data, at[12])
    elif 4 in at:
        yield from segments(data, at[4])
    else:
        raise ValueError("The font file has neither a format 4 nor a format 12 character map.")


def segmented(data: bytes, at: int) -> Iterator[tuple[int, int]]:
    """Format 12: groups of first code, last code, first glyph; glyph 0 is no glyph."""
    (groups,) = struct.unpack_from(">I", data, at + 12)
    for first, last, glyph in struct.iter_unpack(">III", data[at + 16 : at + 16 + 12 * groups]):
        if glyph:
            yield first, last
        elif last > first:
            yield first + 1, last


def segments(data: bytes, at: int) -> Iterator[tuple[int, int]]:
    """Format 4: segments of 16-bit codes, their glyphs by a delta or by a list."""
    (twice,) = struct.unpack_from(">H", data, at + 6)
    count = twice // 2
    ends = struct.unpack_from(f">{count}H", data, at + 14)
    starts = struct.unpack_from(f">{count}H", data, at + 16 + twice)
    deltas = struct.unpack_from(f">{count}H", data, at + 16 + 2 * twice)
    lists_at = at + 16 + 3 * twice
    lists = struct.unpack_from(f">{count}H", data, lists_at)
    for number, (first, last) in enumerate(zip(starts, ends, strict=True)):
        for code in range(first, min(last, 0xFFFE) + 1):
            glyph = code + deltas[number]
            if lists[number]:
                place = lists_at + 2 * number + lists[number] + 2 * (code - first)
                (listed,) = struct.unpack_from(">H", data, place)
                glyph = listed + deltas[number] if listed else 0
            if glyph & 0xFFFF:
                yield code, code
