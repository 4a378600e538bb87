"""Every page of the site as people meet it, for the tests that walk them all.

A new address gets one line here: in DRAWN how it is opened, or in NOT_DRAWN why nobody looks at it.
`{bare}`, `{whole}`, `{mended}`, `{closed}` and `{back}` are keys of jobs that `make_cars` takes in:
one of which next to nothing is known, one with all of it and an issued record, one with a corrected
test and a change, one that is closed, and its car, back in the shop with its loop open.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from django.http import HttpResponse
from django.template.loader import render_to_string
from django.test import Client, override_settings
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from diagnostics.entries import DECISION, PRICES_TYPED, VERIFIED
from diagnostics.evidence.catalogue import KINDS
from jobs.entries import (
    CHANGE,
    CONDITIONS,
    EQUIPMENT_CHECK,
    ESTIMATE,
    HANDOVER,
    INVOICE,
    PLACE,
    PRICE,
    RECOVERY,
    TAG,
    TAX,
    WAITING,
)
from jobs.forms.settings import PARTS as PARTS_OF_SETTINGS
from jobs.logbook import enter
from jobs.models import Price, Tax
from jobs.models.closing import ENDINGS
from jobs.models.people import DESK, OWNER
from jobs.models.prices import WHAT
from shopac.one_time import BEGIN, NEW_PASSWORD
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
from tests.jobs.test_photos import photo_of

EACH_CAR = tuple(f"?job={{{car}}}" for car in ("bare", "whole", "mended", "closed", "back"))
# How a page is opened, by its name: what stands behind its address.
DRAWN: dict[str, tuple[str, ...]] = {
    "board": ("", "?kept"),
    "claim": EACH_CAR,
    "charge": ("", "?job={bare}", "?job={mended}", "?job={recovered}", "?job={closed}"),
    "close": (
        *EACH_CAR,
        *(f"?job={{mended}}&closing_kind={code}" for code in ENDINGS),
        "?job={back}&closing_kind=released_unfinished",
    ),
    "conditions": ("", "?job={bare}", "?job={whole}"),
    "consent": ("", "?job={bare}", "?job={whole}"),
    "copy_check": ("",),
    "customer": ("", "?job={bare}", "?job={whole}"),
    "decision": (
        *("", *EACH_CAR),
        *("?job={decided}", "?job={decided}&plan=compressor", "?job={decided}&corrects={decision}"),
    ),
    "estimate": (
        *EACH_CAR,
        *("?job={decided}", "?job={priced}", "?job={priced}&version={version}"),
        *("?job={priced}&version={superseded}", "?job={priced}&from=decision"),
    ),
    "equipment": ("", "?new=1", "?thing={thing}", "?thing={thing}&corrects={check}"),
    "evacuation": ("", "?job={bare}", "?job={mended}", "?job={whole}"),
    "find": ("", "?words=473", "?words=zzz"),
    "follows": ("?job={bare}", "?job={mended}", "?job={back}"),
    "handover": ("", *EACH_CAR),
    "history": (
        *("?customer={customer}", "?vehicle={vehicle}", "?vehicle={came_back}&job={back}"),
        "?customer={came_back_with}",
    ),
    "intake": ("",),
    "invoice": (
        *EACH_CAR,
        *("?job={priced}", "?job={priced}&anew=1", "?job={priced}&version={invoice}"),
    ),
    "issue": EACH_CAR,
    "job": ("", *EACH_CAR),
    "machine_cycle": ("", "?job={bare}", "?job={whole}", "?job={recovered}"),
    "named": ("", "?job={bare}", "?job={whole}"),
    "old_part": ("", "?job={bare}", "?job={whole}"),
    "loop_parts": ("", "?job={bare}", "?job={mended}"),
    "merge": (
        *("?customer={customer}", "?customer={customer}&other={other_customer}"),
        *("?vehicle={vehicle}", "?vehicle={vehicle}&other={other_vehicle}"),
    ),
    "offline": ("",),
    "oil": ("", "?job={bare}", "?job={mended}", "?job={whole}"),
    "taken_out": ("", "?job={bare}", "?job={mended}", "?job={mended}&change={change}"),
    "options": ("", *EACH_CAR, "?job={decided}", "?job={decided}&price=fan"),
    "people": ("", "?person={person}", "?person={carded}"),
    "photo": ("", "?job={bare}", "?job={whole}"),
    "photos": ("?job={bare}", "?job={photographed}"),
    "photos_view": ("",),
    "place": ("", "?job={bare}", "?job={whole}", "?job={back}"),
    "points": EACH_CAR,
    "record": EACH_CAR,
    "recovery": (
        *("", "?job={bare}", "?job={mended}", "?job={recovered}"),
        "?job={recovered}&corrects={recovery}",
    ),
    "redact": ("?customer={customer}",),
    "repair": ("", "?job={bare}", "?job={mended}", "?job={back}"),
    "screen": ("",),
    "settings": (
        "",
        *(f"?part={part}" for part in (*PARTS_OF_SETTINGS, "prices", "taxes")),
        *(f"?part=prices&what={what}" for what in WHAT),
        "?part=prices&line={price}",
        "?part=taxes&new=1",
        "?part=taxes&line={tax}",
    ),
    "sign_in": ("", "?by=password", "?person={person}"),
    "stage": EACH_CAR,
    "step": ("?job={mended}",),  # each kind of test: see `kinds_drawn`
    "steps": EACH_CAR,
    "system": ("", "?job={bare}", "?job={whole}"),
    "tag": (*EACH_CAR, "?job={back}&said={tag}", "?job={back}&size=a6"),
    "unsent": ("",),
    "vehicle": ("", "?job={bare}", "?job={whole}"),
    "verdict": ("", *EACH_CAR),
    "verification": ("", *EACH_CAR, "?job={verified}"),
    "waiting": ("", "?job={bare}", "?job={whole}", "?job={back}"),
}
NOT_DRAWN = {
    "begin": "by a one-time word: see `answers`",
    "board_first": "leads to the board",
    "entries": "the door for tablets",
    "estimate_sums": "a part of a page",
    "equipment_check": "posted to only",
    "equipment_enter": "posted to only",
    "equipment_tablet": "posted to only",
    "handover_taken": "posted to only",
    "intake_known": "a part of a page",
    "invoice_sums": "a part of a page",
    "job_failing": "posted to only",
    "job_json": "for scripts",
    "jobs_json": "for scripts",
    "manifest": "for the browser",
    "new_password": "by a one-time word: see `answers`",
    "people_add": "posted to only",
    "people_change": "posted to only",
    "people_qualify": "posted to only",
    "photos_original": "a file",
    "photos_shown": "a picture",
    "ping": "for scripts",
    "points_override": "posted to only",
    "points_waive": "posted to only",
    "record_customer": "a file",
    "record_paper": "a file",
    "settings_change": "posted to only",
    "settings_price": "posted to only",
    "settings_tax": "posted to only",
    "sign_in_leave": "posted to only",
    "sign_in_tablet": "posted to only",
    "waiting_end": "posted to only",
    "worker": "for the browser",
}
# What stands in an address itself.
PARTS = {
    "digest": "0" * 64,
    "entry": "00000000-0000-0000-0000-000000000000",
    "kind_name": "coil_power",
    "number": "1",
}


def routes(resolver: URLResolver | None = None) -> dict[str, URLPattern]:
    """All addresses of the site, by name."""
    found: dict[str, URLPattern] = {}
    for part in (resolver or get_resolver()).url_patterns:
        found |= routes(part) if isinstance(part, URLResolver) else {str(part.name): part}
    return found


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


def make_recovered() -> dict[str, str]:
    """A car whose refrigerant is out, in a cylinder that is not entered, its oil measured."""
    told = Told(plate="PN.5106V", vin=None, customer_name="Tamsin Oberg")
    told.test(LIQUID)
    out: dict[str, Any] = {"cylinder": "unnamed", "cylinder_named": "Blue, 14 kg", "gas": "label"}
    out |= {"grams_out": "410", "machine": "older", "temperature": "21", "waited": "again"}
    made = stood(told.tell(RECOVERY, **out, grams_again="12", came_back="35", oil_out="15"))
    return {"recovered": str(told.job.key), "recovery": str(made.key)}
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
        "thing": str(thing.key),
        "check": str(check.key),
        "carded": str(carded.key),
        "price": str(Price.objects.get().line),
        "tax": str(Tax.objects.get().line),
    }


def addresses(cars: dict[str, str]) -> dict[str, str]:
    """Every page with these cars, by its name and what stands behind it."""
    found = {}
    for name, behind in DRAWN.items():
        parts = {one: (PARTS | cars)[one] for one in routes()[name].pattern.converters}
        for one in behind:
            found[f"{name} {one}".strip()] = reverse(name, kwargs=parts) + one.format(**cars)
    return found


def kinds_drawn(cars: dict[str, str]) -> dict[str, str]:
    """The page of each kind of test on the car of which most is known."""
    return {f"step {kind}": f"{reverse('step', args=[kind])}?job={cars['whole']}" for kind in KINDS}


def answers(cars: dict[str, str]) -> dict[str, HttpResponse]:
    """The pages that answer a post, a mistake or a word of one time: they have no name."""
    desk = Client(raise_request_exception=False)
    desk.force_login(make_person(DESK))
    nobody = Client(raise_request_exception=False)
    typed = {
        "customer_name": "Ida",
        "plate": "",
        "complaint": "Blows warm.",
        "label_charge": "9 kg",
    }
    found: dict[str, Any] = {
        "not your page": desk.post(f"{reverse('repair')}?job={cars['whole']}", {"note": "x"}),
        "held post": nobody.post(reverse("intake"), typed),
        "no entry": desk.post(reverse("intake"), typed | {"key": "x"}),
        "intake with problems": desk.post(reverse("intake"), typed),
        "consent with problems": desk.post(
            f"{reverse('consent')}?job={cars['whole']}", {"consent_amount": "much"}
        ),
        "screen with a problem": nobody.post(reverse("screen"), {"mm": "99"}),
        "no such page": nobody.get("/nothing/here/"),
        "used link to begin": nobody.get(reverse("begin")),
        "used link to a password": nobody.get(reverse("new_password")),
    }
    with words_of_one_time() as word:
        at = {"token": word}
        found["new password"] = nobody.get(reverse("new_password"), at)
    for status in ("400", "403", "500"):
        found[status] = HttpResponse(render_to_string(f"{status}.html"), status=int(status))
    said = {"why": "The shop server is busy writing."}
    found["trouble"] = HttpResponse(render_to_string("shopac/trouble.html", said), status=503)
    return found


@contextmanager
def words_of_one_time() -> Iterator[str]:
    """A data folder with a word that opens the pages behind a link of one time."""
    with TemporaryDirectory() as folder, override_settings(DATA=Path(folder)):
        for name in (BEGIN, NEW_PASSWORD):
            (Path(folder) / name).write_text("a-word-of-one-time")
        yield "a-word-of-one-time"
