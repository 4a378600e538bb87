"""A job changes hands without the server: the note is on top of it for whoever comes next."""

from playwright.sync_api import expect

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, record
from tests.offline.test_kept import job_taken_in


def tap(page, words: str) -> None:
    page.locator(".answer", has_text=words).click()


def test_a_note_written_and_taken_over_without_the_server_arrives_once(tablet: Tablet, shop: Shop):
    job = job_taken_in(tablet)
    tablet.wait_for("shopac.store.all('jobs').then((all) => all.length === 1)")
    tablet.kept_ahead()
    shop.kill()
    page = tablet.open(f"/job/?job={job}")
    title = tablet.ask("shopac.store.all('jobs').then(([job]) => job.next.title)")
    page.get_by_role("link", name="Hand over").click()
    expect(page.locator("[data-next-test]")).to_contain_text(title)
    tap(page, "Hood open")
    tap(page, "Customer is waiting")
    page.get_by_label("Or to, by name").fill("Quist")
    record(page)
    page.get_by_role("link", name="Go on with this car").click()
    note = page.locator("[data-note]")
    for words in (
        "Handed over to Quist",
        "Hood open · Customer is waiting",
        f"Next: {title}",
    ):
        expect(note).to_contain_text(words)
    page.get_by_role("button", name="Taken over").click()
    expect(note).to_be_hidden()
    shop.start()
    tablet.wait_until_sent()
    assert [row["kind"] for row in shop.entries()] == ["intake", "handover", "taken_over"]
    assert tablet.say_what_is_wrong(shop) == []
    page = tablet.open(f"/steps/?job={job}")
    expect(page.get_by_text("Taken over by")).to_be_visible()
