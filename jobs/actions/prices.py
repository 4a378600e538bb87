"""Writing prices and taxes: a new row for each change, the one before stays."""

from typing import Any

from django.db import models

from jobs.logbook import Refused
from jobs.models import Entry, Price, Tax

GONE = "This line is not in the list any more. Open the list again and look."
CHANGED_SINCE = "Somebody else changed this line meanwhile. Open it again and look."


def tell_line(
    table: type[Price] | type[Tax], entry: Entry, told: dict[str, Any], columns: dict[str, Any]
) -> None:
    """One line: new, told anew, or ended.

    `told` has `line` (the line meant, or None), `seen` (the entry by which it stood) and `ends`.

    Raises:
        Refused: the line is not there any more, or was changed meanwhile.

    """
    rows: models.QuerySet[Any] = table.objects.all()
    line = told["line"]
    before = None
    if line:
        before = rows.filter(line=line, superseded_by=None, ended=False).first()
        if before is None:
            raise Refused(GONE)
        if told["seen"] and told["seen"] != before.entry.key:
            raise Refused(CHANGED_SINCE)
    if told["ends"] and before:
        columns = {name: getattr(before, name) for name in table.TOLD}
    supersede(table, before, entry, columns, bool(told["ends"]))


def supersede(
    table: type[Price] | type[Tax],
    before: Any,
    entry: Entry,
    columns: dict[str, Any],
    ended: bool,
) -> None:
    """The new row; of one line only one row counts at a time, so the old one gives way first."""
    line = before.line if before else entry.key
    new = table(line=line, entry=entry, from_at=entry.happened_at, ended=ended, **columns)
    if before is None:
        new.save()
        return
    # The row that counts is unique by line: the new one comes in under a line of its own.
    new.line = entry.key
    new.save()
    before.superseded_by = new
    before.save(update_fields=["superseded_by"])
    new.line = line
    new.save(update_fields=["line"])
