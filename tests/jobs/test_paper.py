"""The paper as a file and as a reader sees it: pikepdf for the file, PDFium for the text."""

import io
import json
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest

from jobs.paper import fonts, typeset
from jobs.paper.frozen import RecordData, exact_text, sha256
from tests.jobs.records import (
    QUIST,
    SAND,
    complaint,
    pages,
    paper_of,
    printed,
    record_data,
    squeezed,
    step_data,
)

MILLIMETER = 72 / 25.4


def opened(data: RecordData) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(paper_of(data).pdf))


def test_the_same_data_makes_the_same_bytes():
    assert paper_of(record_data()).pdf == paper_of(record_data()).pdf


def test_one_other_figure_makes_other_bytes():
    other = record_data(lambda data: data["steps"][0]["readings"][0].update(text="12.39 V"))
    assert paper_of(record_data()).pdf != paper_of(other).pdf


def test_the_file_s_date_is_the_moment_of_issue():
    with opened(record_data()).open_metadata() as meta:
        made = datetime.fromisoformat(meta["xmp:CreateDate"])
    assert made == datetime(2026, 8, 26, 20, 5, tzinfo=UTC)


def test_the_file_claims_archive_level_3a_and_universal_access():
    with opened(record_data()).open_metadata() as meta:
        claims = {name: meta.get(name) for name in ("pdfaid:part", "pdfaid:conformance")}
        assert claims == {"pdfaid:part": "3", "pdfaid:conformance": "A"}
        assert meta.get("pdfuaid:part") == "1"


def test_the_file_is_tagged_and_names_its_language_and_title():
    pdf = opened(record_data())
    root = pdf.Root
    assert root.MarkInfo.Marked
    assert root.StructTreeRoot.K
    assert str(root.Lang) == "en-US"
    assert root.ViewerPreferences.DisplayDocTitle


def test_table_heads_are_marked_as_heads():
    pdf = opened(record_data())
    kinds = {
        str(one.S) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/S" in one
    }
    assert {"/Table", "/TH", "/TD", "/H1", "/H2"} <= kinds


def test_every_font_is_inside_the_file():
    pdf = opened(complaint("Ελληνικά Кириллица العربية ไทย 空调"))
    described = [
        one
        for one in pdf.objects
        if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/FontDescriptor"
    ]
    assert len(described) >= 4
    assert all("/FontFile2" in one or "/FontFile3" in one for one in described)


def test_the_frozen_data_is_attached_byte_for_byte():
    data = complaint("Größe 5 \u202e92.0\u202c \x00 😀 مرحبا\r\nend")
    pdf = opened(data)
    ((name, spec),) = pdf.attachments.items()
    assert name == "record-26-0001-issue-1.json"
    assert spec.get_file().read_bytes() == exact_text(data).encode()
    assert json.loads(spec.get_file().read_bytes()) == data
    assert spec.obj.AFRelationship == "/Data"


def test_the_printed_hash_is_that_of_the_attached_data():
    data = record_data()
    assert sha256(exact_text(data)) in printed(paper_of(data).pdf)


def test_every_page_bears_number_issue_plate_and_its_place():
    found = pages(paper_of(record_data(lambda data: data.update(steps=many(12)))).pdf)
    assert len(found) > 2
    for at, text in enumerate(found, start=1):
        assert squeezed("Job record 26-0001, issue 1 · KX.4731D") in squeezed(text)
        assert squeezed(f"page {at} of {len(found)}") in squeezed(text)


def test_the_end_mark_stands_once_on_the_last_page():
    found = pages(paper_of(record_data(lambda data: data.update(steps=many(12)))).pdf)
    ends = ["Endofrecord26-0001,issue1" in squeezed(text) for text in found]
    assert ends == [False] * (len(found) - 1) + [True]


@pytest.mark.parametrize(("paper", "size"), [("a4", (210, 297)), ("us-letter", (215.9, 279.4))])
def test_the_sheet_is_the_shop_s(paper: str, size: tuple[float, float]):
    data = record_data(lambda data: data["record"].update(paper=paper))
    for page in opened(data).pages:
        left, bottom, right, top = (float(edge) / MILLIMETER for edge in page.mediabox)
        assert (right - left, top - bottom) == pytest.approx(size, abs=0.1)


def test_a_number_is_shown_as_typed_only_where_it_was_typed_in_another_way():
    assert "12.38V(typed12,38)" in printed(paper_of(record_data()).pdf)
    same = record_data(lambda data: data["steps"][0]["readings"][0].update(typed="12.38"))
    assert "(typed" not in printed(paper_of(same).pdf)


def test_a_condition_stands_with_the_method():
    def engine(data: Any) -> None:
        data["steps"][0]["readings"][1].update(name="Engine", text="Off", condition=True)

    assert "EngineOff" not in printed(paper_of(record_data()).pdf)
    assert "Method,conditions:Engine:Off" in printed(paper_of(record_data(engine)).pdf)


def test_a_number_that_stands_in_the_finding_is_not_printed_twice():
    def told(data: Any) -> None:
        data["steps"][0].update(finding="12.38 V at the pins.")
        data["steps"][0]["readings"][0].update(typed="12.38")

    assert printed(paper_of(record_data(told)).pdf).count("12.38V") == 1


@pytest.mark.parametrize("finding", ["Pumped 112.38 V.", "From 0.90–12.38 V.", "It is 2.38 V."])
def test_a_number_that_is_only_the_end_of_another_one_is_printed_all_the_same(finding: str):
    def told(data: Any) -> None:
        data["steps"][0].update(finding=finding)
        data["steps"][0]["readings"][0].update(typed="12.38")

    assert "Voltsatitspins:12.38V" in printed(paper_of(record_data(told)).pdf)


def test_answers_that_say_the_same_stand_together():
    def alike(data: Any) -> None:
        read = data["steps"][0]["readings"][1]
        names = ("Hoses", "Condenser", "Fan")
        data["steps"][0]["readings"] = [{**read, "name": name, "text": "Fine"} for name in names]

    assert "Fine:Hoses,Condenser,Fan" in printed(paper_of(record_data(alike)).pdf)


def test_every_shown_text_of_the_data_is_on_the_paper():
    data = record_data(
        lambda data: (
            data["steps"][0].update(
                remark="Click heard, no pull.",
                marks=[{"text": "Voltage kept: odd.", "code": "outside", "field": "volts"}],
            ),
            data["not_done"][0].update(
                marks=[{"text": "Typed on another tablet.", "code": "other_tablet", "field": ""}]
            ),
            data["consents"][0].update(arrived="arrived 25 Aug 2026, 07:01"),
            data["corrections"].append(
                {"what": "step 3 replaced step 2", "by": "R. Sand", "at": "", "when": "later"}
                | {"arrived_at": "", "arrived": "arrived 27 Aug 2026, 08:10"}
                | {"code": "replaces", "field": "", "entry": SAND, "replaced": QUIST}
            ),
        )
    )
    found = printed(paper_of(data).pdf)
    assert not [text for text in shown(data) if squeezed(text) not in found]


def test_markup_in_a_text_stays_a_text():
    typed = (
        '#panic("x") *bold* _it_ $x^2$ = head <label> @ref `raw` \\u{41} <script>alert(1)</script>'
    )
    assert squeezed(typed) in printed(paper_of(complaint(typed)).pdf)


def test_an_override_cannot_turn_a_number_round():
    typed = {"typed": "\u202e92.0\u202c mm"}
    data = record_data(lambda data: data["steps"][0]["readings"][0].update(typed))
    paper = paper_of(data)
    found = printed(paper.pdf)
    assert "\u202e" not in found
    assert "(typed‹U+202E›92.0‹U+202C›mm)" in found
    assert [one["code"] for one in paper.undrawn] == ["U+202C", "U+202E"]


def test_writing_from_right_to_left_leaves_the_number_after_it_in_its_place():
    data = record_data(lambda data: data["steps"][0].update(notes=["علي", "3 relays"]))
    with pypdfium2.PdfDocument(paper_of(data).pdf) as document:
        page = document[1].get_textpage()
        name, number = (page.search(text).get_next() for text in ("علي", "3 relays"))
        assert name
        assert number
        assert page.get_charbox(name[0])[0] < page.get_charbox(number[0])[0]


def test_ten_thousand_characters_are_printed_whole():
    words = " ".join(f"w{number}" for number in range(1800))[:10_000]
    found = printed(paper_of(complaint(words)).pdf)
    assert squeezed(words) in re.sub(r"Jobrecord26-0001,issue1·KX.4731Dpage\dof\d", "", found)


def test_a_word_without_an_end_stays_on_the_sheet():
    def lengthen(data: Any) -> None:
        data["said"]["complaint"] = "W" * 10_000
        data["facts"][0]["lines"] = ["N" * 200]
        data["shop"]["name"] = "S" * 120
        data["record"]["plate"] = "P" * 40
        data["consents"][0]["given_by"] = "C" * 200
        data["steps"][0].update(by="M" * 28, test="T" * 60, remark="K" * 120)

    with pypdfium2.PdfDocument(paper_of(record_data(lengthen)).pdf) as document:
        for page in document:
            text = page.get_textpage()
            right = page.get_width() - 15 * MILLIMETER + 0.5
            drawn = (at for at in range(text.count_chars()) if text.get_text_range(at, 1).strip())
            boxes = [text.get_charbox(at) for at in drawn]  # a blank may hang over a line's end
            assert max(box[2] for box in boxes) <= right
            assert min(box[1] for box in boxes if box[1]) > 3 * MILLIMETER


def test_sixty_steps_keep_their_numbers_and_the_heads_on_every_page():
    found = pages(paper_of(record_data(lambda data: data.update(steps=many(60), opinion=[]))).pdf)
    held = [text for text in found if "Power straight" in text]
    assert all("Test: result; readings" in text for text in held)
    assert squeezed("".join(held)).count("Powerstraightatthecoil") == 60


def test_a_paper_that_can_draw_everything_lists_nothing():
    paper = paper_of(record_data())
    assert paper.undrawn == []
    assert "cannotdraw" not in printed(paper.pdf)


def test_the_code_that_opens_the_job_has_words_for_it():
    pdf = opened(record_data())
    told = [
        str(one.Alt) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one
    ]
    assert told == [f"Code that opens this job: {record_data()['record']['address']}"]


def test_without_an_address_there_is_no_code():
    data = record_data(lambda data: data["record"].update(address=""))
    assert typeset.square_code("") == ""
    assert not [
        one for one in opened(data).objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one
    ]


def test_a_typesetter_that_refuses_says_so(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    broken = tmp_path / "record.typ"
    broken.write_text("#set document(title: [x])\n#nothing-here")
    monkeypatch.setattr(typeset, "TEMPLATE", broken)
    with pytest.raises(typeset.CannotTypeset, match="could not be set: unknown variable"):
        paper_of(record_data())


def test_a_typesetter_that_hangs_is_given_up(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(typeset, "SECONDS_MAX", 0.001)
    with pytest.raises(typeset.CannotTypeset, match="not set within"):
        paper_of(record_data())


def test_a_missing_font_names_its_package(monkeypatch: pytest.MonkeyPatch):
    gone = fonts.Face("Inter", "fontpkg_not_there", "files/x.ttf")
    monkeypatch.setattr(fonts, "NEEDED", (gone,))
    with pytest.raises(fonts.FontMissing, match="install fontpkg-not-there"):
        fonts.typeface.__wrapped__()


def test_data_that_is_no_number_is_not_frozen():
    with pytest.raises(ValueError, match="JSON compliant"):
        exact_text(
            record_data(lambda data: data["steps"][0]["readings"][0].update(si=float("nan")))
        )


def test_frozen_text_does_not_depend_on_the_order_of_keys():
    data = record_data()
    turned: Any = dict(reversed(list(data.items())))
    assert exact_text(turned) == exact_text(data)


def many(count: int) -> list:
    return [step_data(number + 1) for number in range(count)]


def shown(value: object, name: str = "") -> list[str]:
    """The texts of the data that a reader must find on the paper."""
    if isinstance(value, dict):
        kept = {key: held for key, held in value.items() if key not in NOT_SHOWN}
        return [text for key, held in kept.items() for text in shown(held, key)]
    if isinstance(value, list):
        return [text for held in value for text in shown(held, name)]
    return [value] if isinstance(value, str) else []


NOT_SHOWN = frozenset(
    "schema job address paper key kind version standing"
    " at arrived_at done_at unit si si_unit currency values field code outcome failing_now role"
    " author stage touches entry how_code about_code signature replaced seen_at"
    # in the data alone: what one step says of a thing, and how a limit was worked out
    " bearings by_part source shop_pays seller_pays question".split()
)
