"""Checks of the settings that keep the shop's promises.

They run at every start and by `manage.py check`. Each has a number that does not change, a sentence
that says what is wrong, and one that says why it matters.
"""

import os
import stat
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Error, Tags, register
from django.core.checks import Warning as Remark

NEEDED_MIDDLEWARE = (
    "shopac.middleware.security_headers",
    "shopac.middleware.database_trouble",
    "shopac.middleware.bounded",
    "django.middleware.csrf.CsrfViewMiddleware",
    "shopac.middleware.nothing_lost",
)


def pages_read_without_a_transaction(**_: Any) -> Iterator[CheckMessage]:
    """E001."""
    for name, database in settings.DATABASES.items():
        if database.get("ATOMIC_REQUESTS"):
            yield Error(
                f"ATOMIC_REQUESTS is on for the database “{name}”.",
                hint="One slow page would hold every other for as long as it takes.",
                id="shopac.E001",
            )


def sqlite_takes_its_lock_first(**_: Any) -> Iterator[CheckMessage]:
    """E002 and E003."""
    for name, database in settings.DATABASES.items():
        if "sqlite" not in database["ENGINE"]:
            continue
        options = database.get("OPTIONS", {})
        if options.get("transaction_mode") != "IMMEDIATE":
            yield Error(
                f"The database “{name}” does not begin its transactions IMMEDIATE.",
                hint="Two who write at once would fail instead of waiting for each other.",
                id="shopac.E002",
            )
        start = str(options.get("init_command", "")).replace(" ", "").upper()
        if "JOURNAL_MODE=WAL" not in start or "SYNCHRONOUS=FULL" not in start:
            yield Error(
                f"The database “{name}” is not kept with WAL and synchronous=FULL.",
                hint="A power cut could lose an entry that a tablet was told had arrived.",
                id="shopac.E003",
            )


def secret_key_is_the_owners_alone(**_: Any) -> Iterator[CheckMessage]:
    """W004, as some disks keep no such modes; Windows guards a person's folder by other means."""
    path = Path(settings.DATA) / "secret_key"
    if os.name != "posix" or not path.exists():
        return
    mode = stat.S_IMODE(path.stat().st_mode)
    if mode & 0o077:
        yield Remark(
            f"Others on this machine can read the secret key ({path}, mode {mode:o}).",
            hint="It signs every sign-in and every author's pass: chmod 600, or make a new one.",
            id="shopac.W004",
        )


def data_lie_outside_the_program(**_: Any) -> Iterator[CheckMessage]:
    """E005."""
    data, program = Path(settings.DATA).resolve(), Path(settings.BASE_DIR).resolve()
    if data == program or program in data.parents:
        yield Error(
            f"The shop's data ({data}) lie inside the program ({program}).",
            hint="Replacing the program would throw the shop away. Name another SHOPAC_DATA.",
            id="shopac.E005",
        )


def nothing_typed_is_lost(**_: Any) -> Iterator[CheckMessage]:
    """E006 and E007."""
    if settings.CSRF_FAILURE_VIEW != "shopac.views.held_post.held_post":
        yield Error(
            "A form whose token ended is not led to the page that holds it (CSRF_FAILURE_VIEW).",
            hint="What was typed would be lost.",
            id="shopac.E006",
        )
    missing = [name for name in NEEDED_MIDDLEWARE if name not in settings.MIDDLEWARE]
    if missing:
        yield Error(
            f"Missing in MIDDLEWARE: {', '.join(missing)}.",
            hint="Headers, form tokens and the answers to trouble come from there.",
            id="shopac.E007",
        )


def photos_are_no_static_files(**_: Any) -> Iterator[CheckMessage]:
    """E008."""
    named = [one[1] if isinstance(one, tuple) else one for one in settings.STATICFILES_DIRS]
    static = [Path(str(one)) for one in (settings.STATIC_ROOT, *named)]
    for folder in ("photos", "originals"):
        place = (Path(settings.DATA) / folder).resolve()
        for root in (one.resolve() for one in static):
            if root == place or root in place.parents or place in root.parents:
                yield Error(
                    f"{place} would be served as static files from {root}.",
                    hint="Customers' photos are for people who are signed in, and for no others.",
                    id="shopac.E008",
                )


CHECKS: tuple[Callable[..., Iterator[CheckMessage]], ...] = (
    pages_read_without_a_transaction,
    sqlite_takes_its_lock_first,
    secret_key_is_the_owners_alone,
    data_lie_outside_the_program,
    nothing_typed_is_lost,
    photos_are_no_static_files,
)


def run_checks(**told: Any) -> list[CheckMessage]:
    """All of them, as Django asks."""
    return [message for check in CHECKS for message in check(**told)]


def register_checks() -> None:
    """Let Django run them."""
    register(run_checks, Tags.security)
