"""A program that knows a few kinds of test only, so that what it offers next is plain."""

import re

import pytest

from diagnostics import weighing
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.inference.look import Looks
from diagnostics.evidence.inference.rows import Row, Rows
from diagnostics.evidence.tables import TABLES

ROOMS = ("weighing", "next_step", "since_changed", "templatetags.steps")
# A table that makes any kind worth its minutes: it tells all of the amount.
TELLS_ALL = Rows(("amount",), (Row({"amount": ("ok",)}, {"normal": 0.99}, "in these tests"),))


def worth_it(name: str) -> Looks:
    """A table by which that kind is worth its minutes."""
    direct = {"amount": ("ok", "low", "empty", "too_much")}
    return Looks(name, TELLS_ALL, ("normal", "odd"), ("normal",), direct)


def know_only(monkeypatch: pytest.MonkeyPatch, *names: str) -> None:
    """Leave these kinds only."""
    few = {name: KINDS[name] for name in names}
    for room in ROOMS:
        monkeypatch.setattr(f"diagnostics.{room}.KINDS", few)
    tables = {name: TABLES[name] for name in names}
    monkeypatch.setattr("diagnostics.weighing.TABLES", tables)


def make_worth_it(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    """Leave this kind only, and make it worth its minutes; what was kept of it before goes."""
    know_only(monkeypatch, name)
    monkeypatch.setattr("diagnostics.weighing.TABLES", {name: worth_it(name)})
    monkeypatch.setattr("diagnostics.weighing.engine", lambda: "another")
    weighing._concluded.cache_clear()


def named_next(page: str) -> list[str]:
    """The kinds that a job's page names as what comes next, the first as its filled bar."""
    part = page.partition("data-next-step")[2].partition("</section>")[0]
    return re.findall(r"/step/(\w+)/", part)
