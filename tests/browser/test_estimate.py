"""An estimate by touch: lines come as they are wanted, sums follow, the sheet prints alone."""

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from jobs.entries import ESTIMATE, PRICE, TAX
from jobs.logbook import enter
from jobs.models import Estimate
from jobs.models.people import OWNER
from tests.browser.touch import LANDSCAPE, PORTRAIT, record
from tests.factories import make_job, make_person, make_shop, make_told, tell

pytestmark = pytest.mark.django_db(transaction=True)


def test_lines_typed_and_taken_from_the_list_are_added_up_and_recorded(at):
    make_shop()
    owner = make_person(OWNER)
    price = {"what": "part", "name": "Clutch set", "price": "286", "unit": "piece"}
    tax = {"name": "Sales tax", "share": "8.25", "taken_on": ["parts"]}
    assert enter(PRICE, make_told(price, owner)).stands
    assert enter(TAX, make_told(tax, owner)).stands
    job = make_job()
    page = at(f"{reverse('estimate')}?job={job.key}", **LANDSCAPE)
    shown = page.locator("[data-line]:visible")
    expect(shown).to_have_count(1)
    page.locator("[data-from-list]").select_option(label="Clutch set, 286.00")
    expect(page.locator("#amount_1")).to_have_text("286.00\u00a0EUR")
    expect(page.locator(".priced-total")).to_contain_text("309.60")
    page.get_by_role("button", name="One more line").tap()
    expect(shown).to_have_count(2)
    page.keyboard.type("Air gap set")  # the new line has the cursor
    page.locator("[name=sort_2]").select_option("labor")
    page.locator("[name=quantity_2]").fill("0,5")
    page.locator("[name=price_2]").fill("96")
    expect(page.locator("#amount_2")).to_have_text("48.00\u00a0EUR")
    expect(page.locator(".priced-total")).to_contain_text("357.60")
    record(page)
    assert Estimate.objects.get().total == 35_760
    page.emulate_media(media="print")
    expect(page.locator(".sheet")).to_be_visible()
    for hidden in (".top", ".screen-only", ".bar"):
        expect(page.locator(hidden).first).to_be_hidden()


@pytest.mark.parametrize("width", [718, 740])  # between the margins of A4 and Letter at 96 dpi
def test_the_sums_of_a_currency_of_many_digits_stand_whole_on_the_paper(at, width):
    make_shop(currency="IDR")
    job = make_job(consent_amount=None, consent_how=None)
    line = {"sort_1": "part", "words_1": "Compressor", "quantity_1": "1"}
    made = tell(ESTIMATE, job, **line, price_1="1450000000.00")
    page = at(f"{reverse('estimate')}?job={job.key}&version={made.key}", **LANDSCAPE)
    page.emulate_media(media="print")
    page.set_viewport_size({"width": width, "height": 1000})
    for cell in page.locator(".sheet-lines td.amount").all():
        assert cell.evaluate("one => one.scrollWidth - one.clientWidth") <= 0, cell.inner_text()


@pytest.mark.parametrize("media", ["screen", "print"])
def test_price_and_how_much_stand_beside_each_other_and_no_word_breaks(at, media):
    """On an upright tablet, and on Letter's width at 96 dpi."""
    make_shop(currency="USD")
    job = make_job(consent_amount=None, consent_how=None)
    gas = {"sort_1": "fluid", "words_1": "Refrigerant R-134a", "quantity_1": "1620 g"}
    oil = {"sort_2": "fluid", "words_2": "Oil", "quantity_2": "80 mL", "price_2": "120.00"}
    lines = gas | oil | {"price_1": "42.00", "per_1": "kg", "per_2": "L"}
    made = tell(ESTIMATE, job, **lines)
    assert made.stands, made.form and made.form.errors
    page = at(f"{reverse('estimate')}?job={job.key}&version={made.key}", **PORTRAIT)
    page.emulate_media(media=media)
    if media == "print":
        page.set_viewport_size({"width": 718, "height": 1000})
    for cell in page.locator(".sheet-lines td").all():
        assert cell.evaluate("one => one.scrollWidth - one.clientWidth") <= 0, cell.inner_text()
    longest = page.locator(".sheet-lines td:nth-child(3)").first
    assert longest.inner_text().endswith("a kilogram")
    assert (
        longest.evaluate(
            """(one) => {
          const word = document.createRange();
          const text = one.firstChild;
          const begins = text.data.lastIndexOf("kilogram");
          word.setStart(text, begins);
          word.setEnd(text, begins + "kilogram".length);
          return word.getClientRects().length;
        }"""
        )
        == 1
    )
