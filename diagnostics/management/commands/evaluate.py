"""A case to its verdict, next steps and options, as JSON."""

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from diagnostics.evidence.bad_case import BadCase
from diagnostics.evidence.case import read_case
from diagnostics.evidence.catalogue import KINDS
from diagnostics.evidence.evaluate import evaluate
from diagnostics.evidence.tables import TABLES
from diagnostics.management.printing import as_json, print_lines

STANDARD_INPUT = "-"


class Command(BaseCommand):
    """`evaluate [FILE]`."""

    help = (
        "Print what is concluded of a case: standings, next steps, options, as JSON."
        " diagnostics/evidence/case.schema.json describes the case."
    )
    requires_system_checks = ()  # it reads no table and no setting

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the file."""
        parser.add_argument(
            "file",
            nargs="?",
            default=STANDARD_INPUT,
            help="a case as JSON; left out: standard input",
        )

    def handle(self, *_args: object, **options: Any) -> None:
        """Print the verdict on one case."""
        try:
            case = read_case(read(options["file"]), KINDS)
        except (BadCase, OSError, UnicodeDecodeError) as odd:
            raise CommandError(str(odd)) from odd
        print_lines(self.stdout, [as_json(evaluate(case, KINDS, TABLES))])


def read(name: str) -> str:
    """The text of the file, or of the standard input."""
    if name == STANDARD_INPUT:
        return sys.stdin.read()
    return Path(name).read_text(encoding="utf-8")
