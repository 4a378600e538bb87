"""Careless variants of the program, which the campaign must catch, or it proves nothing."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Playwright

from tests.campaign.crew import Crew
from tests.campaign.run import Campaign
from tests.offline.shop import CARELESS, Prepared
from tests.offline.test_careless import CARELESS as SCRIPTS

ROUNDS = 9


@dataclass(frozen=True)
class Variant:
    """How a variant is made, and the accidents under which it has to show."""

    only: str
    settings: dict[str, str] = field(default_factory=dict)
    rule: dict[str, Any] | None = None


def script(name: str) -> dict[str, Any]:
    """The rule that serves a careless script of the test suite."""
    told = SCRIPTS[name]
    path = f"/static/offline/{told['file']}."
    return {"do": "replace", "method": "GET", "path": path, "texts": told["texts"]}


VARIANTS = {
    "thrown away before it is sent": Variant(
        "1 server killed before", rule=script("thrown away before it is sent")
    ),
    "any 200 is taken for the server's word": Variant(
        "4-8 an answer", rule=script("any 200 is taken for the server's word")
    ),
    "the receipt outside the transaction": Variant(
        "2 server killed", {"SHOPAC_TEST_NO_TRANSACTION": "1"}
    ),
    "synchronous=NORMAL": Variant("21 server loses power", {"SHOPAC_TEST_SYNCHRONOUS": "NORMAL"}),
}


def caught(
    playwright: Playwright, prepared: Prepared, folder: Path, seed: int, say: Callable[[str], None]
) -> dict[str, list[str]]:
    """What the campaign says of each variant; an empty list: it was not caught."""
    found = {}
    for number, (name, variant) in enumerate(VARIANTS.items()):
        CARELESS.clear()
        CARELESS.update(variant.settings)
        crew = Crew(playwright, prepared, folder / f"careless{number}", 1, seed)
        crew.standing = [variant.rule] if variant.rule else []
        campaign = Campaign(crew, ROUNDS, say, variant.only)
        campaign.stops = True
        try:
            crew.begin()
            campaign.run()
        finally:
            crew.close()
            CARELESS.clear()
        wrong = campaign.told.wrong
        found[name] = [f"{kind}: {one}" for kind, told in wrong.items() for one in told][:3]
        say(f"careless, {name}: {'caught' if found[name] else 'NOT CAUGHT'}")
    return found
