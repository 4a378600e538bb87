"""Which characters a font has: held against fontTools, a general reference reader of fonts."""

import struct

import pytest
from fontTools.ttLib import TTFont

from jobs.paper.fonts import NEEDED, OPTIONAL, Coverage, Face, coverage, file_of, typeface

INSTALLED = [face for face in NEEDED + OPTIONAL if file_of(face)]


@pytest.mark.parametrize("face", INSTALLED, ids=lambda face: face.family)
def test_coverage_agrees_with_a_reference_reader(face: Face):
    path = file_of(face)
    assert path
    ours = coverage(path.read_bytes())
    codes = {
        code
        for first, last in zip(ours.firsts, ours.lasts, strict=True)
        for code in range(first, last + 1)
    }
    with TTFont(path, fontNumber=0, lazy=True) as reference:
        assert codes == set(reference.getBestCmap())


def test_the_needed_fonts_and_one_for_chinese_are_under_test():
    families = [face.family for face in INSTALLED]
    assert families[:4] == ["Inter", "IBM Plex Sans Arabic", "Noto Sans Thai", "Noto Sans CJK SC"]


def test_the_older_kind_of_table_agrees_as_well():
    path = file_of(NEEDED[2])
    assert path
    with TTFont(path) as font:
        table = next(one for one in font["cmap"].tables if one.format == 4)
        assert set(codes_of(cmap_only(table.compile(font)))) == set(table.cmap)


def codes_of(data: bytes) -> list[int]:
    ours = coverage(data)
    return [
        code
        for first, last in zip(ours.firsts, ours.lasts, strict=True)
        for code in range(first, last + 1)
    ]


def cmap_only(table: bytes) -> bytes:
    """A font file that holds nothing but one character map."""
    head = struct.pack(">4sHHHH", b"\x00\x01\x00\x00", 1, 16, 0, 0)
    entry = struct.pack(">4sIII", b"cmap", 0, 28, len(table) + 12)
    return head + entry + struct.pack(">HHHHI", 0, 1, 3, 1, 12) + table


def test_a_code_between_two_runs_is_not_covered():
    runs = Coverage((10, 30), (20, 40))
    assert [code in runs for code in (9, 10, 20, 21, 29, 30, 40, 41)] == [
        False, True, True, False, False, True, True, False,
    ]  # fmt: skip


def test_a_file_without_a_character_map_is_refused():
    with pytest.raises(ValueError, match="no cmap"):
        coverage(b"\x00\x01\x00\x00" + b"\x00" * 20)


def test_a_map_of_an_unknown_kind_is_refused():
    with pytest.raises(ValueError, match="neither"):
        coverage(cmap_only(struct.pack(">HH", 6, 0)))


def test_without_the_optional_fonts_only_the_needed_are_used():
    assert typeface(optional=False).families == tuple(face.family for face in NEEDED)
