"""Whatever is told in whatever order, how often and by how many: no milligram is lost or doubled.

Forms of every sort come in as entries, corrections before or after what they correct, replays of
keys with the same and with other content. What each cylinder holds is held to a reckoning in plain
Python of the entries that stand, and so is every place that a milligram can go to.
"""

import threading
import uuid
from collections import Counter
from dataclasses import dataclass, field, replace
from datetime import timedelta
from typing import Any

import pytest
from django.db import connection, transaction
from django.utils import timezone
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from jobs.entries import ENTRIES
from jobs.logbook import AGAIN, REUSED, EntryKind, enter
from jobs.models import Entry, Move
from jobs.models.people import OWNER
from tests.factories import make_job, make_person, make_shop, make_told
from tests.jobs.cylinders import all_held, make_cylinder

TARE = 7_000_000
# More often what leans on one another: work on the loop put right behind a weighing.
KINDS = (
    *("recovery", "weighing", "purchase", "charge", "transfer", "reclaim", "cylinder_gone"),
    *("recovery", "weighing", "recovery", "weighing"),
)


@dataclass(frozen=True)
class Form:
    """One form as somebody fills it: which sort, which two of three cylinders, how many grams."""

    kind: str
    one: int
    other: int
    grams: int
    minute: int  # when it happened, of a morning long gone
    corrects: int | None = None  # which earlier form of the same sort, by its place
    back: bool = False  # that it did not happen at all
    key: uuid.UUID = field(default_factory=uuid.uuid4)


def forms() -> st.SearchStrategy[list[Form]]:
    """Up to ten forms with moments of their own; some correct an earlier one of their sort."""
    one = st.builds(
        Form,
        kind=st.sampled_from(KINDS),
        one=st.sampled_from([0, 0, 0, 1, 2]),
        other=st.integers(0, 1),
        grams=st.integers(1, 3000),
        minute=st.just(0),
        corrects=st.one_of(st.none(), st.integers(0, 9)),
        back=st.sampled_from([False, False, False, True]),
        key=st.uuids(version=4),
    )
    return st.lists(one, min_size=3, max_size=10, unique_by=lambda form: form.key).map(tied)


def tied(listed: list[Form]) -> list[Form]:
    """The same with a moment each, and corrections of what there is to correct."""
    found: list[Form] = []
    for place, form in enumerate(listed):
        same = [at for at, before in enumerate(found) if before.kind == form.kind]
        number = form.corrects
        corrects = same[number % len(same)] if number is not None and same else None
        back = form.back and corrects is not None
        found.append(replace(form, minute=place * 7, corrects=corrects, back=back))
    return found


class Shop:
    """Three cylinders, a job, and a way to tell the logbook."""

    def __init__(self) -> None:
        make_shop()
        self.cylinders = [make_cylinder(), make_cylinder(), make_cylinder("contaminated")]
        self.job = make_job()
        self.person = make_person(OWNER)
        self.begun = timezone.now() - timedelta(days=2)

    def told(self, form: Form, keys: list[uuid.UUID], **changed: Any) -> tuple[EntryKind, Any]:
        """A form as the door gets it."""
        one = self.cylinders[form.one]
        other = self.cylinders[(form.one + 1 + form.other) % 3]
        amount = f"{form.grams} g"
        fields: dict[str, Any] = {"cylinder": one.key.hex, "is_done": "done"}
        fields |= {
            "purchase": {"amount": amount},
            "reclaim": {"amount": amount},
            "transfer": {"amount": amount, "to_cylinder": other.key.hex},
            "weighing": {"gross": f"{7000 + form.grams} g", "explained": "not_explained"},
            "cylinder_gone": {"how": "returned"},
            "recovery": {"grams_out": amount, "gas": "label"},
            "charge": {"grams_in": amount, "grams_in_why": "By the scale.", "fill": "top_up"},
        }[form.kind]
        of_loop = form.kind in ("recovery", "charge")
        if form.back:
            fields |= {"mistake": "yes"} if of_loop else {"taken_back": "yes"}
        corrects = keys[form.corrects] if form.corrects is not None else None
        at = self.begun + timedelta(minutes=form.minute)
        told = {"key": form.key, "corrects": corrects, "happened_at": at, **changed}
        job_key = self.job.key if of_loop else None
        return ENTRIES[form.kind], make_told(fields, self.person, job_key=job_key, **told)


def standing(forms: list[Form], arrived: list[int]) -> list[tuple[int, Form]]:
    """The forms that count, each with the moment of the first that it corrects: by plain rules.

    Of those that correct one another each comes behind what it corrects; of those that could come
    next the earliest does. The last one counts.
    """
    root: dict[int, int] = {}
    for place, form in enumerate(forms):
        root[place] = root[form.corrects] if form.corrects is not None else place
    counting = []
    for first in set(root.values()):
        waiting = [place for place in sorted(root) if root[place] == first]
        last = first
        done: set[int] = set()
        while waiting:
            free = [one for one in waiting if forms[one].corrects in (None, *done)]
            last = min(free, key=lambda one: (forms[one].minute, arrived.index(one)))
            waiting.remove(last)
            done.add(last)
        if not forms[last].back:
            counting.append((forms[first].minute, forms[last]))
    return sorted(counting, key=lambda one: one[0])


def reckoned(counting: list[tuple[int, Form]]) -> tuple[Counter[int], Counter[str]]:
    """What each of the three cylinders holds, and what went to each other place less what came."""
    held: Counter[int] = Counter()
    places: Counter[str] = Counter()
    for _, form in counting:
        mg, one, other = form.grams * 1000, form.one, (form.one + 1 + form.other) % 3
        if form.kind in ("weighing", "cylinder_gone"):
            stands = mg if form.kind == "weighing" else 0
            place = "unexplained" if form.kind == "weighing" else "supplier"
            places[place] += held[one] - stands
            held[one] = stands
            continue
        into = {"purchase": one, "recovery": one, "transfer": other}.get(form.kind)
        out = {"reclaim": one, "charge": one, "transfer": one}.get(form.kind)
        if into is not None:
            held[into] += mg
        if out is not None:
            held[out] -= mg
        if form.kind == "purchase":
            places["supplier"] -= mg
        elif form.kind == "reclaim":
            places["reclaim"] += mg
        elif form.kind != "transfer":
            places["car"] += mg if form.kind == "charge" else -mg
    return held, places


def booked() -> Counter[str]:
    """What went to each place other than cylinders less what came, by every row of the book."""
    places: Counter[str] = Counter()
    for move in Move.objects.filter(substance="refrigerant"):
        places[move.to_place] += move.amount
        places[move.from_place] -= move.amount
    del places["cylinder"]
    return places


def same_as_reckoned(shop: Shop, listed: list[Form], arrived: list[int]) -> None:
    """The book against the reckoning, milligram by milligram."""
    held, places = reckoned(standing(listed, arrived))
    by_book = all_held()
    assert {number: by_book.get(one.pk, 0) for number, one in enumerate(shop.cylinders)} == {
        number: held[number] for number in range(3)
    }
    found = booked()
    assert {name: found[name] for name in {*found, *places}} == {
        name: places[name] for name in {*found, *places}
    }
    assert sum(by_book.values()) + sum(found.values()) == 0


@pytest.mark.django_db
# No shrinking: a case is ten forms at most, and each try of it takes as long as the first.
@settings(max_examples=40, deadline=None, phases=[Phase.reuse, Phase.generate])
@given(listed=forms(), data=st.data())
def test_what_is_told_in_any_order_and_again_neither_loses_nor_doubles(listed, data):
    with transaction.atomic():
        shop, keys = Shop(), [one.key for one in listed]
        arrived = data.draw(st.permutations(range(len(listed))))
        for place in arrived:
            kind, told = shop.told(listed[place], keys)
            outcome = enter(kind, told)
            assert outcome.stands, outcome.form and outcome.form.errors
            again = data.draw(st.sampled_from(arrived[: arrived.index(place) + 1]))
            assert enter(*shop.told(listed[again], keys)).state == AGAIN
            other = shop.told(listed[again], keys, version=2)
            assert enter(*other).state == REUSED
        same_as_reckoned(shop, listed, list(arrived))
        transaction.set_rollback(True)


@pytest.mark.django_db(transaction=True)
def test_two_at_once_with_the_same_and_with_other_forms_count_each_once():
    listed = tied(
        [
            Form("purchase", 0, 0, 2000, 0),
            Form("weighing", 0, 0, 1900, 0),
            Form("recovery", 0, 0, 410, 0),
            Form("charge", 0, 0, 300, 0),
            Form("transfer", 0, 0, 500, 0),
            Form("purchase", 0, 0, 2100, 0, corrects=0),
            Form("weighing", 1, 0, 450, 0),
            Form("charge", 0, 0, 310, 0, corrects=0),
        ]
    )
    shop, keys = Shop(), [one.key for one in listed]
    together, wrong = threading.Barrier(2), []

    def tell(order: list[int]) -> None:
        try:
            together.wait(timeout=30)
            for place in order:
                outcome = enter(*shop.told(listed[place], keys))
                assert outcome.stands, outcome
        except BaseException as error:  # a thread's failure is the test's
            wrong.append(error)
            raise
        finally:
            connection.close()

    orders = [list(range(8)), [3, 1, 7, 0, 5, 2, 6, 4]]
    threads = [threading.Thread(target=tell, args=(order,)) for order in orders]
    for one in threads:
        one.start()
    for one in threads:
        one.join(timeout=120)
    assert wrong == []
    entries = Entry.objects.filter(key__in=keys).order_by("id").values_list("key", flat=True)
    same_as_reckoned(shop, listed, [keys.index(key) for key in entries])
