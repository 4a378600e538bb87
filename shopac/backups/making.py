"""One backup into the shop's folder of backups, from begin to end.

The page, the command, the start before an update and the daily round all come through here.
"""

import shutil
from collections.abc import Iterable
from pathlib import Path

from django.conf import settings
from django.utils import timezone

from shopac.backups import keeping, known, writing
from shopac.backups.keeping import Kept
from shopac.backups.known import Told
from shopac.backups.tail import UPDATE, Tail
from shopac.backups.trouble import BackupTrouble
from shopac.version import VERSION

DRILL = ".drill-"


def data() -> Path:
    """The shop's data folder."""
    return Path(settings.DATA)


def back_up(why: str, watch: Told, *, file: Path | None = None) -> tuple[Path, Tail]:
    """Make a backup; where no file is named, in the folder of backups, by its rule.

    Raises:
        BackupTrouble: none was made. The reason is kept for the page, too.

    """
    with known.alone(data()):
        now = timezone.localtime()
        target = file or free_name(settings.BACKUPS, f"{now:%Y-%m-%d-%H%M%S}-{named(why)}")
        whole = why != UPDATE
        try:
            if file is None:
                clear_drafts(settings.BACKUPS)
                make_room(whole=whole)
            made = writing.make(target, why, now, watch, whole=whole)
        except BackupTrouble as wrong:
            known.tell(data(), failed_at=now.isoformat(), failed=str(wrong))
            raise
        if whole:
            told = {"made_at": now.isoformat(), "made": str(target), "damaged": made.damaged}
            known.tell(data(), **told, failed_at="", failed="")
        if file is None:
            let_go(keeping.superseded(keeping.listed(settings.BACKUPS), now))
        return target, made


def named(why: str) -> str:
    """The end of a file's name."""
    return f"before-{VERSION}" if why == UPDATE else why


def free_name(folder: Path, stem: str) -> Path:
    """The file of this name; of two made within one second the later has a number."""
    names = (folder / f"{stem}{more}.zip" for more in ("", *(f"-{n}" for n in range(2, 100))))
    return next(path for path in names if not path.exists())


def clear_drafts(folder: Path) -> None:
    """Remove what an interrupted backup or drill left; nobody else is at it now."""
    for left in folder.glob(f"*.zip*{writing.PART}*") if folder.is_dir() else ():
        left.unlink(missing_ok=True)
    for left in folder.glob(f"{DRILL}*") if folder.is_dir() else ():
        shutil.rmtree(left, ignore_errors=True)


def make_room(*, whole: bool) -> None:
    """Let the oldest go where the disk would not take another; the newest three never go."""
    folder = settings.BACKUPS
    if not folder.is_dir():
        return
    lacking = writing.room_needed(whole=whole) - shutil.disk_usage(folder).free
    if lacking > 0:
        let_go(keeping.to_make_room(keeping.listed(folder), lacking))


def let_go(going: Iterable[Kept]) -> None:
    """Remove backups."""
    for one in going:
        one.path.unlink(missing_ok=True)
