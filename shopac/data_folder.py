"""Where a shop's data lives: one folder outside the program.

The folder holds the database, photos, records, backups, the secret key and the version stamp, so
that the program can be replaced without touching a shop's data. Standard library only: the start
command uses it before anything is installed.
"""

import os
import secrets
import sys
from pathlib import Path


def default_folder() -> Path:
    """The usual place for a program's own data on this system, for the person who runs it."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA", str(Path.home()))) / "shopac"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "shopac"
    return Path(os.environ.get("XDG_DATA_HOME", str(Path.home() / ".local" / "share"))) / "shopac"


def data_folder() -> Path:
    """The folder named by SHOPAC_DATA, else the usual place; made when it is not there."""
    told = os.environ.get("SHOPAC_DATA", "")
    folder = Path(told).expanduser().absolute() if told else default_folder()
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def secret_key(folder: Path) -> str:
    """The shop's signing key, made on first use and readable by its owner only.

    It signs sign-ins and authors' passes; a copied program must never carry it, so it is kept with
    the data. Written through a temporary name: a start that dies half way leaves no empty key.
    """
    path = folder / "secret_key"
    if not path.exists():
        draft = folder / f"secret_key.{os.getpid()}"
        with os.fdopen(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
            file.write(secrets.token_urlsafe(50))
            file.flush()
            os.fsync(file.fileno())
        try:
            os.link(draft, path)
        except OSError:  # another start was first, or a file system without links
            if not path.exists():
                draft.replace(path)
        draft.unlink(missing_ok=True)
    return path.read_text().strip()
