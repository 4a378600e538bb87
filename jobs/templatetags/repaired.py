"""What repair pages look up."""

from collections.abc import Mapping
from uuid import UUID

from django import template

from jobs.models import Change, TakenOut

register = template.Library()


@register.filter
def old_of(told: Mapping[UUID, TakenOut] | None, change: Change | None) -> TakenOut | None:
    """Where the old part of a change went; None: not told, or the page does not show it."""
    return told.get(change.key) if told and change else None
