"""Blank the records of customers who were taken out, once the shop's years for them are over."""

from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from jobs.actions.redact import let_records_go


class Command(BaseCommand):
    """`manage.py let_records_go`: each start does it, too; safe to call again."""

    help = __doc__

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Do it, and say how many it were where there were any."""
        gone = let_records_go(timezone.now())
        if gone:
            self.stdout.write(f"Records let go, as their customers asked: {gone}.")
