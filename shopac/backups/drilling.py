"""A drill: the newest backup restored beside the backups, opened, compared, and removed again."""

import secrets
import shutil
import time
from pathlib import Path

from django.conf import settings
from django.utils import timezone

from shopac.backups import keeping, known, restoring, writing
from shopac.backups.known import Told
from shopac.backups.making import DRILL, clear_drafts, data
from shopac.backups.opened import Opened, lacking
from shopac.backups.trouble import BackupTrouble
from shopac.backups.unpacking import Manifest, unpack
from shopac.backups.writing import in_words, many


def drill(watch: Told, *, file: Path | None = None) -> tuple[bool, list[str]]:
    """Restore the newest backup, or the one named, beside the backups, open it, and remove it.

    Returns:
        Whether all was well, and what was found, in sentences. Both are kept for the page.

    Raises:
        BackupTrouble: there is none, or another is under way.

    """
    with known.alone(data()):
        newest = keeping.newest(keeping.listed(settings.BACKUPS))
        backup = file or (newest.path if newest else None)
        if backup is None:
            raise BackupTrouble(f"There is no backup in {settings.BACKUPS} to try.")
        began = time.monotonic()
        place = backup.parent / f"{DRILL}{secrets.token_hex(4)}"
        try:
            clear_drafts(backup.parent)
            ok, said = tried(backup, place, watch)
        except BackupTrouble as wrong:
            ok, said = False, [str(wrong)]
        except OSError as wrong:
            ok, said = False, [f"The drill could not be made ({wrong})."]
        finally:
            shutil.rmtree(place, ignore_errors=True)
        said.append(f"It took {took(time.monotonic() - began)}.")
        now = timezone.localtime().isoformat()
        told = {"drilled_at": now, "drilled": backup.name, "drill_ok": ok, "drill": tuple(said)}
        known.tell(data(), **told)
        return ok, said


def took(seconds: float) -> str:
    """A time that something took, in words."""
    if seconds < 90:
        many = max(1, round(seconds))
        return f"{many} second{'' if many == 1 else 's'}"
    return f"{round(seconds / 60)} minutes"


def tried(backup: Path, place: Path, watch: Told) -> tuple[bool, list[str]]:
    """Unpack a backup and open it; whether all is well, and what was found."""
    needed = 2 * backup.stat().st_size + writing.ROOM_LEFT
    free = shutil.disk_usage(backup.parent).free
    if free < needed:
        raise BackupTrouble(
            f"The drill needs {in_words(needed)} of disk and {in_words(free)} are left. Nothing was"
            " tried."
        )
    place.mkdir(mode=0o700)
    manifest = unpack(backup, place, watch)
    watch("Opening the restored shop", 0, 0)
    opened = restoring.opened_in(place, manifest, "")
    return judged(manifest, opened)


def judged(manifest: Manifest, opened: Opened) -> tuple[bool, list[str]]:
    """Whether what was found is what the backup says, and all of it in sentences."""
    files = many(len(manifest.files), "files")
    said = [f"Unpacked: {files}, each with the bytes that were put in."]
    if manifest.damaged:
        said.append(
            f"{len(manifest.damaged)} photos or records were damaged on the disk before the backup"
            " was made. An older backup may have them whole."
        )
    wrong = [*opened.wrong, *other_counts(manifest, opened)]
    if manifest.tail.whole:
        wrong += lacking(opened)
    if wrong:
        return False, [*said, *wrong]
    if manifest.tail.engine == "postgresql":
        return True, [*said, "The dump can be listed. Whether it can be read in was not tried."]
    return True, [*said, *sound(manifest, opened)]


def other_counts(manifest: Manifest, opened: Opened) -> list[str]:
    """What was counted otherwise than the backup says."""
    return [
        f"It was to have {many(count, name)} and has {opened.counts.get(name, 0)}."
        for name, count in manifest.tail.counts.items()
        if not opened.wrong and opened.counts.get(name) != count
    ]


def sound(manifest: Manifest, opened: Opened) -> list[str]:
    """What was found where nothing is wrong."""
    told = opened.counts
    said = ["The database is whole."]
    if opened.migrated:
        said.append(f"This release brought it up to date in {many(opened.migrated, 'steps')}.")
    counted = f"{many(told['jobs'], 'jobs')} and {many(told['entries'], 'entries')}"
    said.append(f"It has {counted}, as it was to have.")
    if manifest.tail.whole:
        said.append(f"All {opened.named} photos and records that it names are there.")
    if opened.opened:
        said.append(f"Opened {opened.opened}: it is as it was frozen.")
    else:
        said.append("No record was issued yet, so none was opened.")
    return said
