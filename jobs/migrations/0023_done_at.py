"""When what an entry tells of was done: of a correction, when that happened which it puts right."""

from django.db import migrations, models
from django.db.models import F

SAME = ("key", "kind", "job_key", "corrects", "happened_at", "fields__test_kind")


def put_moments(apps, schema_editor):
    """Entries that were here before get theirs; corrections of them the moment of the first."""
    entries = apps.get_model("jobs", "Entry")
    entries.objects.update(done_at=F("happened_at"))
    told = entries.objects.exclude(corrects=None).values_list("corrects", flat=True)
    tied = entries.objects.exclude(corrects=None) | entries.objects.filter(key__in=list(told))
    by_key = {one["key"]: one for one in tied.values("pk", *SAME)}
    for one in by_key.values():
        first = first_of(one, by_key)
        if first is not one:
            entries.objects.filter(pk=one["pk"]).update(done_at=first["happened_at"])


def first_of(one, by_key):
    """What was told first of all that `one` corrects; in a ring what happened first."""
    passed = [one]
    while before := by_key.get(passed[-1]["corrects"]):
        if any(before[name] != one[name] for name in ("kind", "job_key", "fields__test_kind")):
            break
        if before in passed:
            return min(passed[passed.index(before) :], key=lambda each: each["happened_at"])
        passed.append(before)
    return passed[-1]


class Migration(migrations.Migration):
    dependencies = [
        ("jobs", "0023_priced_head"),
    ]

    operations = [
        migrations.AddField(
            model_name="entry",
            name="done_at",
            field=models.DateTimeField(null=True),
        ),
        migrations.RunPython(put_moments, migrations.RunPython.noop),
    ]
