"""While the program serves: one backup a day, one drill a week, and an end with the start."""

import subprocess
import sys
import time
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from shopac.backups.daily import backup_due, drill_due
from shopac.backups.known import Known
from shopac.beside import beside
from tests.shopac.starting import PROGRAM, environment, is_alive

NOW = datetime(2027, 3, 17, 9, 0, tzinfo=ZoneInfo("Europe/Vienna"))
LONG_AGO = NOW - timedelta(days=90)


def ago(**told):
    return (NOW - timedelta(**told)).isoformat()


def test_the_first_is_made_ten_minutes_after_the_start():
    assert not backup_due(Known(), NOW, NOW - timedelta(minutes=9))
    assert backup_due(Known(), NOW, NOW - timedelta(minutes=10))


def test_each_day_has_one():
    assert not backup_due(Known(made_at=ago(hours=8)), NOW, LONG_AGO)
    assert backup_due(Known(made_at=ago(hours=10)), NOW, LONG_AGO)


def test_one_that_failed_is_tried_again_an_hour_later():
    assert not backup_due(Known(failed_at=ago(minutes=59)), NOW, LONG_AGO)
    assert backup_due(Known(failed_at=ago(minutes=60)), NOW, LONG_AGO)


def test_a_drill_is_made_each_week_and_after_a_bad_one_each_day():
    made = ago(hours=1)
    assert not drill_due(Known(), NOW, LONG_AGO)
    assert drill_due(Known(made_at=made), NOW, LONG_AGO)
    good = Known(made_at=made, drill_ok=True, drilled_at=ago(days=6))
    assert not drill_due(good, NOW, LONG_AGO)
    assert drill_due(Known(made_at=made, drill_ok=True, drilled_at=ago(days=7)), NOW, LONG_AGO)
    assert drill_due(Known(made_at=made, drill_ok=False, drilled_at=ago(days=1)), NOW, LONG_AGO)


def test_a_clock_that_once_was_a_year_ahead_keeps_no_backup_and_no_drill_away():
    ahead, made = ago(days=-365), ago(hours=10)
    assert backup_due(Known(failed_at=ahead, made_at=made), NOW, LONG_AGO)
    assert drill_due(Known(made_at=made, drill_ok=True, drilled_at=ahead), NOW, LONG_AGO)


def test_what_runs_beside_ends_with_the_block(tmp_path):
    told = tmp_path / "process"
    program = (
        "import os, pathlib, sys, time; pathlib.Path(sys.argv[1]).write_text(str(os.getpid()))"
    )
    with beside(
        [sys.executable, "-c", f"{program}; time.sleep(60)", str(told)], environment(), "."
    ):
        while not (told.exists() and told.read_text()):
            time.sleep(0.05)
        assert is_alive(int(told.read_text()))
    assert not is_alive(int(told.read_text()))


def test_it_ends_by_itself_when_the_start_was_killed(tmp_path):
    """Killed, the start can tell nobody; the end of its pipe does."""
    child = subprocess.Popen(
        [sys.executable, "manage.py", "daily"],
        cwd=PROGRAM,
        env={**environment(), "SHOPAC_DATA": str(tmp_path)},
        stdin=subprocess.PIPE,
    )
    time.sleep(2)
    assert child.poll() is None
    assert child.stdin
    child.stdin.close()
    assert child.wait(20) == 0
