"""Make a backup of the shop's data; while the program runs, too."""

import os
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from shopac.backups.making import back_up, data
from shopac.backups.printed import Printed
from shopac.backups.tail import ASKED
from shopac.backups.trouble import BackupTrouble
from shopac.backups.writing import in_words, many


class Command(BaseCommand):
    """`manage.py backup [FILE]`."""

    help = (
        "Writes database, photos, records and keys into one file. Without FILE it goes into the"
        " folder of backups and counts in its rule. It is private: keep it where only the owner"
        " gets at it."
    )
    requires_system_checks = ()

    def add_arguments(self, parser: CommandParser) -> None:
        """Where to."""
        parser.add_argument("file", type=Path, nargs="?", metavar="FILE")

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Make it and say what is in it.

        Raises:
            CommandError: none was made.

        """
        os.umask(0o077)  # as at a start: nobody else's on this machine
        file = options["file"]
        try:
            target, made = back_up(
                ASKED, Printed(data(), self.stderr.write), file=file and file.absolute()
            )
        except BackupTrouble as wrong:
            raise CommandError(str(wrong)) from None
        counted = ", ".join(
            many(made.counts.get(one, 0), one) for one in ("jobs", "entries", "photos")
        )
        self.stdout.write(f"{target}: {in_words(target.stat().st_size)}, {counted}.")
        if made.damaged:
            self.stdout.write(
                f"{made.damaged} photos or records were damaged on the disk already; they are in it"
                " as they are."
            )
