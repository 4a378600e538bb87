"""Measure the program's budgets on data of its own, as ratios to a bare page of the same run."""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import connection

from shopac.bench.run import measure

INSIDE = "SHOPAC_BENCH"
KEPT = settings.BASE_DIR / "tests" / "bench.json"
SIZES = (10_000, 1_000_000)


class Command(BaseCommand):
    """`manage.py bench`: a shop's own data are never touched."""

    help = (
        "Measures pages among 10 000 and 1 000 000 invented jobs in a data folder of its own,"
        " prints a table and keeps the result in tests/bench.json. Takes about 2 GB of disk while"
        " it runs. With SHOPAC_DATABASE set it uses that database, which must be empty."
    )
    requires_system_checks = ()

    def add_arguments(self, parser: CommandParser) -> None:
        """How many jobs, where the data lie meanwhile, what is printed."""
        parser.add_argument("--jobs", type=int, nargs="+", default=list(SIZES), metavar="N")
        parser.add_argument("--folder", type=Path, help="where the data lie while it runs")
        parser.add_argument("--json", action="store_true", help="print the result as JSON")
        parser.add_argument("--keep", action="store_true", help="keep it in tests/bench.json")

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Run in a folder made for it, as a child: settings are read once, from that folder.

        Raises:
            CommandError: too few jobs, or the measurement ended by itself.

        """
        if min(options["jobs"]) < 1:
            raise CommandError("At least one job has to be there.")
        if os.environ.get(INSIDE):
            self.measured(options)
            return
        with tempfile.TemporaryDirectory(prefix="shopac-bench-", dir=options["folder"]) as folder:
            environment = os.environ | {INSIDE: "1", "SHOPAC_DATA": folder}
            ended = subprocess.run([sys.executable, *sys.argv], env=environment, check=False)
        if ended.returncode:
            raise CommandError("The measurement did not come to its end.")

    def measured(self, options: dict[str, Any]) -> None:
        """Measure, print, keep.

        Raises:
            CommandError: the database has tables already.

        """
        if connection.introspection.table_names():
            raise CommandError("This database is in use. A benchmark needs an empty one.")
        call_command("migrate", interactive=False, verbosity=0)
        call_command("collectstatic", interactive=False, verbosity=0)
        found = measure(options["jobs"], self.stderr.write)
        text = json.dumps(found, indent=1, ensure_ascii=False)
        if options["json"]:
            self.stdout.write(text)
        else:
            self.table(found)
        if options["keep"]:
            KEPT.write_text(text + "\n", encoding="utf-8")

    def table(self, found: dict[str, Any]) -> None:
        """Each row with its budget."""
        for row in found["rows"]:
            at_most = "" if row["at_most"] is None else f"at most {row['at_most']:g}"
            kept = {None: "", True: "kept", False: "NOT KEPT"}[row["kept"]]
            figure = f"{row['measured']:10.2f} {row['unit']}"
            self.stdout.write(f"{row['what']:60} {figure:24} {at_most:14} {kept}".rstrip())
