"""One test a script: the file is made, and it says what it could not draw."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobs.paper.fonts import typeface
from jobs.paper.frozen import exact_text
from jobs.paper.typeset import Paper, typeset
from tests.jobs.records import complaint, paper_of, printed, squeezed


def drawn(text: str) -> tuple[str, list[str | int]]:
    """What a reader finds of a complaint, and the codes the paper could not draw."""
    paper = paper_of(complaint(text))
    return printed(paper.pdf), [one["code"] for one in paper.undrawn]


@pytest.mark.parametrize(
    "text",
    [
        "Žluťoučký kůň, Größe, naïve façade, Øre, Łódź, ğış, Ngô Đình Diệm",
        "½ 20 °C ±0.1 Ω µm ≤ 3 ≥ 2 → 4 € − – — “x” «y»",
        "Кондиционер не холодит; компрессор стучить; ґрунт, Њ, Ђ",
        "Το κλιματιστικό δεν ψύχει από την περασμένη εβδομάδα",
        "แอร์ไม่เย็น",
        "空调不制冷，離合器不吸合。エアコンが効かない 에어컨",
    ],
    ids=["latin", "signs", "cyrillic", "greek", "thai", "chinese"],
)
def test_a_script_with_a_font_is_drawn_whole(text: str):
    found, undrawn = drawn(text)
    assert undrawn == []
    assert squeezed(text) in found


def test_arabic_is_shaped_and_can_be_read_from_the_file():
    found, undrawn = drawn("السيارة عند الورشة")
    assert undrawn == []
    assert squeezed("السيارة عند الورشة") in found


def test_persian_keeps_the_joiner_inside_its_words():
    assert drawn("نمی\u200cکند")[1] == []


def test_hebrew_without_its_font_is_named():
    paper = typeset(exact_text(complaint("מזגן")), typeface(optional=False))
    assert [one["code"] for one in paper.undrawn] == ["U+05D2", "U+05D6", "U+05DE", "U+05DF"]
    assert "‹U+05DEU+05D6U+05D2U+05DF›" in printed(paper.pdf)


def test_chinese_without_its_font_is_named_and_counted():
    text = "空调不制冷" * 4
    paper = typeset(exact_text(complaint(text)), typeface(optional=False))
    found = printed(paper.pdf)
    assert "‹U+7A7AU+8C03U+4E0DU+5236U+51B7U+7A7AU+8C03U+4E0Dand12more›" in found
    assert "U+51B7cjkunifiedideograph-51b7(4times)" in found
    assert len(paper.undrawn) == 5


def test_ten_thousand_undrawable_characters_do_not_fill_a_book():
    paper = typeset(exact_text(complaint("空" * 10_000)), typeface(optional=False))
    assert "and9992more›" in printed(paper.pdf)


def test_a_long_list_of_undrawn_characters_is_counted():
    text = "".join(chr(0x4E00 + 2 * number) for number in range(100))
    paper = typeset(exact_text(complaint(text)), typeface(optional=False))
    assert "and40more.Theexacttextisintheattacheddata." in printed(paper.pdf)


def test_emoji_are_named():
    found, undrawn = drawn("hot 😀 👨\u200d👩")
    assert undrawn == ["U+200D", "U+1F468", "U+1F469", "U+1F600"]
    assert "hot‹U+1F600›‹U+1F468U+200DU+1F469›" in found
    assert "U+1F600grinningface" in found


def test_control_characters_are_named():
    found, undrawn = drawn("a\x00b\x1b[31mc\x7f\x9f")
    assert undrawn == ["U+0000", "U+001B", "U+007F", "U+009F"]
    assert "a‹U+0000›b‹U+001B›[31mc‹U+007FU+009F›" in found
    assert "U+0000controlcharacter" in found


def test_what_turns_or_hides_writing_is_named():
    hidden = (
        "\u200b\u200e\u200f\u061c\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff\u00ad"
    )
    found, undrawn = drawn(hidden)
    assert set(undrawn) == {f"U+{ord(char):04X}" for char in hidden}
    assert not set(hidden) & set(found)


def test_the_first_page_points_to_the_list():
    assert "Somecharactersofthisrecordcannotbedrawn" in drawn("😀")[0]


anything = st.text(st.characters(codec=None, exclude_categories=()), max_size=60)


@given(st.lists(anything, min_size=20, max_size=40))
@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_whatever_is_typed_the_file_is_made(texts: list[str]):
    paper = paper_of(complaint("\n".join(texts)))
    assert isinstance(paper, Paper)
    assert paper.pdf.startswith(b"%PDF-")
