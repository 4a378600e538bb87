"""Nothing goes on a network while somebody can sign in as README.md tells everybody."""

import pytest
from django.core.management import CommandError, call_command

from jobs.models import Person
from jobs.pins import hash_password, hash_pin
from shopac.demo_sign_ins import still_work
from shopac.management.demo.story import PEOPLE
from shopac.management.demo.told import key_of


@pytest.fixture
def people(db):
    """The demo's people as `manage.py demo` makes them, without its cars."""
    for name, role, pin, password in PEOPLE:
        key = key_of(name)
        Person.objects.create(
            key=key,
            name=name,
            role=role,
            pin=hash_pin(pin, key),
            password=hash_password(password, key) if password else "",
        )


def change(name: str, **fields: object) -> None:
    Person.objects.filter(name=name).update(**fields)


def test_in_a_shop_of_ones_own_none_works(db):
    assert still_work() == []


def test_each_of_the_demo_is_found(people):
    assert still_work() == [one[0] for one in PEOPLE]


def test_one_with_another_pin_and_one_who_left_are_not(people):
    change("R. Sand", pin=hash_pin("9051", key_of("R. Sand")))
    change("E. Quist", is_active=False)
    assert not {"R. Sand", "E. Quist"} & set(still_work())


def test_a_password_alone_is_enough_to_be_found(people):
    change("Noor Abanti", pin="")
    assert "Noor Abanti" in still_work()


def test_no_certificate_is_made_while_one_works(people, settings, tmp_path):
    settings.DATA = tmp_path
    with pytest.raises(CommandError, match="Everybody can read in README"):
        call_command("certify", "shop.home.arpa")
    assert list(tmp_path.iterdir()) == []
