"""What the owner's board says of backups, where something is wrong with them."""

from pathlib import Path

from django import template
from django.conf import settings
from django.utils import timezone

from shopac.backups import known

register = template.Library()


@register.simple_tag
def backup_warnings() -> list[str]:
    """Sentences; mostly none. One small file is read, and the database is not asked."""
    return known.warnings(Path(settings.DATA), timezone.now())
