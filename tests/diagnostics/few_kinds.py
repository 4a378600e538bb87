"""A program that knows a few kinds of test only, so that what it offers next is plain."""

import re

import pytest

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import Row, Rows
from diagnostics.evidence.tables import TABLES

ROOMS = ("weighing", "next_step", "since_changed", "templatetags.steps")
# A kind without a table of its own is met as one that tells the amount.
STANDS_IN = Rows(("amount",), (Row({"amount": ("ok",)}, {"normal": 0.97}, "in these tests"),))


def table_of(name: str) -> Looks:
    """Its table, or one that makes it worth its minutes."""
    outcomes = ("normal", "odd")
    stands_in = Looks(name, STANDS_IN, outcomes, ("normal",), {"amount": ("ok", "low")})
    return TABLES.get(name, stands_in)


def know_only(monkeypatch: pytest.MonkeyPatch, *names: str) -> None:
    """Leave these kinds only."""
    few = {name: KINDS[name] for name in names}
    for room in ROOMS:
        monkeypatch.setattr(f"diagnostics.{room}.KINDS", few)
    tables = {name: table_of(name) for name in names}
    monkeypatch.setattr("diagnostics.weighing.TABLES", tables)


def named_next(page: str) -> list[str]:
    """The kinds that a job's page names as what comes next, the first as its filled bar."""
    part = page.partition("data-next-step")[2].partition("</section>")[0]
    return re.findall(r"/step/(\w+)/", part)
