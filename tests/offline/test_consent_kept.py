"""A consent told without the server: work in words with its sums, a drawn name, arrives once."""

import json

from playwright.sync_api import expect

from tests.browser.test_consent import draw
from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, record, says
from tests.offline.test_kept import job_taken_in


def test_a_signed_consent_in_words_is_kept_on_the_tablet_and_arrives_as_it_was_drawn(
    tablet: Tablet, shop: Shop
):
    job = job_taken_in(tablet)
    tablet.kept_ahead()
    shop.kill()
    page = tablet.open(f"/consent/?job={job}")
    expect(page.locator("main")).to_contain_text("stand on the shop server")
    page.locator("[name=work]").fill("Front hose renewed")
    answer(page, "consent_outcome", "agreed")
    page.locator("[name=consent_added]").fill("100")
    page.locator("[name=consent_amount]").fill("250")
    answer(page, "consent_how", "in_person")
    draw(page, (0.1, 0.6), (0.3, 0.2), (0.5, 0.8), (0.7, 0.3))
    answer(page, "old_parts", "returned")
    record(page)
    says(page, "Kept on this tablet")
    shop.start()
    tablet.wait_until_sent()
    told = shop.rows("select amount, added, strokes, text from jobs_consent order by id")[-1]
    assert (told["amount"], told["added"]) == (25000, 10000)
    assert len(json.loads(told["strokes"])[0]) == 8
    assert "Agreed to by: the customer. Contact: in person." in told["text"]
    choices = shop.rows("select choice from jobs_oldpartchoice")
    assert [row["choice"] for row in choices] == ["returned"]
    assert tablet.say_what_is_wrong(shop) == []
