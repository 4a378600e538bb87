"""Files as a tablet saves them (static/js/kept_file.js), made here to be changed and brought in."""

import base64
import hashlib
import hmac
import json
import uuid
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from jobs.logbook import fingerprint
from tests.shopac.tablet import Tablet

PICTURE = b"no picture at all, but bytes with a hash"


def sealed(pass_text: str, parts: list[Any]) -> str:
    """The seal of these parts under a pass."""
    text = json.dumps(parts, separators=(",", ":"), ensure_ascii=False)
    return hmac.new(pass_text.encode(), text.encode(), "sha256").hexdigest()


def saved(tablet: Tablet, photo: bytes = b"", **more: Any) -> dict[str, Any]:
    """One entry that the tablet kept, as it stands in a file."""
    said = tablet.said(**more)
    if photo:
        digest = hashlib.sha256(photo).hexdigest()
        line = {"field": "photo", "name": "belt.jpg", "type": "image/jpeg", "size": len(photo)}
        encoded = base64.b64encode(photo).decode()
        said["photos"] = [{**line, "sha256": digest, "base64": encoded}]
    signed = said.pop("pass")
    said |= {
        "fingerprint": print_of(said),
        "clock_offset_sent_ms": 0,
        "author": tablet.author.name,
        "tablet": str(tablet.key),
        "pass_head": signed.rpartition(":")[0],
        "mended": [],
    }
    return said | {"seal": sealed(signed, parts_of(said))}


def print_of(said: dict[str, Any]) -> str:
    """Its fingerprint, as anybody can work it out."""
    photos = [(one["field"], one["sha256"]) for one in said["photos"]]
    job = uuid.UUID(said["job"]) if said["job"] else None
    return fingerprint(said["kind"], said["version"], job, said["fields"], photos)


def parts_of(said: dict[str, Any]) -> list[Any]:
    """What a seal is over."""
    names = "key fingerprint sequence rev typed_at clock_offset_ms clock_offset_sent_ms"
    return [said.get(name) for name in names.split()]


def file_of(*entries: dict[str, Any]) -> SimpleUploadedFile:
    """The file."""
    told = {"shopac": "entries kept on a tablet", "format": 1, "entries": list(entries)}
    return SimpleUploadedFile("kept.json", json.dumps(told).encode(), "application/json")
