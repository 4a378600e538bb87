"""Grams are held to label and scale while they are typed, in the words of the shop server."""

import pytest
from playwright.sync_api import expect

from jobs.entries import CHARGE, MACHINE_CYCLE, RECOVERY
from tests.browser.touch import PORTRAIT, answer
from tests.factories import make_job, tell
from tests.jobs.test_settings import UNITS
from tests.jobs.test_settings import tell as set_to

pytestmark = pytest.mark.django_db(transaction=True)
KINDS = {"charge": CHARGE, "recovery": RECOVERY, "machine_cycle": MACHINE_CYCLE}
# Page, what is typed, the field at which the shop server asks. The label says 520 g.
ROWS: list[tuple[str, dict[str, str], str]] = [
    (
        "charge",
        {"fill": "full", "grams_in": "634", "hose": "liquid", "hose_length": "2.5"},
        "grams_in",
    ),
    ("charge", {"fill": "full", "grams_in": "560", "hose": "liquid"}, ""),
    ("charge", {"fill": "full", "grams_in": "560", "hose": "machine"}, "grams_in"),
    ("charge", {"fill": "full", "grams_in": "505", "hose": "machine"}, ""),
    ("charge", {"fill": "full", "grams_in": "504.9", "hose": "machine"}, "grams_in"),
    (
        "charge",
        {"fill": "full", "grams_in": "504.9", "hose": "vapor", "hose_length": "8 ft"},
        "grams_in",
    ),
    ("charge", {"fill": "top_up", "grams_in": "120"}, ""),
    ("charge", {"fill": "top_up", "grams_in": "0.6 kg"}, "grams_in"),
    ("charge", {"fill": "full", "scale_before": "9.350", "scale_after": "8.675"}, "grams_in"),
    (
        "charge",
        {"fill": "full", "grams_in": "520", "scale_before": "9", "scale_after": "9.5"},
        "scale_after",
    ),
    ("machine_cycle", {"grams_out": "300", "grams_in": "450"}, "grams_in"),
    ("machine_cycle", {"grams_in": "450"}, ""),
    (
        "recovery",
        {"grams_out": "410", "read_by": "scale", "scale_before": "14", "scale_after": "14.46"},
        "grams_out",
    ),
    (
        "recovery",
        {"grams_out": "410", "read_by": "scale", "scale_before": "14", "scale_after": "14.42"},
        "",
    ),
]


def asked(kind: str, typed: dict[str, str], name: str) -> str:
    """What the shop server asks at a field, without the words that ask again."""
    outcome = tell(KINDS[kind], make_job(), cylinder="unnamed", **typed)
    if not name:
        assert outcome.stands, outcome.form and outcome.form.errors
        return ""
    assert outcome.form is not None
    return str(outcome.form.errors[name][0])


@pytest.mark.parametrize("ounces", [False, True])
def test_grams_are_held_to_label_hose_and_scale_as_on_the_shop_server(at, ounces: bool):
    job = make_job()
    if ounces:
        set_to(**UNITS)
    for kind, typed, name in ROWS:
        page = at(f"/{kind}/?job={job.key}", **PORTRAIT)
        page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        sent = dict(typed)
        for field, text in typed.items():
            if text.isalpha() or "_up" in text:
                answer(page, field, text)
                continue
            bare = text.replace(".", "").isdigit()
            unit = {"scale_before": "kg", "scale_after": "kg", "hose_length": "m"}.get(field, "g")
            sent[field] = f"{text} {unit}" if bare and ounces else text
            page.locator(f"[name={field}]").fill(sent[field])
            for hidden in page.locator(f"[name={field}_unit]").all():
                sent[f"{field}_unit"] = hidden.input_value()
        said = asked(kind, sent, name)
        shown = page.locator("[data-weighed]").first
        if not said:
            expect(shown).to_be_hidden()
            continue
        expect(shown).to_be_visible()
        assert said.startswith(shown.inner_text().strip())


def test_what_stays_in_the_hose_is_told_beside_it(at):
    """2.5 m of 4.8 mm hold 45 mL; liquid R-134a at 20 °C has 1225 kg/m³: 55 g.

    The density: ASHRAE Handbook, Fundamentals, R-134a; from memory.
    """
    page = at(f"/charge/?job={make_job().key}", **PORTRAIT)
    answer(page, "fill", "full")
    page.locator("[name=grams_in]").fill("575")
    answer(page, "hose", "liquid")
    page.locator("[name=hose_length]").fill("2.5")
    line = page.locator("[data-in-hose]")
    expect(line).to_have_text("About 55\u00a0g stay in the hose, 520\u00a0g go in.")
    expect(page.locator("[data-weighed]").first).to_be_hidden()
    answer(page, "hose", "machine")
    expect(line).to_be_hidden()
