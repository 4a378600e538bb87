"""Try whether the newest backup can be restored, without touching the shop's data."""

import json
import os
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from shopac.backups.drilling import drill
from shopac.backups.making import data
from shopac.backups.opened import look
from shopac.backups.printed import Printed
from shopac.backups.trouble import BackupTrouble


class Command(BaseCommand):
    """`manage.py drill [FILE]`."""

    help = (
        "Restores the newest backup, or FILE, into a folder of its own, opens it with this release,"
        " counts and compares, and removes it again. The result is shown to the owner."
    )
    requires_system_checks = ()

    def add_arguments(self, parser: CommandParser) -> None:
        """Which; and what a drill and a restore ask of themselves in another folder."""
        parser.add_argument("file", type=Path, nargs="?", metavar="FILE")
        parser.add_argument(
            "--here", action="store_true", help="look into this data folder itself; prints JSON"
        )
        parser.add_argument("--why", default="", help="with --here: begin a new epoch for this")

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Try it and say what was found.

        Raises:
            CommandError: it could not be restored, or is not as it was to be.

        """
        if options["here"]:
            self.stdout.write(json.dumps(vars(look(options["why"]))))
            return
        os.umask(0o077)  # as at a start: nobody else's on this machine
        file = options["file"]
        try:
            printed = Printed(data(), self.stderr.write)
            ok, said = drill(printed, file=file and file.absolute())
        except BackupTrouble as wrong:
            raise CommandError(str(wrong)) from None
        for sentence in said:
            self.stdout.write(sentence)
        if not ok:
            raise CommandError("The drill failed.")
