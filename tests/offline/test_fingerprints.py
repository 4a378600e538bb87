"""One file of entries and their fingerprints, for the server's function and the page's."""

import hashlib
import json
import uuid
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from jobs.logbook import NotAnEntry, clean_fields, fingerprint
from tests.conftest import TESTS

VECTORS: list[dict[str, Any]] = json.loads((TESTS / "offline" / "fingerprints.json").read_text())
SCRIPT = Path(TESTS).parent / "static" / "offline" / "fingerprint.js"
IN_THE_PAGE = """(vectors) => Promise.all(vectors.map(async (one) => ({
  text: shopac.canonical(one),
  fingerprint: await shopac.fingerprint(one),
})))"""


@pytest.fixture
def page_with_script(page: Page) -> Page:
    """A page of a secure origin with nothing but the script; hashing needs one."""
    page.route(
        "**/*", lambda route: route.fulfill(body="<!doctype html>", content_type="text/html")
    )
    page.goto("http://localhost/")
    page.add_script_tag(path=SCRIPT)
    return page


def test_there_are_enough_of_them_and_each_text_is_hashed_as_written():
    assert len(VECTORS) >= 60
    for one in VECTORS:
        assert hashlib.sha256(one["text"].encode()).hexdigest() == one["fingerprint"], one["name"]


@pytest.mark.parametrize("one", VECTORS, ids=lambda one: one["name"])
def test_the_server_makes_the_same_of(one: dict[str, Any]):
    job = uuid.UUID(one["job"]) if one["job"] else None
    corrects = uuid.UUID(one["corrects"]) if one["corrects"] else None
    happened_at = datetime.fromisoformat(one["happened_at"]) if one["happened_at"] else None
    made = fingerprint(
        one["kind"], one["version"], job, one["fields"], one["photos"], corrects, happened_at
    )
    assert made == one["fingerprint"]


def test_the_page_makes_the_same_of_all(page_with_script: Page):
    made = page_with_script.evaluate(IN_THE_PAGE, VECTORS)
    wrong = [
        one["name"]
        for one, told in zip(VECTORS, made, strict=True)
        if (told["text"], told["fingerprint"]) != (one["text"], one["fingerprint"])
    ]
    assert wrong == []


@pytest.mark.parametrize("name", ["Volts", "1volt", "vo-lts", "a b", "ä", "", "n" * 61])
def test_both_turn_away_a_field_that_no_form_of_ours_has(page_with_script: Page, name: str):
    with pytest.raises(NotAnEntry):
        clean_fields({name: ["1"]})
    turned_away = page_with_script.evaluate(
        "(name) => { try { shopac.cleanFields({ [name]: ['1'] }); return false; }"
        " catch (error) { return error instanceof TypeError; } }",
        name,
    )
    assert turned_away
