"""Make the server a new certificate: `python -m shopac.lan.renew`, run by what serves."""

import sys
from datetime import UTC, datetime

from shopac.data_folder import data_folder
from shopac.lan import addresses, chosen, kept
from shopac.trouble import CannotStart


def main() -> int:
    """Renew, or say why not; returns the exit code."""
    folder = data_folder()
    lan = chosen.read(folder)
    if lan is None:
        return 1
    try:
        kept.renew(folder, lan.name, addresses.own(), datetime.now(UTC))
    except (CannotStart, OSError) as wrong:
        print(f"The certificate was not renewed. {wrong}", file=sys.stderr, flush=True)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
