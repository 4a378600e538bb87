"""Under which addresses this machine is reached on its own network, and what its name leads to.

Standard library only: the start command asks it while it serves. IPv4, because every shop's
network has it.
"""

from __future__ import annotations

import contextlib
import ipaddress
import socket
import struct
import sys

if sys.platform.startswith("linux"):
    import fcntl

# Nobody answers there (RFC 5737); asking the way sends nothing.
ELSEWHERE = ("192.0.2.1", 9)
SIOCGIFADDR = 0x8915


def own() -> list[str]:
    """This machine's private addresses, the one that others most likely use first."""
    found = [*_on_the_way_out(), *_of_the_cards(), *_of_its_name()]
    return [one for one in dict.fromkeys(found) if _is_inside(one)]


def leads_to(name: str) -> list[str]:
    """The addresses that this machine finds for a name; none where it finds nothing."""
    try:
        found = socket.getaddrinfo(name, None, socket.AF_INET, socket.SOCK_STREAM)
    except (OSError, UnicodeError):
        return []
    return list(dict.fromkeys(str(one[4][0]) for one in found))


def _is_inside(address: str) -> bool:
    told = ipaddress.ip_address(address)
    return told.is_private and not told.is_loopback and not told.is_unspecified


def _on_the_way_out() -> list[str]:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as trial:
        try:
            trial.connect(ELSEWHERE)
        except OSError:  # no way out
            return []
        return [str(trial.getsockname()[0])]


def _of_the_cards() -> list[str]:
    if not sys.platform.startswith("linux"):
        return []
    found = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as trial:
        for _, card in socket.if_nameindex():
            asked = struct.pack("256s", card.encode()[:15])
            with contextlib.suppress(OSError):  # a card without an address
                told = fcntl.ioctl(trial.fileno(), SIOCGIFADDR, asked)
                found.append(socket.inet_ntoa(told[20:24]))
    return found


def _of_its_name() -> list[str]:
    return leads_to(socket.gethostname())
