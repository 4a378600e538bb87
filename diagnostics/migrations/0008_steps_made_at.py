"""Steps that put right another were made when that was."""

from django.db import migrations
from django.db.models import OuterRef, Subquery


def put_moments(apps, schema_editor):
    """By the moments that their entries have."""
    done = apps.get_model("jobs", "Entry").objects.filter(pk=OuterRef("entry_id"))
    steps = apps.get_model("diagnostics", "Step").objects
    steps.update(made_at=Subquery(done.values("done_at")[:1]))


class Migration(migrations.Migration):
    dependencies = [
        ("diagnostics", "0007_verified"),
        ("jobs", "0024_by_done_at"),
    ]

    operations = [
        migrations.RunPython(put_moments, migrations.RunPython.noop),
    ]
