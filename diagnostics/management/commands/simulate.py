"""Try the program on cars whose faults are known: how often it is wrong, what it costs."""

import json
import os
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.simulation.bay import Shop
from diagnostics.evidence.simulation.campaign import jobs
from diagnostics.evidence.simulation.policies import POLICIES
from diagnostics.evidence.simulation.printed import campaign, reduced
from diagnostics.evidence.simulation.reduced import compared
from diagnostics.evidence.simulation.results import TARGETS, Result
from diagnostics.evidence.tables import TABLES
from diagnostics.management.printing import as_json, print_lines

KEPT: Path = settings.BASE_DIR / "tests" / "simulate.json"
HOME = "home"
PROGRAM = "program"


class Command(BaseCommand):
    """`manage.py simulate`: no table of the shop is read or written."""

    help = (
        "Draws cars that do not cool from the network of faults, lets the program, a fixed order"
        " and the quickest test first find what is wrong, and prints how often a proof was wrong,"
        " what it cost and what was missed. The same seed gives the same result."
    )
    requires_system_checks = ()

    def add_arguments(self, parser: CommandParser) -> None:
        """How many cars, of which world, tested by whom."""
        parser.add_argument("--jobs", type=int, default=5000, metavar="N")
        parser.add_argument("--seed", type=int, default=1)
        parser.add_argument("--world", choices=[*TARGETS, "all"], default="all")
        parser.add_argument(
            "--policy",
            choices=[*POLICIES, "all"],
            default="all",
            help="who chooses the tests; all: the program in each world, the others at home",
        )
        parser.add_argument("--processes", type=int, default=os.cpu_count() or 1, metavar="N")
        parser.add_argument("--json", action="store_true", help="print the result as JSON")
        parser.add_argument("--keep", action="store_true", help="keep it in tests/simulate.json")

    def handle(self, *_args: object, **options: Any) -> None:
        """Run, print, keep.

        Raises:
            CommandError: no job, no process, or a seed below zero.

        """
        if min(options["jobs"], options["processes"]) < 1 or options["seed"] < 0:
            raise CommandError("At least one job and one process, and a seed from 0 on.")
        found = self.simulated(options)
        if options["json"]:
            print_lines(self.stdout, [as_json(found)])
        if options["keep"]:
            KEPT.write_text(json.dumps(found, indent=1, ensure_ascii=False) + "\n", "utf-8")

    def simulated(self, options: dict[str, Any]) -> dict[str, Any]:
        """The result as data; each part of it is printed as soon as it is there."""
        shop, campaigns = Shop(KINDS, TABLES), []
        count, seed = options["jobs"], options["seed"]
        for world, policy in campaigns_of(options["world"], options["policy"]):
            ended = jobs(world, policy, count, seed, shop, options["processes"], self.stderr.write)
            campaigns.append(Result(world, policy, ended).as_json())
            self.told(campaign(campaigns[-1]), options)
        small = compared(KINDS, TABLES)
        self.told(reduced(small), options)
        return {
            "jobs": count,
            "seed": seed,
            "tables": len(TABLES),
            "campaigns": campaigns,
            "reduced": small,
        }

    def told(self, text: Iterable[str], options: dict[str, Any]) -> None:
        """Print lines, unless JSON is wanted."""
        if not options["json"]:
            print_lines(self.stdout, text)


def campaigns_of(world: str, policy: str) -> Iterator[tuple[str, str]]:
    """Each world with each policy asked for; of all in all only the program's goes abroad."""
    for there in TARGETS if world == "all" else (world,):
        for who in POLICIES if policy == "all" else (policy,):
            if who == PROGRAM or there == HOME or "all" not in (world, policy):
                yield there, who
