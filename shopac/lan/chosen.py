"""The name and the port by which tablets know the shop: chosen once, kept in the data folder.

What a tablet keeps belongs to one origin: scheme, name and port. Under another the tablet begins
empty, and what it has not sent stays behind under the old one. Standard library only: the start
command uses it before anything is installed.
"""

from __future__ import annotations

import json
import os
import re
from pathlib import Path
from typing import NamedTuple

from shopac.lan.addresses import is_address, is_private
from shopac.trouble import CannotStart

# RFC 8375 keeps home.arpa for names inside a house; no such name exists outside.
NAME = "shop.home.arpa"
PORT, PAIR_PORT = 8443, 8080
LABEL = re.compile(r"(?!-)[a-z0-9-]{1,63}(?<!-)")


class Chosen(NamedTuple):
    """Host name or fixed address; port of the pages; port of the pairing page."""

    name: str = NAME
    port: int = PORT
    pair_port: int = PAIR_PORT

    @property
    def address(self) -> str:
        """Where the pages are, as a link."""
        return f"https://{self.name}:{self.port}/"


def certificates(folder: Path) -> Path:
    """Where authority and certificate lie in a data folder."""
    return folder / "certificates"


def served(folder: Path) -> Path:
    """The file with the server's key and certificate."""
    return certificates(folder) / "server.pem"


def authority(folder: Path) -> Path:
    """The file that tablets are given; public."""
    return certificates(folder) / "authority.pem"


def read(folder: Path) -> Chosen | None:
    """What was chosen in this data folder; None where nothing was yet.

    Raises:
        CannotStart: the file cannot be read.

    """
    path = folder / "lan.json"
    if not path.exists():
        return None
    try:
        told = json.loads(path.read_text(encoding="utf-8"))
        return Chosen(checked_name(told["name"]), int(told["port"]), int(told["pair_port"]))
    except (ValueError, KeyError, TypeError):
        raise CannotStart(
            f"{path} should hold the name and the ports of this shop and cannot be read: put it "
            "back from a backup, so that tablets find the shop under the name they know."
        ) from None


def choose(
    folder: Path, names: list[str], ports: list[int], pair_port: int | None = None
) -> Chosen:
    """What to serve as: as chosen before, or as told now where nothing was chosen or it was meant.

    Args:
        folder: the data folder.
        names: each name told; another than the chosen one counts only when it was told twice.
        ports: the same for the port of the pages.
        pair_port: where pairing is; tablets keep nothing there, so it may change at any time.

    Raises:
        CannotStart: the name is none, or name or port would change and were not told twice.

    """
    names = [checked_name(one) for one in names]
    before = read(folder)
    kept = before or Chosen()
    chosen = Chosen(
        names[-1] if names else kept.name,
        ports[-1] if ports else kept.port,
        pair_port or kept.pair_port,
    )
    if chosen.port == chosen.pair_port:
        raise CannotStart(
            f"Pages and pairing cannot both be at port {chosen.port}: "
            "choose another with --pair-port."
        )
    if before:
        _refuse_stranding(before, chosen, names, ports)
    return chosen


def _refuse_stranding(before: Chosen, chosen: Chosen, names: list[str], ports: list[int]) -> None:
    once = [f"--name {chosen.name}"] if _told_once(names, before.name) else []
    once += [f"--port {chosen.port}"] if _told_once(ports, before.port) else []
    if once:
        twice = " ".join([*once, *once])
        raise CannotStart(
            f"Tablets know this shop as {before.address} and would know nothing of "
            f"{chosen.address}: what they keep and have not sent yet would stay behind, and each "
            "would have to be paired anew. Let all of them send first. To change it nevertheless, "
            f"say it twice: {twice}"
        )


def _told_once(told: list[str] | list[int], before: str | int) -> bool:
    return bool(told) and told[-1] != before and list(told).count(told[-1]) < 2


def keep(folder: Path, chosen: Chosen) -> None:
    """Write down what was chosen, whole or not at all."""
    if read(folder) == chosen:
        return
    draft = folder / "lan.json.new"
    with draft.open("w", encoding="utf-8") as file:
        json.dump(chosen._asdict(), file)
        file.flush()
        os.fsync(file.fileno())
    draft.replace(folder / "lan.json")


def checked_name(told: str) -> str:
    """A host name as browsers write it, or a private address.

    Raises:
        CannotStart: it is neither.

    """
    name = told.strip().rstrip(".").lower()
    if is_address(name):
        if is_private(name):
            return name
        raise CannotStart(
            f"{told} is no address inside a shop: those begin with 10, 172.16 to 172.31 or 192.168."
        )
    labels = name.split(".")
    good = len(labels) > 1 and len(name) <= 63 and not labels[-1].isdigit()
    if good and all(map(LABEL.fullmatch, labels)) and labels[-1] != "localhost":
        return name
    raise CannotStart(
        f"“{told}” is no name for the shop: it takes letters, digits and hyphens with a dot "
        f"between, such as {NAME}, or this machine's fixed address, such as 192.168.1.20."
    )
