"""Load a small invented shop through the door: people, some cars, a few steps, one record."""

from collections.abc import Mapping, Sequence
from datetime import timedelta
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import transaction
from django.utils import timezone

from jobs.logbook import Told, enter
from jobs.models import Entry, Person, Shop
from jobs.photos import Sent
from jobs.pins import hash_password, hash_pin
from shopac.door import ENTRIES
from shopac.management.demo.bays import BAYS
from shopac.management.demo.comeback import AGAIN, BEFORE, WEIGHED, WEIGHED_AGAIN
from shopac.management.demo.cylinders import CYLINDERS
from shopac.management.demo.decision import DECIDED
from shopac.management.demo.ended import ENDED
from shopac.management.demo.on_the_way import ON_THE_WAY
from shopac.management.demo.one_tap import ONE_TAP
from shopac.management.demo.people import cards_and_instruments
from shopac.management.demo.photos import photos
from shopac.management.demo.settings import SETTINGS
from shopac.management.demo.story import CARS, PEOPLE, SHOP, WAYS, handed_over
from shopac.management.demo.told import FIRST_OWNER, SAND, Line, key_of
from shopac.management.demo.whole import WHOLE
from shopac.management.demo.whole_job import JOB

# The earlier visit comes first: a job's number is given in the order in which jobs arrive.
STORY = (
    *CYLINDERS,
    *WEIGHED,
    *BEFORE,
    *ENDED,
    *ON_THE_WAY,
    *WHOLE,
    *ONE_TAP,
    *CARS,
    *handed_over(),
    *DECIDED,
    *AGAIN,
    *WEIGHED_AGAIN,
    *WAYS,
    *BAYS,
)


class Command(BaseCommand):
    """`manage.py demo`: safe to call again; refuses where a real shop is."""

    help = __doc__

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Load what is missing and print how to sign in.

        Raises:
            CommandError: the data folder belongs to a real shop.

        """
        shop = Shop.objects.first()
        if shop and not shop.demo:
            raise CommandError(f"{shop.name} is a real shop; the demo is not loaded into it.")
        people = make_people()
        tell_settings(people)
        keys = {name: str(one.key) for name, one in people.items()}
        for name, kind, fields in cards_and_instruments(keys):
            tell(people, (name, 46, FIRST_OWNER, kind, "", fields))
        for line in STORY:
            tell(people, line)
        for line, photo in photos():
            tell(people, line, [photo])
        if Entry.objects.filter(key=key_of(JOB)).exists():  # not where the story was cut short
            tell(people, whole_record())
        self.stdout.write("Demo sign-ins (invented people):")
        for name, _, pin, password in PEOPLE:
            by_password = f", password: {password}" if password else ""
            self.stdout.write(f"  {name}: {people[name].role_words}, PIN {pin}{by_password}")


@transaction.atomic
def make_people() -> dict[str, Person]:
    """Shop and people, made once; a PIN that was changed since stays changed.

    As in a real shop, the first owner's row is the only one that no entry made.
    """
    people: dict[str, Person] = {}
    for line in sorted(PEOPLE, key=lambda line: line[0] != FIRST_OWNER):
        name, key = line[0], key_of(line[0])
        if not Person.objects.filter(key=key).exists():
            make_person(people, *line)
        people[name] = Person.objects.get(key=key)
    if not Shop.objects.exists():
        tell(people, ("shop", 48, FIRST_OWNER, "shop", "", SHOP))
        Shop.objects.update(demo=True)
    return people


def whole_record() -> Line:
    """The record of the story told in full; an issue says how many entries it rests on."""
    job = key_of(JOB)
    told = str(Entry.objects.filter(job_key=job).count())
    return (f"{JOB} issue", 0, SAND, "issue", JOB, {"issue": "1", "entries": told})


def tell_settings(people: Mapping[str, Person]) -> None:
    """What the owner set, told once; what was changed since stays changed."""
    for name, kind, fields in SETTINGS:
        tell(people, (f"settings {name}", 46, FIRST_OWNER, kind, "", fields))


def make_person(
    people: Mapping[str, Person], name: str, role: str, pin: str, password: str
) -> None:
    """The first owner as a row, anybody else as that owner's entry, whose key is theirs."""
    key = key_of(name)
    hashes = {"pin": hash_pin(pin, key)}
    if password:
        hashes["password"] = hash_password(password, key)
    if name == FIRST_OWNER:
        Person.objects.create(key=key, name=name, role=role, **hashes)
    else:
        hashed = {f"{what}_hash": value for what, value in hashes.items()}
        told = {"name": name, "role": role, **hashed}
        tell(people, (name, 47, FIRST_OWNER, "person", "", told))
    Person.objects.filter(key=key).update(demo=True)


def tell(people: Mapping[str, Person], line: Line, photos: Sequence[Sent] = ()) -> None:
    """One line of the story through the logbook, unless it is there; its job empty: on none."""
    name, hours_ago, who, kind, job, fields = line
    if Entry.objects.filter(key=key_of(name)).exists():
        return
    listed = {
        field: [value] if isinstance(value, str) else value for field, value in fields.items()
    }
    told = Told(
        key=key_of(name),
        version=ENTRIES[kind].version,
        job_key=key_of(job) if job else None,
        fields=listed,
        author=people[who],
        sender=people[who],
        photos=list(photos),
        typed_at=timezone.now() - timedelta(hours=hours_ago),
    )
    outcome = enter(ENTRIES[kind], told)
    if not outcome.stands:
        problems = outcome.form.errors.as_json() if outcome.form else outcome.why
        raise CommandError(f"The demo's line “{name}” was not taken: {problems}")
