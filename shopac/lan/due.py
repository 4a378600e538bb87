"""Whether the server needs a new certificate, asked every minute while it serves.

Standard library only, so that asking starts nothing.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from shopac.lan.addresses import private
from shopac.lan.chosen import certificates, served


def state(folder: Path) -> Path:
    """What the certificate there is for: name, addresses, since when it is good, when it is due."""
    return certificates(folder) / "server.json"


def is_due(folder: Path, name: str, addresses: Sequence[str], now: datetime) -> bool:
    """Whether the certificate is missing, near its end, for another name, or lacks an address.

    Also one from a day to come, made while this machine's clock was ahead: no tablet believes it.
    """
    try:
        told = json.loads(state(folder).read_text(encoding="utf-8"))
        return (
            not served(folder).exists()
            or told["name"] != name
            or not float(told.get("good_from", 0)) <= now.timestamp() < float(told["renew_from"])
            or not set(private(addresses)) <= set(told["addresses"])
        )
    except (OSError, ValueError, KeyError, TypeError):
        return True
