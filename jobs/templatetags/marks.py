"""What was odd about an entry, in words."""

from django import template

from jobs.models import Entry
from jobs.models.marks import marks_in_words

register = template.Library()


@register.filter
def marks_said(entry: Entry) -> list[str]:
    """The sentences of one entry's marks; it comes with its author."""
    return [mark.words for mark in marks_in_words([entry])[entry.pk]]
