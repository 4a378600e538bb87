"""Careless variants of our own scripts must make the checks go red, or the checks prove nothing."""

from typing import Any

import pytest

from tests.offline.shop import Shop
from tests.offline.tablet import Tablet, answer, fill_intake, record, until
from tests.offline.test_kept import job_taken_in

STATUS_ALONE = (
    "const taken = echoed && (status === 200 || status === 201) && TAKEN.has(said.state);",
    "const taken = status === 200 || status === 201;",
)
WHATEVER_IT_SAYS = [("said.result ||", "said?.result ||"), ("said.place ||", "said?.place ||")]
CARELESS: dict[str, dict[str, Any]] = {
    "thrown away before it is sent": {
        "file": "sender",
        "texts": [
            (
                'item.attempts += 1;\nat("items").put(item);',
                'item.attempts += 1;\nat("items").delete(item.sequence);',
            )
        ],
        "accident": {"do": "die_before", "times": 1},
        "seen": "on the server 0 times",
    },
    "any 200 is taken for the server's word": {
        "file": "sender",
        "texts": [STATUS_ALONE, *WHATEVER_IT_SAYS],
        "accident": {"do": "fail", "status": "200 OK", "body": "<h1>Free Wi-Fi</h1>", "times": 1},
        "seen": "on the server 0 times",
    },
    "a new key for every attempt": {
        "file": "sender",
        "texts": [
            STATUS_ALONE,
            *WHATEVER_IT_SAYS,
            ("const said = { key, kind,", "const said = { key: crypto.randomUUID(), kind,"),
        ],
        "accident": {"do": "die_after", "times": 1},
        "seen": "twice on the server",
    },
    "announced when it is kept": {
        "file": "entry",
        "texts": [('strong("Kept on this tablet")', 'strong("On the shop server")')],
        "accident": {"do": "die_before", "times": 1},
        "seen": "too early",
    },
    "the header counts what was sent last": {
        "file": "tablet",
        "texts": [("items.length - needs;", "0;")],
        "accident": {"do": "fail", "status": "500 Internal Server Error"},
        "seen": "header says",
    },
}


def with_variant(new_tablet: Tablet, shop: Shop, file: str, texts: list[Any]) -> Tablet:
    """The tablet, its pages served with a careless script."""
    shop.fault("replace", method="GET", path=f"/static/offline/{file}.", texts=texts)
    new_tablet.sign_in()
    new_tablet.kept_ahead()
    return new_tablet


@pytest.mark.parametrize("name", CARELESS)
def test_the_checks_go_red_for_what_is(new_tablet: Tablet, shop: Shop, name: str):
    careless = CARELESS[name]
    tablet = with_variant(new_tablet, shop, careless["file"], careless["texts"])
    page = tablet.open("/intake/")
    shop.fault(**careless["accident"])
    fill_intake(page, "KX.4731D")
    record(page)
    if careless["accident"]["do"].startswith("die"):
        shop.wait_until_dead()
        shop.start()
    until(lambda: any(careless["seen"] in one for one in tablet.say_what_is_wrong(shop)), 40)


def test_the_checks_go_red_when_a_later_entry_overtakes(new_tablet: Tablet, shop: Shop):
    lanes = (
        "if (!first.has(item.lane)) first.set(item.lane, item);",
        "first.set(item.key, item);",
    )
    tablet = with_variant(new_tablet, shop, "sender", [lanes])
    job_taken_in(tablet)
    shop.fault("wait", seconds=2, times=1)
    answer(tablet.page, "failing", "yes")
    until(lambda: shop.faults_left == 1)  # the variant itself
    answer(tablet.page, "failing", "no")
    until(lambda: len(shop.entries()) == 3)
    tablet.open("/unsent/")
    tablet.wait_until_sent()
    assert any("order of" in one for one in tablet.say_what_is_wrong(shop))
