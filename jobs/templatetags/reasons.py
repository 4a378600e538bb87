"""Rows of a record that have their reason in common."""

from collections.abc import Iterable

from django import template

from jobs.paper.frozen import NotTested

register = template.Library()


@register.filter
def by_reason(rows: Iterable[NotTested]) -> list[tuple[str, list[str]]]:
    """Each reason once, in the order of the rows, with all that was not tested for it."""
    named: dict[str, list[str]] = {}
    for row in rows:
        named.setdefault(row["why"], []).append(row["what"])
    return list(named.items())
