"""The ways to repair, what each costs now, and what was typed of hours and prices."""

import uuid
from collections.abc import Iterable
from typing import Any

from django.forms.boundfield import BoundField
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from diagnostics.decided import decisions_of, last_of
from diagnostics.entries import PRICES_TYPED
from diagnostics.evidence.options.repairs import OPTIONS
from diagnostics.evidence.options.repairs_clutch import PARTS_OF_CLUTCH
from diagnostics.forms.options import OptionsForm, filled
from diagnostics.offers_told import NOTHING_FOUND, NOTHING_SINCE, beside, of_cost, parted
from diagnostics.options_now import OptionsNow, options_now
from diagnostics.own_figures import THEN
from diagnostics.price_sheet import AMOUNT, ASIDE, HOURS, SOURCE, Sheet
from diagnostics.prices_asked import all_names, names_of, with_sent
from jobs.forms.prices import hours_words
from jobs.ledger import plain_grams
from jobs.logbook import enter
from jobs.models import Job
from jobs.models.people import BAY, OWNER
from jobs.models.wordings import in_shop_time
from jobs.views.access import role_of, signed_in
from jobs.views.answer import answer
from jobs.views.asked import asked_job, asked_key
from jobs.views.posted import told_from_post


@signed_in()
def options(request: HttpRequest) -> HttpResponse:
    """The ways of the job in the address; without one, the neutral page that a tablet keeps."""
    if request.method != "POST" and asked_key(request) is None:
        said = {"job": None, "kind": PRICES_TYPED, "key": "", "form": OptionsForm()}
        return render(request, "diagnostics/options.html", said | {"groups": all_groups()})
    job = asked_job(request)

    def show(form: Any) -> HttpResponse:
        return show_options(request, job, form)

    if request.method != "POST":
        return show(None)
    told = told_from_post(request, PRICES_TYPED.version, job.key)
    return answer(request, enter(PRICES_TYPED, told), show)


def show_options(request: HttpRequest, job: Job, form: OptionsForm | None) -> HttpResponse:
    """The page; `form` is the one that came back with problems."""
    now = options_now(job)
    main, others, none = parted(now.told)
    also = now.ways.by_code.get(request.GET.get("price", ""))
    priced = [one.offer for one in main] + ([also] if also else [])
    priced += [one.offer for one in none] if priced else []
    names = names_of(priced, owner=role_of(request) == OWNER and bool(pair_of(now)))
    asked = form or OptionsForm(job_key=job.key, initial=starts(now.sheet, now))
    asked.ask(name for group in names.values() for name in group)
    if asked.is_bound:
        names = with_sent(names, asked.typed_fields())
    said = {
        "job": job,
        "kind": PRICES_TYPED,
        "key": request.POST.get("key") or uuid.uuid4(),
        "form": asked,
        "groups": grouped(asked, names, now.sheet),
        "now": now,
        "main": main,
        "others": others,
        "none": none,
        "bars": [*main, *none],
        "nothing_found": "" if main else nothing_found(job),
        "beside": beside(now.ways, main, now.sheet.currency),
        "pays": now.tests_that_pay,
        "missing": list(dict.fromkeys(text for one in priced for text in one.cost.missing)),
        "aside": [
            (OPTIONS[code].words, why, told_by(now.sheet, f"{ASIDE}{code}"))
            for code, why in now.sheet.set_aside.items()
        ],
        "decision": last_of(decisions_of(job)),
        "may_test": role_of(request) in BAY,
    }
    return render(request, "diagnostics/options.html", said)


def nothing_found(job: Job) -> str:
    """That nothing is shown, on the car as it came in or as it was changed."""
    return NOTHING_SINCE if job.car_states.exists() else NOTHING_FOUND


def starts(sheet: Sheet, now: OptionsNow) -> dict[str, Any]:
    """What the form starts with."""
    return {"figure_pair": pair_of(now), **filled(sheet)}


def pair_of(now: OptionsNow) -> str:
    """The two repairs that the owner's own figure would be about: the cheapest, and what is due."""
    cheap = next((one.offer for one in now.told if one.offer.also_possible), None)
    codes = [one.code for one in cheap.options] if cheap else []
    after = next((code for code in codes if code in PARTS_OF_CLUTCH), "")
    then = next((code for code in THEN if after and code in now.ways.by_code), "")
    return f"{after}>{then}" if then else ""


def all_groups() -> list[dict[str, Any]]:
    """Every field there is, for a page whose script leaves those of one job."""
    form, names = OptionsForm(), all_names()
    form.ask(name for group in names.values() for name in group)
    return grouped(form, names, Sheet(""))


def grouped(form: OptionsForm, names: dict[str, list[str]], sheet: Sheet) -> list[dict[str, Any]]:
    """The fields by their group, each with what counts where it is left empty."""
    return [
        {
            "name": group,
            "fields": [field_told(form[name], sheet) for name in listed if name in form.fields],
            "open": form.is_bound and any(name in form.errors for name in listed),
            "said": said_of(listed, sheet),
        }
        for group, listed in names.items()
        if listed
    ]


def said_of(names: Iterable[str], sheet: Sheet) -> str:
    """How much of a group is told, by a person or by the price list."""
    counted = [name for name in names if not name.startswith(SOURCE) and name != "figure_pair"]
    typed = sum(sheet.value(name) is not None for name in counted)
    return f"{typed} of {len(counted)} told."


def field_told(field: BoundField, sheet: Sheet) -> BoundField:
    """A field whose hint says what the price list has, and who typed what stands in it."""
    name = field.name
    told = told_by(sheet, name)
    if told:
        field.help_text = f"{field.help_text} {told}".strip()
    elif name in sheet.listed:
        one = sheet.listed[name]
        value = listed_words(name, one.value, sheet.currency)
        field.help_text = f"Left empty: {value} ({one.line})."
    return field


def told_by(sheet: Sheet, name: str) -> str:
    """Who typed what stands, and when."""
    entry = sheet.by.get(name) if name in sheet.values else None
    return f"{entry.author.name}, {in_shop_time(entry.happened_at)}." if entry else ""


def listed_words(name: str, value: int, currency: str) -> str:
    """A value of the list, as it would be typed."""
    if name.startswith(HOURS):
        return f"{hours_words(value)} h"
    if name.startswith(AMOUNT):
        return f"{plain_grams(value)} g"
    return of_cost(value, currency)
