"""Tell whether a PDF is an unchanged copy of an issue of a record, or whose a hash is."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from jobs.forms.copy_check import FILE_BYTES_MAX, NOT_PDF, TOO_LARGE
from jobs.paper.attached import is_pdf
from jobs.paper.copies import DIGITS, HASH, UNCHANGED, Checked, check_file, check_hash, digits_of


class Command(BaseCommand):
    """`manage.py copy_check FILE`, or `--hash` with 64 digits. Ends with 1 if not unchanged."""

    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        """One of the two."""
        parser.add_argument("file", nargs="?", help="a PDF")
        parser.add_argument("--hash", default="", help="64 digits as printed on a paper")

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Print what came out.

        Raises:
            CommandError: there is no such file, it is no PDF, or the copy is not as issued.

        """
        checked = self.asked(options["file"], digits_of(options["hash"]))
        self.stdout.write("\n".join([f"{checked.head}.", *checked.words]))
        if checked.code not in (UNCHANGED, HASH):
            raise CommandError("That is no unchanged copy.", returncode=1)

    def asked(self, file: str | None, digits: str) -> Checked:
        """Check the one that was named."""
        if bool(file) == bool(digits):
            raise CommandError("Name a file, or a hash by --hash.", returncode=2)
        if digits:
            if len(digits) != DIGITS:
                raise CommandError(f"A hash has 64 digits; {len(digits)} are typed.", returncode=2)
            return check_hash(digits)
        try:
            path = Path(str(file))
            if path.stat().st_size > FILE_BYTES_MAX:
                raise CommandError(TOO_LARGE, returncode=2)
            data = path.read_bytes()
        except OSError as trouble:
            raise CommandError(f"{file}: {trouble.strerror}.", returncode=2) from None
        if not is_pdf(data):
            raise CommandError(NOT_PDF, returncode=2)
        return check_file(data)
