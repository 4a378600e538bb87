"""Every statement boundary inside one entry's transaction: the process is killed there, once each.

    .venv/bin/python -m tests.campaign.statements

posts an intake, a test with its photo and a charge to `/entries/` on a data folder of its own. For
every boundary a child process takes the post and is killed before its n-th statement, COMMIT
included; then all of the entry is there or nothing. The same post, sent again, is taken once and
whole. One process for each boundary, so that nothing but the disk is left of it.
"""

import base64
import hashlib
import json
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import uuid
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

from tests.offline.shop import Prepared, prepare, settings
from tests.offline.tablet import picture
from tests.shopac.starting import PROGRAM

# Reads posts from standard input, a line each, and takes them in a child that may have to die.
TAKER = """
import base64, json, os, signal, sys
import django
django.setup()
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.db import connections
Client(HTTP_HOST="127.0.0.1").get("/ping/")  # what is loaded once need not be by every child
connections.close_all()

def take(told):
    browser = Client(HTTP_HOST="127.0.0.1")
    for name, value in told["cookies"].items():
        browser.cookies[name] = value
    at = 0
    def count(execute, sql, params, many, context):
        nonlocal at
        at += 1
        if at == told["die_before"]:
            os.kill(os.getpid(), signal.SIGKILL)
        return execute(sql, params, many, context)
    def commit():
        nonlocal at
        at += 1
        if at == told["die_before"]:
            os.kill(os.getpid(), signal.SIGKILL)
        return committed()
    entry = dict(told["entry"])
    if told["pass"]:
        entry["pass"] = browser.get("/ping/").json()["pass"]
    body = {"entry": json.dumps(entry)}
    if told["photo"]:
        data = base64.b64decode(told["photo"])
        body["photo_1"] = SimpleUploadedFile("a.jpg", data, "image/jpeg")
    connection.ensure_connection()
    committed, connection._commit = connection._commit, commit
    with connection.execute_wrapper(count):
        answer = browser.post("/entries/", body)
    return {"status": answer.status_code, "said": answer.json(), "statements": at}

for line in sys.stdin:
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        os.write(write, json.dumps(take(json.loads(line))).encode())
        os._exit(0)
    os.close(write)
    with os.fdopen(read) as said:
        text = said.read()
    _, status = os.waitpid(child, 0)
    print(text or json.dumps({"killed": os.WTERMSIG(status)}), flush=True)
"""
COUNTED = ("jobs_entry", "jobs_job", "jobs_move", "jobs_photo", "diagnostics_step", "jobs_consent")
BOUNDARIES_MAX = 200
KINDS = ("intake", "test with photo", "charge")
Make = Callable[[], dict[str, Any]]


class Taker:
    """A shop's data folder and the process that takes posts there."""

    def __init__(self, prepared: Prepared, folder: Path) -> None:
        shutil.copytree(prepared.folder, folder)
        self.folder, self.cookies = folder, prepared.cookies
        self.process = subprocess.Popen(
            [sys.executable, "-c", TAKER],
            cwd=PROGRAM,
            env=settings(self.folder),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def take(self, entry: dict[str, Any], photo: bytes = b"", die_before: int = 0) -> Any:
        """What came of it: status, answer, number of statements; or the signal it died of."""
        told = {"cookies": self.cookies, "entry": entry, "pass": True, "die_before": die_before}
        told["photo"] = base64.b64encode(photo).decode()
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.write(json.dumps(told) + "\n")
        self.process.stdin.flush()
        return json.loads(self.process.stdout.readline())

    def rows(self) -> dict[str, int]:
        """How many rows each table has, by the file alone; the file is whole."""
        with closing(sqlite3.connect(self.folder / "shop.sqlite3")) as file:
            assert file.execute("PRAGMA integrity_check").fetchone() == ("ok",)
            return {
                name: file.execute(f"SELECT count(*) FROM {name}").fetchone()[0]  # noqa: S608
                for name in COUNTED
            }

    def close(self) -> None:
        """It ends when nothing more comes."""
        self.process.communicate()


def entry(kind: str, job: str | None, fields: dict[str, str], photo: bytes = b"") -> dict[str, Any]:
    """An entry as a tablet sends it, under a new key."""
    key = str(uuid.uuid4())
    digest = hashlib.sha256(photo).hexdigest()
    photos = [{"field": "photo", "name": "a.jpg", "sha256": digest}] if photo else []
    told = {name: [text] for name, text in fields.items()}
    about = {"key": key, "kind": kind, "version": 1, "job": job or key, "fields": told}
    when = {"typed_at": "2026-11-30T12:00:00Z", "happened_at": None, "sequence": 1, "rev": 0}
    return {**about, **when, "photos": photos, "corrects": None}


CAR = {"customer_name": "Ida Marwell", "plate": "KX.4731D", "complaint": "Blows warm."}
COIL = {
    "test_kind": "coil_power",
    "test_version": "1",
    "ground": "good",
    "volts": "12.38",
    "amps": "3.05",
    "magnet": "yes",
}
CHARGE = {
    "cylinder": "unnamed",
    "fill": "top_up",
    "grams_in": "50",
    "hose": "machine",
    "leak": "none",
}


def sweep(taker: Taker, name: str, make: Make, photo: bytes) -> tuple[int, list[str]]:
    """Kill at every boundary of one kind of entry: how many there are, and what was wrong."""
    before = taker.rows()
    whole = taker.take(make(), photo)
    if whole.get("status") != 201:
        return 0, [f"{name}: not taken at all, {whole}"]
    one = grown(taker, before)
    wrong: list[str] = []
    for at in range(1, BOUNDARIES_MAX):
        told = make()
        before = taker.rows()
        died = taker.take(told, photo, die_before=at)
        if died.get("status") == 201:
            return at - 1, wrong  # it has no such boundary any more
        if died != {"killed": signal.SIGKILL}:
            wrong.append(f"{name} {at}: did not die, {died}")
        left = grown(taker, before)
        is_whole = left == one  # killed behind the COMMIT, before the answer
        if any(left.values()) and not is_whole:
            wrong.append(f"{name} {at}: a part is there, {left}")
        again = taker.take(told, photo)
        if again.get("status") != (200 if is_whole else 201) or grown(taker, before) != one:
            wrong.append(f"{name} {at}: sent again, {again}, rows {grown(taker, before)}")
    return BOUNDARIES_MAX, [*wrong, f"{name}: no end of boundaries"]


def grown(taker: Taker, before: dict[str, int]) -> dict[str, int]:
    """How many rows came since."""
    return {table: number - before[table] for table, number in taker.rows().items()}


def run(prepared: Prepared, folder: Path, names: tuple[str, ...] = KINDS) -> dict[str, Any]:
    """All sweeps: {"boundaries": {name: number}, "wrong": [sentence]}."""
    photo = picture(folder.parent, "belt.png", 60_000)[0].read_bytes()
    taker = Taker(prepared, folder)
    try:
        car = entry("intake", None, CAR)
        assert taker.take(car)["status"] == 201
        kinds: dict[str, tuple[Make, bytes]] = {
            "intake": (lambda: entry("intake", None, CAR), b""),
            "test with photo": (lambda: entry("step", car["key"], COIL, photo), photo),
            "charge": (lambda: entry("charge", car["key"], CHARGE), b""),
        }
        told = {name: sweep(taker, name, *kinds[name]) for name in names}
        wrong = [one for _, found in told.values() for one in found]
        return {"boundaries": {name: number for name, (number, _) in told.items()}, "wrong": wrong}
    finally:
        taker.close()


if __name__ == "__main__":
    with tempfile.TemporaryDirectory(prefix="shopac-statements-") as place:
        told = run(prepare(Path(place) / "prepared"), Path(place) / "data")
    print(json.dumps(told, indent=1))
    sys.exit(1 if told["wrong"] else 0)
