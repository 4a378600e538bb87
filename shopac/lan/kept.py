"""Authority and certificate as files of the data folder, and when a new certificate is due.

authority.pem is public and is what tablets are given. authority_key.pem signs, and server.pem has
the server's key and certificate in one file, so that one never stands without the other. Keys are
readable by the owner of the files only.
"""

import json
import os
from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path

from shopac.lan import chosen
from shopac.lan.addresses import private
from shopac.lan.authority import Pair, is_for, make_authority, make_server, span
from shopac.lan.due import is_due, state
from shopac.trouble import CannotStart

RENEWED_BEFORE = timedelta(days=60)
# Addresses that the machine had before are certified again: one that comes and goes (a second
# network, a tunnel) would otherwise mean a new certificate each time.
ADDRESSES_MOST = 12
OWN = "127.0.0.1"


def ensure(folder: Path, name: str, addresses: Sequence[str], now: datetime) -> list[str]:
    """Make what is missing or due.

    Args:
        folder: the data folder.
        name: the shop's host name or fixed address.
        addresses: under which this machine is reached now; only private ones are certified.
        now: aware.

    Returns:
        What was made, in words for the person who started the program; empty when all was there.

    Raises:
        CannotStart: a certificate is due, and the authority's key is not there to sign it.

    """
    place = chosen.certificates(folder)
    place.mkdir(mode=0o700, exist_ok=True)
    public, key = chosen.authority(folder), place / "authority_key.pem"
    said = []
    if not public.exists() or not is_for(public.read_bytes(), name):
        made = make_authority(name, now)
        write(key, made.key)
        write(public, made.certificate)
        state(folder).unlink(missing_ok=True)
        said.append(
            f"A new certificate authority was made for {name}: "
            "every tablet has to be paired with it."
        )
    if is_due(folder, name, addresses, now):
        renew(folder, name, addresses, now)
        said.append(f"A new certificate for {name} was made.")
    return said


def renew(folder: Path, name: str, addresses: Sequence[str], now: datetime) -> None:
    """Make the server a new certificate, whatever it has.

    Raises:
        CannotStart: the authority's key is not there, cannot be read, or the authority has ended.

    """
    public, key = chosen.authority(folder), chosen.certificates(folder) / "authority_key.pem"
    now_here = list(dict.fromkeys(private(addresses)))  # all of them, or it would be due again
    before = [one for one in _certified(folder) if one not in now_here]
    told = now_here + before[: max(0, ADDRESSES_MOST - len(now_here))]
    try:
        authority = Pair(public.read_bytes(), key.read_bytes())
        server = make_server(authority, name, [*told, OWN], now)
    except (OSError, ValueError, TypeError) as wrong:
        raise CannotStart(
            f"A new certificate is due and the authority in {public.parent} cannot sign it "
            f"({wrong}): put {key.name} back from a backup. To begin with another authority, take "
            "that folder away; every tablet is then to be paired anew."
        ) from None
    begins, end = span(server.certificate)
    if end - RENEWED_BEFORE <= now:
        raise CannotStart(
            f"The authority in {public.parent} ends on {span(authority.certificate)[1]:%d %B %Y}: "
            "take that folder away to begin with another, and pair every tablet anew."
        )
    # An authority from a day to come makes no better one.
    good_from = begins.timestamp() if begins > span(authority.certificate)[0] else 0
    about = {"name": name, "addresses": told, "good_from": good_from}
    about["renew_from"] = (end - RENEWED_BEFORE).timestamp()
    state(folder).unlink(missing_ok=True)  # what dies between the two is done again
    write(chosen.served(folder), server.key + server.certificate)
    write(state(folder), json.dumps(about).encode())


def write(path: Path, content: bytes) -> None:
    """Write a file for its owner only, whole or not at all."""
    draft = path.with_suffix(".new")
    draft.unlink(missing_ok=True)
    with os.fdopen(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    draft.replace(path)


def _certified(folder: Path) -> list[str]:
    try:
        return [str(one) for one in json.loads(state(folder).read_bytes())["addresses"]]
    except (OSError, ValueError, KeyError, TypeError):
        return []
