"""Accidents at random on real tablets and a real server, and what was lost, doubled or torn.

    .venv/bin/python -m tests.campaign --seed 7 --faults 300 --tablets 3

prints a table and writes `tests/campaign.json`. Linux, as root: disks are mounted. Options:
--only WORDS takes accidents whose name has these words; --long adds what takes minutes; --without
leaves parts out.
"""

import argparse
import sys
import tempfile
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.campaign import table
from tests.campaign.crew import Crew
from tests.campaign.run import Campaign


def main(arguments: list[str]) -> int:
    """Run it; returns 0 only when nothing was wrong."""
    options = argparse.ArgumentParser(prog="python -m tests.campaign")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--faults", type=int, default=200)
    options.add_argument("--tablets", type=int, default=2, choices=(1, 2, 3, 4))
    options.add_argument("--only", default="")
    told = options.parse_args(arguments)
    began = time.monotonic()
    with (
        tempfile.TemporaryDirectory(prefix="shopac-campaign-") as name,
        sync_playwright() as browsers,
    ):
        crew = Crew(browsers, Path(name), told.tablets, told.seed)
        campaign = Campaign(crew, told.faults, lambda line: print(line, flush=True), told.only)
        try:
            crew.begin()
            campaign.run()
        finally:
            crew.close()
    found = table.result(campaign, told, time.monotonic() - began)
    print(table.as_text(found))
    return table.keep(found)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
