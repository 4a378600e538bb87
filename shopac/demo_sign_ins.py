"""Whether somebody can still sign in as README.md tells everybody: no network then."""

from jobs.models import Person
from jobs.pins import is_password, is_pin
from shopac.management.demo.story import PEOPLE
from shopac.management.demo.told import key_of
from shopac.trouble import CannotStart


def refuse_demo_sign_ins() -> None:
    """Turn a shop away from its network while a sign-in of the demo works.

    Raises:
        CannotStart: one does.

    """
    working = still_work()
    if working:
        raise CannotStart(
            f"Everybody can read in README.md how {', '.join(working)} of the invented shop "
            f"{'signs' if len(working) == 1 else 'sign'} in, so it is not served on a network. "
            "Begin a shop of your own in another folder (--data DIR --empty), or start without "
            "--lan, and under People give each of them another PIN and password, or let them go."
        )


def still_work() -> list[str]:
    """The names of the demo's people whose PIN or password is the one that was published."""
    found = []
    for name, _, pin, password in PEOPLE:
        person = Person.objects.filter(key=key_of(name), is_active=True).first()
        if person and (is_pin(person, pin) or (password and is_password(person, password))):
            found.append(person.name)
    return found
