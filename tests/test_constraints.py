"""What the database itself does not take, whoever writes: every constraint of every table."""

import re

import pytest
from django.apps import apps
from django.db import IntegrityError, models, transaction
from django.db.models import F

from diagnostics.entries import DECISION, PRICES_TYPED
from jobs.entries import (
    CHANGE,
    CONSENT,
    ESTIMATE,
    INVOICE,
    LOOP_PARTS,
    NAMED,
    OLD_PART,
    PRICE,
    RECOVERY,
    TAX,
)
from jobs.logbook import enter
from jobs.models import Photo, Reused, Tablet
from jobs.models.people import OWNER
from tests.diagnostics.step_forms import tell as tell_step
from tests.factories import make_job, make_person, make_shop, make_thing, make_told, qualify, tell
from tests.jobs.cylinders import buy, make_cylinder, stood
from tests.jobs.test_record import make_record

pytestmark = pytest.mark.django_db
ROOMS = ("shopac", "jobs", "diagnostics")
CONSTRAINTS = {
    constraint.name: (model, constraint)
    for room in ROOMS
    for model in apps.get_app_config(room).get_models()
    for constraint in model._meta.constraints
}
# What breaks a condition. Columns that are once are broken by those of another row.
BROKEN_BY: dict[str, dict[str, object]] = {
    "cylinder_kind_known": {"kind": "balloon"},
    "cylinder_work_between_two": {"to_cylinder": F("cylinder")},
    "cylinder_work_known": {"what": "painting"},
    "loop_work_known": {"what": "painting"},
    "move_goes_somewhere": {
        "from_place": "car",
        "from_cylinder": None,
        "to_place": "car",
        "to_cylinder": None,
    },
    "move_moves_something": {"amount": 0},
    "move_names_its_cylinder": {"from_place": "cylinder", "from_cylinder": None},
    "move_places_known": {"from_place": "pocket"},
    "move_substance_known": {"substance": "water"},
    "consent_has_its_amount": {"outcome": "agreed", "amount": None},
    "named_speaks_for_somebody": {"speaks_for": "nobody"},
    "old_part_choice_known": {"choice": "lost"},
    "check_holds_from_its_day": {"checked_on": "2026-03-04", "until": "2026-03-03"},
    "decision_has_a_plan": {"plan": ""},
    "estimate_adds_up": {"total": 28_601},
    "invoice_adds_up": {"total": 28_601},
    "invoice_has_a_total": {"total": None},
    "job_stage_known": {"stage": "paused"},
    "person_role_known": {"role": "boss"},
    "qualification_ends_after_it_begins": {"valid_from": "2026-03-04", "valid_to": "2026-03-03"},
    "qualification_kind_known": {"kind": "driving"},
    "record_issue_from_one": {"issue": 0},
    "prices_typed_in_a_currency": {"currency": ""},
    "price_not_below_zero": {"amount": -1},
    "price_what_known": {"what": "favor"},
    "shop_air_is_air": {"air_pa": 500},
    "shop_comeback_days": {"comeback_days": 0},
    "shop_halves_known": {"tax_halves": "away"},
    "shop_is_one": {"id": 2},
    "shop_paper_known": {"paper": "a3"},
    "stage_move_closed_somehow": {"to": "closed", "closing_kind": ""},
    "stage_move_known": {"came_from": "paused"},
    "shop_record_years": {"record_years": 101},
    "shop_rounding_known": {"tax_rounding": "up"},
    "shop_sundries_known": {"sundries": "some"},
    "tablet_name_once": {"name": "BAY 1"},
    "tablet_revoked_by_somebody": {"revoked_at": "2026-03-04T10:00Z"},
    "tablet_told_whole": {"unsent": 3, "waiting": 4},
    "tax_share": {"millionths": 1_000_001},
    "step_has_a_kind": {"kind": ""},
}


@pytest.fixture(autouse=True)
def two_of_everything() -> None:
    """Two jobs with a row in every table; of the shop there is one."""
    make_shop()
    for issue in (1, 2):
        job = make_job()
        assert tell(CONSENT, job, consent_amount="300", consent_how="phone").stands
        assert tell(CHANGE, job, what="fitted", part="clutch", source="new").stands
        assert tell(LOOP_PARTS, job, condenser="clean").stands
        assert tell(NAMED, job, named_name="J. Pell", speaks_for="payer").stands
        assert tell(OLD_PART, job, choice="shop").stands
        assert tell(NAMED, job, named_name="J. Pell", speaks_for="payer").stands
        assert tell(OLD_PART, job, choice="shop").stands
        assert tell(LOOP_PARTS, job, condenser="clean").stands
        clamp = make_thing("current_clamp", checked_on="2026-01-05")
        assert tell_step(job, with_current=str(clamp.key)).stands
        assert tell(PRICES_TYPED, job, rate="96").stands
        assert tell(DECISION, job, plan="nothing", decided_by="customer", why="Sold.").stands
        qualify(make_person())
        Tablet.objects.create(name=f"Bay {issue}")
        make_record(job, issue)
        lines = {"sort_1": "part", "words_1": "Clutch set", "price_1": "286"}
        assert tell(ESTIMATE, job, **lines).stands
        assert enter(INVOICE, make_told(lines, make_person(OWNER), job_key=job.key)).stands
        owner = make_person(OWNER)
        stood(buy(make_cylinder(), "5 kg"))
        assert tell(RECOVERY, job, grams_out="410 g", gas="label").stands
        assert enter(
            PRICE, make_told({"what": "labor", "name": "Bay", "price": "90"}, owner)
        ).stands
        tax = {"name": "Tax", "share": "8.25", "taken_on": ["parts"]}
        assert enter(TAX, make_told(tax, owner)).stands
        Photo.objects.create(entry=job.entry, number=1, sent_bytes=1)
        same = {field.name: getattr(job.entry, field.name) for field in Reused._meta.fields[1:]}
        Reused.objects.create(**same)


def breaking(name: str, first: models.Model) -> dict[str, object]:
    """Columns that break a constraint when another row than the first gets them."""
    if name in BROKEN_BY:
        return BROKEN_BY[name]
    if name == "person_name_once":
        return {"name": str(first).upper()}
    _, constraint = CONSTRAINTS[name]
    assert isinstance(constraint, models.UniqueConstraint), f"{name}: what breaks it?"
    return {column: getattr(first, column) for column in constraint.fields}


@pytest.mark.parametrize("name", sorted(CONSTRAINTS))
def test_a_row_that_breaks_a_constraint_is_not_taken(name: str):
    model, _ = CONSTRAINTS[name]
    rows = list(model._default_manager.order_by("pk"))
    columns = breaking(name, rows[0])
    # SQLite names a constraint on plain columns by these, and what a table is held to by its name.
    table = f"{model._meta.db_table}.{[*columns][-1]}"
    told = rf"\b({name}|{re.escape(table)})\b"
    with pytest.raises(IntegrityError, match=told), transaction.atomic():
        model._default_manager.filter(pk=rows[-1].pk).update(**columns)
