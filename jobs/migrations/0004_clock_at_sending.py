from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("jobs", "0003_car_states_by_time")]

    operations = [
        migrations.AddField(
            model_name="entry",
            name="clock_offset_sent_ms",
            field=models.BigIntegerField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="reused",
            name="clock_offset_sent_ms",
            field=models.BigIntegerField(blank=True, null=True),
        ),
    ]
