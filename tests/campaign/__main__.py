"""Accidents at random on real tablets and a real server, and what was lost, doubled or torn.

    .venv/bin/python -m tests.campaign --seed 7 --faults 300 --tablets 3

prints a table and writes `tests/campaign.json`. Linux, as root: disks are mounted. --only WORDS
takes accidents whose name has these words. --part random leaves out the careless variants, the
statement boundaries, the long accidents and the times; --part beside does these alone and adds
them to what is kept.
"""

import argparse
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from playwright.sync_api import Playwright, sync_playwright

from tests.campaign import careless, long, statements, table, times
from tests.campaign.crew import Crew
from tests.campaign.run import Campaign
from tests.offline.shop import Prepared, prepare


def say(line: str) -> None:
    """At once: it takes a while."""
    print(line, flush=True)


def main(arguments: list[str]) -> int:
    """Run it; returns 0 only when nothing was wrong."""
    options = argparse.ArgumentParser(prog="python -m tests.campaign")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--faults", type=int, default=200)
    options.add_argument("--tablets", type=int, default=2, choices=(1, 2, 3, 4))
    options.add_argument("--minutes", type=float, default=24 * 60, help="no new fault after these")
    options.add_argument("--only", default="")
    options.add_argument("--out", type=Path, default=table.KEPT)
    options.add_argument("--part", choices=("all", "random", "beside"), default="all")
    told = options.parse_args(arguments)
    began = time.monotonic()
    with (
        tempfile.TemporaryDirectory(prefix="shopac-campaign-", ignore_cleanup_errors=True) as name,
        sync_playwright() as browsers,
    ):
        folder = Path(name)
        prepared = prepare(folder / "prepared")
        if told.part == "beside":
            found = table.kept(told.out)
        else:
            found = at_random(browsers, prepared, folder, told)
            found["seconds"] = round(time.monotonic() - began)
            table.keep(found, told.out)  # the rest takes its time
        if told.part != "random":
            found |= beside(browsers, prepared, folder, told)
    print(table.as_text(found))
    return table.keep(found, told.out)


def at_random(
    browsers: Playwright, prepared: Prepared, folder: Path, told: argparse.Namespace
) -> dict[str, Any]:
    """The campaign itself."""
    crew = Crew(browsers, prepared, folder / "random", told.tablets, told.seed)
    campaign = Campaign(crew, told.faults, say, told.only)
    campaign.ends = time.monotonic() + told.minutes * 60
    try:
        crew.begin()
        campaign.run()
    finally:
        crew.close()
    return table.result(campaign, told)


def beside(
    browsers: Playwright, prepared: Prepared, folder: Path, told: argparse.Namespace
) -> dict[str, Any]:
    """What is not left to chance."""
    return {
        "statements": statements.run(prepared, folder / "statements"),
        "careless": careless.caught(browsers, prepared, folder, told.seed, say),
        "long": long.run(browsers, prepared, folder / "long", say),
        "goals": times.measured(browsers, prepared, folder / "times", say),
    }


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
