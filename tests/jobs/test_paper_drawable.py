"""What the paper draws for a text, without making a paper."""

import pytest

from jobs.paper.drawable import Undrawn, drawable, drawable_text
from jobs.paper.fonts import Coverage, typeface

LATIN = Coverage((0x20, 0x300), (0x7E, 0x310))
LETTERS_ONLY = Coverage((0x20,), (0x17E,))


def drawn(text: str, *coverages: Coverage) -> tuple[str, dict[str, int]]:
    undrawn = Undrawn()
    return drawable_text(text, coverages or (LATIN,), undrawn), dict(undrawn.counts)


@pytest.mark.parametrize("end", ["\r\n", "\r", "\x85", "\u2028", "\u2029"])
def test_every_end_of_line_is_one_line_feed(end: str):
    assert drawn(f"a{end}b") == ("a\nb", {})


def test_a_tab_is_a_space():
    assert drawn("a\tb") == ("a b", {})


def test_a_heap_of_empty_lines_is_one_empty_line():
    assert drawn("a" + "\n" * 900 + "b") == ("a\n\nb", {})


def test_a_mark_is_drawn_with_its_letter():
    assert drawn("e\u0301") == ("e\u0301", {})


def test_letter_and_mark_of_two_fonts_are_not_mixed():
    marks = Coverage((0x300,), (0x36F,))
    assert drawn("\u017e\u0331", LETTERS_ONLY, marks) == ("\u017e‹U+0331›", {"\u0331": 1})


def test_more_marks_than_any_writing_needs_are_named():
    assert drawn("e" + "\u0301" * 6) == (
        "e" + "\u0301" * 4 + "‹U+0301 U+0301›",
        {"\u0301": 2},
    )


def test_neighbors_that_cannot_be_drawn_share_their_signs():
    assert drawn("a☃☄b") == ("a‹U+2603 U+2604›b", {"☃": 1, "☄": 1})


def test_nine_are_named_and_ten_are_counted():
    assert drawn("☃" * 9)[0] == f"‹{' '.join(['U+2603'] * 9)}›"
    assert drawn("☃" * 10)[0] == f"‹{' '.join(['U+2603'] * 8)} and 2 more›"


def test_a_joiner_that_joins_nothing_is_named():
    assert drawn("a\u200db")[0] == "a‹U+200D›b"


def test_only_the_first_of_several_joiners_belongs_to_the_word():
    text = drawn("ی\u200c\u200c\u200cک", *typeface().coverages)[0]
    assert text == "ی\u200c‹U+200C U+200C›ک"


def test_half_a_character_is_named():
    assert drawn("\ud800")[0] == "‹U+D800›"


def test_the_list_is_ordered_and_counted():
    undrawn = Undrawn()
    drawable_text("☄☃☃\x07", (LATIN,), undrawn)
    assert undrawn.listed() == [
        {"code": "U+0007", "name": "control character", "times": 1},
        {"code": "U+2603", "name": "snowman", "times": 2},
        {"code": "U+2604", "name": "comet", "times": 1},
    ]


def test_texts_are_found_at_any_depth_and_other_values_are_left_alone():
    data = {"☃": ["☃", {"x": "☃", "n": 1.5, "none": None, "yes": True}]}
    made = drawable(data, (LATIN,), Undrawn())
    assert made == {"☃": ["‹U+2603›", {"x": "‹U+2603›", "n": 1.5, "none": None, "yes": True}]}


def test_the_signs_around_a_name_can_be_drawn_themselves():
    assert all(ord(char) in typeface().coverages[0] for char in "‹›…")
