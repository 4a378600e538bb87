"""From a record's frozen text to the file that is handed over: PDF/A-3a and PDF/UA-1.

The template gets two JSON texts: the exact one, which it only attaches, and a drawable copy, which
it sets. Users' text reaches it as values, never as markup. The same frozen text makes the same
bytes with the same fonts and the same version of the typesetter.
"""

import io
import json
import shutil
import subprocess
import sys
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import segno
from django.conf import settings

from jobs.paper.drawable import Undrawn, drawable
from jobs.paper.fonts import Typeface, typeface
from jobs.paper.frozen import sha256
from jobs.paper.pictures import put_beside

TEMPLATE = Path("templates") / "jobs" / "record.typ"
PRESS = Path(__file__).with_name("press.py")
SECONDS_MAX = 60


class CannotTypeset(RuntimeError):
    """The file could not be made; the sentence says why."""


@dataclass(frozen=True)
class Paper:
    """The file and what it could not draw ([{code, name, times}])."""

    pdf: bytes
    undrawn: list[dict[str, str | int]]


def typeset(frozen: str, face: Typeface | None = None, *, part: str = "") -> Paper:
    """Set a record's frozen text (jobs.paper.frozen.exact_text of its data).

    `part` "customer" sets the customer's page alone, without the data attached.

    Raises:
        CannotTypeset: the typesetter refused; nothing was made.
        jobs.paper.fonts.FontMissing: a needed font is not installed.

    """
    face = face or typeface()
    data = json.loads(frozen)
    undrawn = Undrawn()
    shown = drawable(data, face.coverages, undrawn)
    listed = undrawn.listed()
    with TemporaryDirectory(prefix="shopac-paper-") as folder:
        # The typesetter reads nothing outside the folder of its template.
        template = Path(folder) / TEMPLATE.name
        for file in beside_template():
            shutil.copyfile(file, Path(folder) / file.name)
        pictures = put_beside(data, Path(folder))
        pdf = pressed(
            {
                "template": str(template),
                "folders": [str(folder) for folder in face.folders],
                "timestamp": int(datetime.fromisoformat(data["record"]["at"]).timestamp()),
                "inputs": {
                    "exact": frozen,
                    "sha256": sha256(frozen),
                    "shown": json.dumps(shown),
                    "undrawn": json.dumps(listed),
                    "families": json.dumps(face.families),
                    "code": square_code(data["record"]["address"]),
                    "pictures": json.dumps(pictures),
                    "part": part,
                },
            }
        )
    return Paper(pdf, listed)


def beside_template() -> list[Path]:
    """The template and the files of its name that it takes parts from."""
    first = Path(settings.BASE_DIR) / TEMPLATE
    return sorted(first.parent.glob(f"{first.stem}*.typ"))


def pressed(request: dict[str, Any]) -> bytes:
    """The PDF of a request to the typesetter's process.

    Raises:
        CannotTypeset: it refused, fell over, or took longer than a minute.

    """
    command = [sys.executable, "-I", str(PRESS)]
    try:
        done = subprocess.run(
            command,
            input=json.dumps(request).encode(),
            capture_output=True,
            timeout=SECONDS_MAX,
            check=False,
        )
    except subprocess.TimeoutExpired:
        raise CannotTypeset(f"The paper was not set within {SECONDS_MAX} seconds.") from None
    if done.returncode:
        said = done.stderr.decode(errors="replace").strip().splitlines() or ["it ended early"]
        raise CannotTypeset(f"The paper could not be set: {said[-1]}")
    return done.stdout


def square_code(address: str) -> str:
    """The code (SVG) that opens this address; empty when there is none to open."""
    if not address:
        return ""
    out = io.BytesIO()
    segno.make(address, error="m", micro=False).save(out, kind="svg", border=0, xmldecl=False)
    return out.getvalue().decode()
