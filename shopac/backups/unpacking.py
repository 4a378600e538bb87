"""Read a backup back: hold it to its hash, unpack it, and hold each file to its own."""

import hashlib
import json
import os
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from jobs.kept_bytes import sync_folder
from shopac import stamp
from shopac.backups import contents, tail
from shopac.backups.tail import Tail
from shopac.backups.trouble import BackupTrouble
from shopac.backups.writing import Watch

MANIFEST = "manifest.json"
TOPS = frozenset(
    {
        *contents.DATABASE.values(),
        *contents.FOLDERS,
        contents.SECRET_KEY,
        contents.CHOSEN,
        contents.CERTIFICATES,
    }
)


@dataclass(frozen=True)
class Manifest:
    """What a backup holds: `files` is {name: [bytes, SHA-256]}, `damaged` their names."""

    tail: Tail
    files: dict[str, list[int | str]]
    damaged: list[str]

    @property
    def brings(self) -> list[str]:
        """The names at the top of a data folder that the backup replaces."""
        told = {PurePosixPath(name).parts[0] for name in self.files}
        return sorted(told | (set(contents.FOLDERS) if self.tail.whole else set()))


def unpack(backup: Path, into: Path, watch: Watch) -> Manifest:
    """Unpack a backup into an empty folder, with every hash held; durable when it returns.

    Raises:
        BackupTrouble: it is cut off, damaged, of a newer release, or cannot be written here.

    """
    total = 2 * size_of(backup)
    behind = 0

    def on(more: int) -> None:
        nonlocal behind
        behind += more
        watch("Reading the backup", min(behind, total), total)

    told = tail.check(backup, on)
    refuse_newer(told)
    try:
        with zipfile.ZipFile(backup) as archive:
            manifest = manifest_of(archive, told, backup)
            for name in manifest.files:
                take_out(archive, name, manifest, into, on)
    except (zipfile.BadZipFile, KeyError, ValueError) as wrong:
        raise BackupTrouble(f"{backup} cannot be unpacked ({wrong}).") from None
    except OSError as wrong:
        raise BackupTrouble(f"{backup} cannot be unpacked into {into} ({wrong}).") from None
    for folder in manifest.brings:
        if folder in contents.FOLDERS:
            (into / folder).mkdir(exist_ok=True)
    for folder, _, _ in os.walk(into):
        sync_folder(Path(folder))
    return manifest


def size_of(backup: Path) -> int:
    """Bytes of a backup.

    Raises:
        BackupTrouble: it is not there.

    """
    try:
        return backup.stat().st_size
    except OSError as wrong:
        raise BackupTrouble(f"{backup} cannot be read: {wrong.strerror}.") from None


def refuse_newer(told: Tail) -> None:
    """Turn away what a newer release wrote: this one cannot read its tables.

    Raises:
        BackupTrouble: it is newer.

    """
    if stamp.is_newer(told.version):
        raise BackupTrouble(
            f"This backup was made by shopac {told.version}, which is newer than this program."
            " Restore it with that release."
        )


def manifest_of(archive: zipfile.ZipFile, told: Tail, backup: Path) -> Manifest:
    """What the backup says it holds, held against what the ZIP file lists.

    Raises:
        BackupTrouble: the two differ, or a name leads out of the folder.

    """
    read = json.loads(archive.read(MANIFEST))
    manifest = Manifest(told, read["files"], read["damaged"])
    listed = {one for one in archive.namelist() if one not in (MANIFEST, "README.txt")}
    astray = [name for name in manifest.files if not is_ours(name)]
    if astray or listed != set(manifest.files):
        raise BackupTrouble(f"{backup} holds other files than it says. Nothing of it is used.")
    return manifest


def is_ours(name: str) -> bool:
    """Whether a file of this name belongs into a data folder, and nowhere else."""
    path = PurePosixPath(name)
    plain = not path.is_absolute() and ".." not in path.parts and "\\" not in name
    return plain and path.parts[0] in TOPS


def take_out(
    archive: zipfile.ZipFile,
    name: str,
    manifest: Manifest,
    into: Path,
    on: Callable[[int], None],
) -> None:
    """Write one file, durable, and hold it to the manifest.

    Raises:
        BackupTrouble: its bytes are others.

    """
    path = into / name
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    found = hashlib.sha256()
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with archive.open(name) as source, os.fdopen(handle, "wb") as file:
        while block := source.read(tail.BLOCK):
            found.update(block)
            file.write(block)
            on(len(block))
        file.flush()
        os.fsync(file.fileno())
        size = file.tell()
    if [size, found.hexdigest()] != manifest.files[name]:
        raise BackupTrouble(f"In the backup {name} has other bytes than were put in.")
