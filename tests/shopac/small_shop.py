"""A small real shop in a folder of its own: two jobs, a photo, a record, a person signed in."""

import subprocess
import sys
from pathlib import Path

from tests.shopac.starting import PROGRAM, environment

MAKE = """
import django
django.setup()
from django.core.management import call_command
from django.test import Client
call_command("migrate", verbosity=0)
from jobs.pins import hash_pin
from shopac import stamp
from django.conf import settings
from tests.diagnostics.test_issue import freeze
from tests.factories import make_job, make_person, make_shop
from tests.test_queries import take_picture
make_shop()
person = make_person("technician", name="R. Sand")
person.pin = hash_pin("2604", person.key)
person.save()
job = make_job()
make_job(plate="MB.2207K", customer_name="Jorun Ambrel")
take_picture(job)
assert freeze(job).stands
browser = Client(HTTP_HOST="127.0.0.1")
answer = browser.post("/sign_in/", {"person": str(person.key), "pin": "2604"})
assert answer.status_code == 302, answer.content.decode()
stamp.write(settings.DATA)
"""


def make(folder: Path) -> Path:
    """The folder, with the shop in it."""
    folder.mkdir()
    done = run(folder, "-c", MAKE)
    assert not done.returncode, done.stderr
    return folder


def run(folder: Path, *command: str, **more: str) -> subprocess.CompletedProcess[str]:
    """Run Python on that data folder."""
    return subprocess.run(
        [sys.executable, *command],
        cwd=PROGRAM,
        env={
            **environment(),
            "DJANGO_SETTINGS_MODULE": "shopac.settings",
            "SHOPAC_DATA": str(folder),
            "SHOPAC_ZONE": "Europe/Vienna",
            **more,
        },
        capture_output=True,
        text=True,
        check=False,
    )


def manage(folder: Path, *command: str, **more: str) -> subprocess.CompletedProcess[str]:
    """Run a command of `manage.py` on it."""
    return run(folder, "manage.py", *command, **more)
