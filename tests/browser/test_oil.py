"""Oil told by touch: what has to go back is worked out as on the shop server, while it is typed."""

import pytest
from playwright.sync_api import expect

from diagnostics.physics.oil import Arrived, OilTold, match_oil
from diagnostics.physics.units import shown, with_unit
from jobs.entries import OIL
from jobs.models import LoopWork
from tests.browser.touch import PORTRAIT, answer
from tests.factories import make_job, tell

pytestmark = pytest.mark.django_db(transaction=True)
# Drained of the old, floor, out with the refrigerant, for other parts, how the new came, drained
# of the new, the whole loop's: mL, by drain and match.
ROWS: tuple[tuple[int, int, int, int, Arrived, int | None, int | None], ...] = (
    (60, 0, 18, 12, "some", 120, None),
    (20, 45, 0, 0, "dry", None, None),
    (80, 0, 0, 30, "some", 60, None),
    (70, 0, 0, 0, "whole_system", None, 135),
    (50, 0, 0, 0, "some", 50, None),
)


def test_drain_and_match_is_worked_out_as_on_the_shop_server(at):
    page = at(f"/oil/?job={make_job().key}", **PORTRAIT)
    answer(page, "part", "compressor")
    for old, floor, refrigerant, allotted, arrived, new, system in ROWS:
        answer(page, "arrived", arrived)
        typed: dict[str, int | None] = {
            "drained_old": old,
            "floor": floor,
            "with_refrigerant": refrigerant,
        }
        typed |= {"allotted": allotted, "drained_new": new, "system": system}
        for name, amount in typed.items():
            field = page.locator(f"[name={name}]")
            if field.is_enabled():
                field.fill("" if amount is None else str(amount))
        told = OilTold(
            arrived,
            old * 1000,
            floor * 1000,
            refrigerant * 1000,
            allotted * 1000,
            None if new is None else new * 1000,
            None if system is None else system * 1000,
        )
        plan = match_oil(told)
        line = page.locator("[data-match]")
        expect(line).to_contain_text(f"{ml(plan.needed)} have to go back in all")
        done = f"add {ml(plan.add)}." if plan.brought else f"Put in {ml(plan.add)}."
        if plan.drain:
            done = f"drain {ml(plan.drain)} of it and add none."
        elif plan.add == 0:
            done = "Drain none and add none."
        expect(line).to_contain_text(done)


def ml(microliters: int) -> str:
    """As both sides show it."""
    return with_unit(shown(microliters / 1000, 0), "mL")


def test_oil_told_before_has_to_go_back_too_and_a_record_is_made_by_touch(at):
    job = make_job()
    tell(OIL, job, with_refrigerant="18")
    page = at(f"/oil/?job={job.key}", **PORTRAIT)
    expect(page.get_by_label("Drained from the old part")).to_be_hidden()
    answer(page, "part", "compressor")
    page.get_by_label("Drained from the old part").fill("60")
    answer(page, "arrived", "dry")
    expect(page.locator("[data-match]")).to_contain_text("78\xa0mL have to go back in all")
    page.get_by_label("Put in from the bottle").fill("78")
    page.get_by_role("button", name="Record this oil").click()
    page.wait_for_url("**/job/**")
    assert LoopWork.objects.latest("id").told["added"]["typed"] == "78"
