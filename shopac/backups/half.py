"""The sign in a data folder that a restore is under way, or was cut off."""

from pathlib import Path

from shopac.trouble import CannotStart

UNDER_WAY = "restoring"
ASIDE = "before-restore-"


def refuse_half(folder: Path) -> None:
    """Turn a start away from a folder in which a restore was cut off.

    Raises:
        CannotStart: one was.

    """
    if (folder / UNDER_WAY).exists():
        raise CannotStart(
            f"A restore into {folder} was cut off before its end. Run it again with the same"
            f" backup: manage.py restore FILE --into {folder}. What was there"
            f" before is in it, under names that begin with {ASIDE}."
        )
