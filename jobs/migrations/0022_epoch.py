import uuid

from django.db import migrations, models
from django.utils import timezone


def begin_first(apps, schema_editor):
    """A database that tablets have used, or a new one: from here on it tells who it is."""
    Epoch = apps.get_model("jobs", "Epoch")
    if not Epoch.objects.exists():
        Epoch.objects.create(began_at=timezone.now(), why="The database was made ready for it.")


class Migration(migrations.Migration):

    dependencies = [
        ("jobs", "0021_record_hashes"),
    ]

    operations = [
        migrations.CreateModel(
            name="Epoch",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("key", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("began_at", models.DateTimeField()),
                ("why", models.CharField(max_length=300)),
            ],
            options={
                "ordering": ["id"],
            },
        ),
        migrations.RunPython(begin_first, migrations.RunPython.noop),
    ]
