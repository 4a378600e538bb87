"""Make a backup a day and a drill a week for as long as the program serves; the start runs it."""

import os
import sys
import threading
import time
from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from shopac.backups.daily import look

LOOK_EACH = 60  # seconds


class Command(BaseCommand):
    """`manage.py daily`: a process of its own with a low priority, so that pages do not wait.

    It ends when whoever started it does, however that ended: its standard input is closed then.
    """

    help = __doc__
    requires_system_checks = ()

    def handle(self, *args: Any, **options: Any) -> None:  # noqa: ARG002  Django's shape
        """Look every minute what is due."""
        threading.Thread(target=end_with_parent, daemon=True).start()
        os.umask(0o077)
        if hasattr(os, "nice"):
            os.nice(10)
        began = timezone.localtime()
        while True:
            look(began)
            time.sleep(LOOK_EACH)


def end_with_parent() -> None:
    """End when the other end of the pipe is closed."""
    sys.stdin.buffer.read()
    os._exit(0)
