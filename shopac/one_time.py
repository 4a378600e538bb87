"""One-time words: a start leaves one in the data folder and prints a link that carries it.

Who has the link can read this machine's screen and files, and the pages behind it open on this
machine only.
"""

import os
import secrets
from pathlib import Path

from django.conf import settings
from django.http import HttpRequest

BEGIN = "begin_token"
NEW_PASSWORD = "new_password_token"  # noqa: S105  the name of a file


def make_word(name: str) -> str:
    """The word of this name in the data folder; made on first use, readable by its owner only."""
    path = word_file(name)
    if not path.exists():
        draft = path.with_suffix(".new")
        draft.unlink(missing_ok=True)
        with os.fdopen(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
            file.write(secrets.token_urlsafe(24))
        draft.replace(path)
    return path.read_text().strip()


def word_file(name: str) -> Path:
    """Where the start leaves a word."""
    return Path(settings.DATA) / name


def has_word(request: HttpRequest, name: str) -> bool:
    """Whether the address, or the form opened with it, carries the word of this data folder."""
    try:
        word = word_file(name).read_bytes().strip()
    except FileNotFoundError:
        return False
    return bool(word) and secrets.compare_digest(word, told_word(request).encode(errors="replace"))


def told_word(request: HttpRequest) -> str:
    """The word as the form or the address carries it."""
    return request.POST.get("token") or request.GET.get("token", "")


def forget_word(name: str) -> None:
    """End the link."""
    word_file(name).unlink(missing_ok=True)
