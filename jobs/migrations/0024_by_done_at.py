from django.db import migrations, models

BY_TIME = [
    "entry__done_at",
    "entry__happened_at",
    models.OrderBy(models.F("entry__sequence"), nulls_first=True),
    "id",
]


class Migration(migrations.Migration):
    dependencies = [
        ("jobs", "0023_done_at"),
    ]

    operations = [
        migrations.AlterField(
            model_name="entry",
            name="done_at",
            field=models.DateTimeField(),
        ),
        migrations.AddIndex(
            model_name="entry",
            index=models.Index(fields=["corrects"], name="entry_corrects"),
        ),
        migrations.AlterModelOptions(
            name="conditions",
            options={"ordering": BY_TIME, "verbose_name_plural": "conditions"},
        ),
        migrations.AlterModelOptions(
            name="loopwork",
            options={"ordering": ["entry__done_at", "entry__happened_at", "id"]},
        ),
        *(
            migrations.AlterModelOptions(name=name, options={"ordering": BY_TIME})
            for name in ("handover", "looptold", "takenout")
        ),
    ]
