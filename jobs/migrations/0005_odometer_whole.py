"""The odometer as a whole number and its unit, read from the text that was shown."""

import re

from django.db import migrations, models

SHOWN = re.compile(r"(\d+)(km|mi)?")  # blanks taken out: 84 200 mi; what is longer was cut


def whole(apps, schema_editor):
    """Split what was shown. What was no reading of an odometer stays in the logbook as typed."""
    Job = apps.get_model("jobs", "Job")
    for job in Job.objects.exclude(odometer="").iterator():
        read = SHOWN.fullmatch("".join(job.odometer.split()))
        if read and len(read[1]) <= 12:
            Job.objects.filter(pk=job.pk).update(
                odometer_figure=int(read[1]), odometer_unit=read[2] or ""
            )


def shown(apps, schema_editor):
    """Back to the text that was shown."""
    Job = apps.get_model("jobs", "Job")
    for job in Job.objects.exclude(odometer_figure=None).iterator():
        text = f"{job.odometer_figure:,} {job.odometer_unit}".strip()
        Job.objects.filter(pk=job.pk).update(odometer=re.sub("[, ]", "\u00a0", text))


class Migration(migrations.Migration):

    dependencies = [
        ("jobs", "0004_clock_at_sending"),
    ]

    operations = [
        migrations.AddField(
            model_name="job",
            name="odometer_figure",
            field=models.PositiveBigIntegerField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="job",
            name="odometer_unit",
            field=models.CharField(blank=True, default="", max_length=10),
            preserve_default=False,
        ),
        migrations.RunPython(whole, shown),
        migrations.RemoveField(model_name="job", name="odometer"),
        migrations.RenameField(
            model_name="job", old_name="odometer_figure", new_name="odometer"
        ),
    ]
