"""The shop's own phrases, as taps that fill a field."""

from typing import Any

from django import template

from jobs.models import Shop

register = template.Library()


@register.inclusion_tag("jobs/_phrases.html")
def own_phrases(where: str, fills: str) -> dict[str, Any]:
    """Those for one place (complaint, handover, not_done, waiting), into the field of an id.

    The page loads phrases.js and phrases.css; without script nothing is shown.
    """
    told = Shop.objects.values_list("phrases", flat=True).first() or {}
    return {"phrases": told.get(where, ()), "fills": fills}
