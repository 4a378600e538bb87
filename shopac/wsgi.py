"""The site as a WSGI application, for granian."""

import os
import sqlite3

from django.core.wsgi import get_wsgi_application
from django.db import connection

from shopac.bodies import bounded_bodies, notice_dead_lines

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopac.settings")


def hold_log_open() -> sqlite3.Connection | None:
    """On SQLite one more connection, idle for as long as the server runs.

    The last connection to be closed removes the write-ahead log and its index, and the next has to
    make them anew: on a full disk it could not, and then not even a page could be read.
    """
    if connection.vendor != "sqlite":
        return None
    held = sqlite3.connect(connection.settings_dict["NAME"], timeout=5, check_same_thread=False)
    held.execute("SELECT count(*) FROM sqlite_master").fetchone()  # only reading opens the index
    return held


application = bounded_bodies(get_wsgi_application())
held = hold_log_open()
notice_dead_lines()
