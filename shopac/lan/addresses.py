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
from collections.abc import Iterable

if sys.platform.startswith("linux"):
    import fcntl

# Networks that nobody has from a provider: RFC 1918, and RFC 3927 where no router gives addresses.
PRIVATE = tuple(
    ipaddress.ip_network(one)
    for one in ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16")
)
OF_THE_MACHINE = (ipaddress.ip_network("127.0.0.0/8"),)
OF_VERSION_6 = (ipaddress.ip_network("fc00::/7"), ipaddress.ip_network("fe80::/10"))
# Nobody answers there (RFC 5737); asking the way sends nothing.
ELSEWHERE = ("192.0.2.1", 9)
SIOCGIFADDR = 0x8915


def own() -> list[str]:
    """This machine's addresses for others, the one that they most likely use first."""
    found = [*_on_the_way_out(), *_of_the_cards(), *_of_its_name()]
    return [one for one in dict.fromkeys(found) if not ipaddress.ip_address(one).is_loopback]


def private(addresses: Iterable[str]) -> list[str]:
    """Those of them inside private networks: the only ones that the authority may certify."""
    return [one for one in addresses if is_private(one)]


def is_private(address: str) -> bool:
    """Whether an IPv4 address is one inside a shop."""
    told = ipaddress.ip_address(address)
    return any(told in network for network in PRIVATE)


def is_address(name: str) -> bool:
    """Whether a shop goes by a fixed address instead of a name."""
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True


def leads_to(name: str) -> list[str]:
    """The addresses that this machine finds for a name; none where it finds nothing."""
    try:
        found = socket.getaddrinfo(name, None, socket.AF_INET, socket.SOCK_STREAM)
    except (OSError, UnicodeError):
        return []
    return list(dict.fromkeys(str(one[4][0]) for one in found))


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
