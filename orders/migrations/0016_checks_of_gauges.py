"""Each gauge's day of its last check becomes a good check of that day."""

import uuid
from datetime import datetime, time
from zoneinfo import ZoneInfo

import django.db.models.deletion
from django.db import migrations, models


def checks_from_days(apps, schema_editor):
    gauges = apps.get_model("orders", "Gauge").objects.exclude(checked_on=None)
    apps.get_model("orders", "GaugeCheck").objects.bulk_create(
        apps.get_model("orders", "GaugeCheck")(
            gauge=gauge,
            off_by=0,
            checked_at=datetime.combine(
                gauge.checked_on, time(), tzinfo=ZoneInfo(gauge.location.zone)
            ),
            checked_by="clockwork",
        )
        for gauge in gauges.select_related("location")
    )


class Migration(migrations.Migration):
    dependencies = [("orders", "0015_what_was_done_to_the_metal")]

    operations = [
        migrations.CreateModel(
            name="GaugeCheck",
            fields=[
                (
                    "id",
                    models.UUIDField(
                        default=uuid.uuid4, editable=False, primary_key=True, serialize=False
                    ),
                ),
                ("off_by", models.DecimalField(decimal_places=4, default=0, max_digits=9)),
                ("note", models.CharField(blank=True, default="", max_length=300)),
                ("checked_at", models.DateTimeField()),
                ("checked_by", models.CharField(max_length=200)),
                (
                    "gauge",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="checks",
                        to="orders.gauge",
                    ),
                ),
            ],
            options={"ordering": ["checked_at"]},
        ),
        migrations.RunPython(checks_from_days, migrations.RunPython.noop),
    ]
