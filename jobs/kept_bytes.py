"""Bytes on disk under the hash of themselves, in a folder of the data folder: photos, records."""

import hashlib
import os
from pathlib import Path

from django.conf import settings


def store(folder: str, data: bytes, ending: str) -> str:
    """Write bytes under their SHA-256, so that a power cut leaves all of them or none."""
    digest = hashlib.sha256(data).hexdigest()
    path = place(folder, digest, ending)
    path.parent.mkdir(parents=True, exist_ok=True)
    if not (path.exists() and path.read_bytes() == data):  # a damaged file is written anew
        write_whole(path, data)
    for above in path.parents[:3]:  # either folder may be new, and its name lies in the one above
        sync_folder(above)
    return digest


def write_whole(path: Path, data: bytes) -> None:
    """Write bytes beside their place, make them durable, and only then give them their name."""
    draft = path.with_name(f".{path.stem}.{os.getpid()}.{os.urandom(4).hex()}")
    try:
        with draft.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        draft.replace(path)
    finally:
        draft.unlink(missing_ok=True)


def place(folder: str, digest: str, ending: str) -> Path:
    """Where bytes of that hash lie."""
    return Path(settings.DATA) / folder / digest[:2] / f"{digest}{ending}"


def sync_folder(folder: Path) -> None:
    """Make a rename durable. Windows has no such call for folders and needs none."""
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
