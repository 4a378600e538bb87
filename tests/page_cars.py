"""Cars of which little and much is known, for the tests that walk all pages."""

from typing import Any

from django.utils import timezone

from diagnostics.entries import DECISION, PRICES_TYPED, VERIFIED
from jobs.cylinder_entries import WEIGHING
from jobs.entries import (
    CHANGE,
    CONDITIONS,
    EQUIPMENT_CHECK,
    ESTIMATE,
    EVACUATION,
    HANDOVER,
    INVOICE,
    OIL,
    PLACE,
    PRICE,
    RECOVERY,
    TAG,
    TAX,
    WAITING,
)
from jobs.logbook import enter
from jobs.models import Person, Price, Tablet, Tax
from jobs.models.people import DESK, OWNER
from tests.diagnostics.jobs_told import COMES_NOT, HOLDS, LIQUID, Told, stood
from tests.diagnostics.test_issue import freeze
from tests.diagnostics.test_record_steps import make_step
from tests.diagnostics.verified_jobs import shown
from tests.factories import (
    INTAKE_FIELDS,
    make_job,
    make_person,
    make_shop,
    make_thing,
    make_told,
    qualify,
    tell,
)
from tests.jobs.cylinders import buy, make_cylinder
from tests.jobs.cylinders import told as tell_of_cylinder
from tests.jobs.test_photos import photo_of


def make_cars() -> dict[str, str]:
    """What fills the braces above: keys of jobs and of what else an address names."""
    make_shop()
    nothing = dict.fromkeys(INTAKE_FIELDS) | {"vin": "1J9RP1A36A164434", "plate": "RV.4736A"}
    name = "Bartholomäus Featherstonehaugh-Höll"
    bare = make_job(**nothing | {"complaint": "Warm.", "customer_name": name})
    whole, mended = make_job(), make_job()
    make_step(whole, seen="A click was heard.")
    if not freeze(whole).stands:
        raise AssertionError("the record was not issued")
    make_step(mended, corrects=make_step(mended).key)
    changed = stood(tell(CHANGE, mended, what="fitted", part="clutch", source="new"))
    pictured = make_job()
    picture = photo_of(pictured)
    return {
        "bare": str(bare.key),
        "whole": str(whole.key),
        "mended": str(mended.key),
        "change": str(changed.key),
        "photographed": str(pictured.key),
        "entry": str(picture.entry.key),
        "number": str(picture.number),
        "customer": str(whole.customer.key),
        "other_customer": str(mended.customer.key),
        "vehicle": str(whole.vehicle.key),
        "other_vehicle": str(mended.vehicle.key),
        "person": str(make_person(DESK, name="Noor Abanti", pin="x").key),
        **make_visits(),
        **make_decided(),
        **make_recovered(),
        **make_priced(),
        **make_lists(),
        "verified": make_verified(),
        **make_book(),
    }


def make_visits() -> dict[str, str]:
    """One car twice: closed, with a test that came late; and back, left in the middle of work."""
    first = Told(plate="MB.2207K", vin=None, customer_name="Jorun Ambrel")
    first.test(HOLDS)
    answers: dict[str, Any] = {
        "declined_by": "customer",
        "told_how": "phone",
        "reason": "Sells the car.",
    }
    stood(first.close("declined", **answers, picked_up="customer"))
    first.test(HOLDS)
    follows: dict[str, Any] = {"follows": str(first.job.key), "before": "comeback"}
    back = make_job(plate="MB.2207K", vin=None, customer_name="Jorun Ambrel", **follows)
    stood(tell(CHANGE, back, what="opened"))
    stood(tell(PLACE, back, bay="2", key_hook="7", promised_hour="16:00"))
    stood(tell(WAITING, back, what="vacuum", minutes="45"))
    stood(tell(WAITING, back, what="part", words="Condenser, ordered by telephone."))
    note = {"stands": ["hood_open", "open_capped"], "next_words": "Fit the condenser."}
    stood(tell(HANDOVER, back, **note))
    tag = stood(tell(TAG, back, reasons=["belt_off"], words="Short belt on.", before="Belt back."))
    return {
        "closed": str(first.job.key),
        "back": str(back.key),
        "came_back": str(back.vehicle.key),
        "came_back_with": str(back.customer.key),
        "tag": str(tag.key),
    }


def make_decided() -> dict[str, str]:
    """A car whose clutch does not take hold: priced, decided, and tested again since."""
    told = Told(plate="QD.3358T", vin=None, customer_name="Orla Vandermeer")
    told.test(COMES_NOT)
    prices: dict[str, Any] = {
        "hours_clutch_in_car": "1.5",
        "part_clutch": "286",
        "source_clutch": "new",
    }
    prices |= {"rate": "96", "keep_months": "3 years", "aside_gap_set": "No shim is left."}
    stood(told.tell(PRICES_TYPED, **prices))
    choice: dict[str, Any] = {
        "plan": "clutch_in_car",
        "decided_by": "customer",
        "reasons": ["shown"],
    }
    made = stood(told.tell(DECISION, **choice, why="Drives to the lake with it."))
    told.test(LIQUID)
    return {"decided": str(told.job.key), "decision": str(made.key)}


def make_book() -> dict[str, str]:
    """A cylinder that was filled too far, and weighed; one that is past its test."""
    one = make_cylinder(name="Cylinder 3")
    make_cylinder("contaminated", tested_until="2026-01-31")
    stood(buy(one, "9.9 kg"))
    fields = {"cylinder": one.key.hex, "gross": "16.8 kg", "explained": "vented"}
    weighed = stood(tell_of_cylinder(WEIGHING, fields))
    return {"cylinder": str(one.key), "weighed": str(weighed.key)}


def make_recovered() -> dict[str, str]:
    """A car whose refrigerant is out, in a cylinder that is not entered, its oil measured."""
    told = Told(plate="PN.5106V", vin=None, customer_name="Tamsin Oberg")
    told.test(LIQUID)
    out: dict[str, Any] = {"cylinder": "unnamed", "cylinder_named": "Blue, 14 kg", "gas": "label"}
    out |= {"grams_out": "410", "machine": "older", "temperature": "21", "waited": "again"}
    made = stood(told.tell(RECOVERY, **out, grams_again="12", came_back="35", oil_out="15"))
    oil: dict[str, Any] = {"oil": "pag46", "part": "compressor", "drained_old": "60"}
    oil |= {"arrived": "some", "drained_new": "120", "prefilled": "75", "allotted": "20"}
    stood(told.tell(OIL, **oil))
    vacuum: dict[str, Any] = {"gauge": "system", "depth": "430", "pumped": "25", "v1": "900"}
    vacuum |= {"m1": "10", "t1": "1", "p1": "470", "t2": "4", "p2": "520", "temperature": "22"}
    pumped = stood(told.tell(EVACUATION, **vacuum))
    keys = {"recovery": str(made.key), "pumped": str(pumped.key)}
    return {"recovered": str(told.job.key), **keys}


def make_priced() -> dict[str, str]:
    """A car with an estimate in two versions, the second without a price; billed beyond it."""
    told = Told(plate="VL.6613C", vin=None, customer_name="Sunniva Ahrendt-Oyelaran")
    lines = [("labor", "Clutch parts off and on", "1.5", "96"), ("part", "Clutch set", "", "286")]
    fields: dict[str, Any] = {}
    for at, row in enumerate(lines, 1):
        names = ("sort", "words", "quantity", "price")
        fields |= {f"{name}_{at}": text for name, text in zip(names, row, strict=True)}
    first = stood(told.tell(ESTIMATE, **fields, note="Ready on Friday."))
    again: dict[str, Any] = {"price_2": "", "sort_3": "sundry", "words_3": "Rags", "price_3": "4"}
    second = stood(told.tell(ESTIMATE, **fields | again, on=str(first.key)))
    billed = make_told(fields, make_person(DESK), job_key=told.job.key)
    return {
        "priced": str(told.job.key),
        "superseded": str(first.key),
        "version": str(second.key),
        "invoice": str(stood(enter(INVOICE, billed)).key),
    }


def make_verified() -> str:
    """A car measured before and after its new clutch, with caps and label told, in the cold."""
    told = shown(plate="TL.6604N", vin=None, customer_name="Orla Vandermeer")
    stood(told.tell(CONDITIONS, ambient="9"))
    label: dict[str, Any] = {
        "label": "updated",
        "label_refrigerant": "R-134a",
        "label_grams": "520",
    }
    stood(told.tell(VERIFIED, caps="missing", **label))
    return str(told.job.key)


def make_tablets(owner: Person) -> dict[str, str]:
    """One with a name that told what it keeps, one that was revoked and never told anything."""
    now = timezone.now()
    told = {"told_at": now, "last_contact": now, "unsent": 4, "photos": 1, "waiting": 1}
    kept = {"kept_bytes": 2_400_000, "oldest_at": now, "version": "0.1.0", "persisted": True}
    bay = Tablet.objects.create(name="Bay 2", browser="Chrome on Android", **told, **kept)
    gone = Tablet.objects.create(revoked_by=owner, revoked_at=now)
    return {"tablet": str(bay.key), "revoked": str(gone.key)}


def make_lists() -> dict[str, str]:
    """An instrument with a check, a card, a price and a tax."""
    owner, thing = make_person(OWNER), make_thing("leak_detector", label="Sniffer 2")
    checked = {"thing": str(thing.key), "checked_on": "2026-03-02", "until": "2027-03-02"}
    check = stood(enter(EQUIPMENT_CHECK, make_told(checked, owner)))
    price = {"what": "part", "name": "Clutch set", "price": "286", "unit": "piece"}
    tax = {"name": "Sales tax", "share": "8.25", "taken_on": ["parts", "refrigerant"]}
    carded = make_person(name="Ulrik Sand")
    qualify(carded)
    stood(enter(PRICE, make_told(price, owner)))
    stood(enter(TAX, make_told(tax, owner)))
    return {
        **make_tablets(owner),
        "thing": str(thing.key),
        "check": str(check.key),
        "carded": str(carded.key),
        "price": str(Price.objects.get().line),
        "tax": str(Tax.objects.get().line),
    }
