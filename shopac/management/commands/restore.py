"""Bring the shop back from a backup, into a folder that no program uses."""

import os
import sys
from getpass import getpass
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shopac.backups import restoring
from shopac.backups.making import data
from shopac.backups.printed import Printed
from shopac.backups.tail import read
from shopac.backups.trouble import BackupTrouble


class Command(BaseCommand):
    """`manage.py restore FILE [--into DIR]`."""

    help = (
        "Checks a backup, unpacks and opens it, then moves what is in the data folder aside and"
        " the backup in its place. Nothing is deleted. Stop the program first."
    )
    requires_system_checks = ()

    def add_arguments(self, parser: CommandParser) -> None:
        """Which, and where to."""
        parser.add_argument("file", type=Path, metavar="FILE")
        parser.add_argument("--into", type=Path, metavar="DIR", help="another data folder")
        parser.add_argument(
            "--passphrase-file",
            type=Path,
            metavar="FILE",
            help="holds the passphrase of the certificate authority's key; else it is asked for",
        )

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Restore it, and say what was done.

        Raises:
            CommandError: nothing was restored.

        """
        os.umask(0o077)  # as at a start: nobody else's on this machine
        file, told = options["file"].absolute(), options["passphrase_file"]
        try:
            into = options["into"] or restoring.data_folder()
            restoring.refuse_other_database(read(file), into)
            passphrase = told.read_text().strip() if told else self.asked()
            printed = Printed(data(), self.stderr.write, keeps=False)
            done = restoring.restore(file, into, timezone.localtime(), printed, passphrase)
        except (BackupTrouble, OSError) as wrong:
            raise CommandError(str(wrong)) from None
        for sentence in restoring.words(done):
            self.stdout.write(sentence)

    def asked(self) -> str:
        """The passphrase, where somebody sits there who can be asked."""
        if not sys.stdin.isatty():
            return ""
        return getpass("Passphrase of the authority's key (Enter: restore without it): ")
