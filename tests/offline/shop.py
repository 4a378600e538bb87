"""A shop server as a process of its own, which can be killed, and what its disk then says."""

import json
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from shopac import serve
from shopac.lan import chosen, kept
from tests.shopac.starting import PROGRAM, environment, free_port
from tests.trust import make_home

# As tablets know it; the browser is told that this leads to this machine.
NAME = "shop.home.arpa"

CARELESS: dict[str, str] = {}  # settings by which a test makes the server careless
# Migrates, collects, makes a shop and two people, and signs one in as a browser would.
PREPARE = """
import json, os, sys
import django
django.setup()
from django.core.management import call_command
from django.test import Client
call_command("migrate", verbosity=0)
call_command("collectstatic", interactive=False, verbosity=0)
from jobs.pins import hash_pin
from tests.factories import make_person, make_shop
make_shop()
person = make_person("technician", name="R. Sand")
person.pin = hash_pin("2604", person.key)
person.save()
other = make_person("technician", name="E. Quist")
other.pin = hash_pin("3517", other.key)
other.save()
browser = Client(HTTP_HOST="127.0.0.1")
told = {"person": str(person.key), "pin": "2604"}
answer = browser.post("/sign_in/", told)
assert answer.status_code == 302, answer.content.decode()
print(json.dumps({name: cookie.value for name, cookie in browser.cookies.items()}))
"""


@dataclass(frozen=True)
class Prepared:
    """A data folder to copy, the cookies of a browser that signed in there, what it trusts, a port.

    The port is the same for every shop of a run: what a tablet keeps, it keeps for one address.
    """

    folder: Path
    cookies: dict[str, str]
    home: Path
    port: int


def prepare(folder: Path) -> Prepared:
    """Make the data folder that every shop of this run begins with, certificates and all."""
    done = subprocess.run(
        [sys.executable, "-c", PREPARE],
        cwd=PROGRAM,
        env=settings(folder),
        check=True,
        capture_output=True,
        text=True,
    )
    kept.ensure(folder, NAME, [], datetime.now(UTC))
    home = make_home(folder.with_name(f"{folder.name}-home"), chosen.authority(folder))
    return Prepared(folder, json.loads(done.stdout.splitlines()[-1]), home, free_port())


def settings(folder: Path) -> dict[str, str]:
    """The environment of a shop with this data folder."""
    return environment() | {
        "DJANGO_SETTINGS_MODULE": "shopac.settings",
        "SHOPAC_DATA": str(folder),
        "SHOPAC_ZONE": "Europe/Vienna",
        "SHOPAC_TEST_FAULTS": str(folder / "faults.json"),
        **CARELESS,
    }


class Shop:
    """The server on a copy of the prepared folder: over TLS as in a shop, or on loopback."""

    def __init__(self, prepared: Prepared, folder: Path, *, secure: bool = True) -> None:
        shutil.copytree(prepared.folder, folder)
        self.folder = folder
        self.cookies = prepared.cookies
        self.home = prepared.home
        self.door = serve.Door(prepared.port, *((NAME, folder) if secure else ()))
        self.server: subprocess.Popen[bytes] | None = None

    @property
    def port(self) -> int:
        """Where it listens."""
        return self.door.port

    def environment(self) -> dict[str, str]:
        """What the start command would have set for the server."""
        return settings(self.folder) | serve.environment(self.door)

    @property
    def authority(self) -> Path:
        """The certificate that a tablet has to trust."""
        return chosen.authority(self.folder)

    def start(self, *, wait: bool = True) -> None:
        """Serve, and wait until it answers."""
        command = serve.granian(sys.executable, self.door)
        command[-1] = "tests.faults:application"
        self.server = subprocess.Popen(
            command, env=self.environment(), cwd=PROGRAM, start_new_session=True
        )
        if wait:
            serve.wait_until_it_answers(self.server, self.door)

    def kill(self) -> None:
        """Pull the plug: parent and worker at once."""
        if self.server:
            with suppress(ProcessLookupError):
                os.killpg(self.server.pid, signal.SIGKILL)
            self.server.wait()
            self.server = None

    def pause(self) -> None:
        """It stands still, as when the machine sleeps; its lines stay open."""
        assert self.server is not None
        os.killpg(self.server.pid, signal.SIGSTOP)

    def go_on(self) -> None:
        """It wakes up."""
        assert self.server is not None
        os.killpg(self.server.pid, signal.SIGCONT)

    def clock(self, seconds: float) -> None:
        """From now on the server's clock is off by so much."""
        (self.folder / "clock").write_text(str(seconds))

    def wait_until_dead(self) -> None:
        """After an accident that kills it."""
        assert self.server is not None
        self.server.wait(20)
        self.kill()

    def fault(self, do: str, **rule: Any) -> None:
        """Order an accident; those ordered before stay."""
        path = self.folder / "faults.json"
        rules = json.loads(path.read_text()) if path.exists() else []
        path.write_text(json.dumps([*rules, {"do": do, **rule}]))

    def no_faults(self) -> None:
        """From now on nothing happens any more."""
        (self.folder / "faults.json").unlink(missing_ok=True)

    @property
    def faults_left(self) -> int:
        """How many accidents have not happened yet."""
        path = self.folder / "faults.json"
        return len(json.loads(path.read_text())) if path.exists() else 0

    def rows(self, sql: str, *values: Any) -> list[dict[str, Any]]:
        """What the database file says."""
        with closing(sqlite3.connect(self.folder / "shop.sqlite3", timeout=10)) as file:
            file.row_factory = sqlite3.Row
            return [dict(row) for row in file.execute(sql, values)]

    def author(self, entry: dict[str, Any]) -> str:
        """The name of an entry's author."""
        [person] = self.rows("SELECT name FROM jobs_person WHERE id = ?", entry["author_id"])
        return str(person["name"])

    def write(self, sql: str) -> None:
        """Change the database file behind the server's back."""
        with closing(sqlite3.connect(self.folder / "shop.sqlite3", timeout=10)) as file:
            file.execute(sql)
            file.commit()

    def entries(self) -> list[dict[str, Any]]:
        """The logbook in the order it was written, keys as tablets spell them."""
        found = self.rows("SELECT * FROM jobs_entry ORDER BY id")
        for row in found:
            row["fields"] = json.loads(row["fields"])
            row["photos"] = json.loads(row["photos"])
            for name in ("key", "job_key", "corrects"):
                row[name] = dashed(row[name]) if row[name] else None
        return found


def dashed(key: str) -> str:
    """A UUID as SQLite has it, with its dashes."""
    key = key.replace("-", "")
    return "-".join((key[:8], key[8:12], key[12:16], key[16:20], key[20:]))
