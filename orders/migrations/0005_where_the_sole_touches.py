"""A club to build copies where its head's sole touches the bench."""

import sessions.models.measures
from django.db import migrations


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0004_rounds_reported"),
    ]

    operations = [
        migrations.AddField(
            model_name="orderclub",
            name="sole_point_mm",
            field=sessions.models.measures.LengthField(
                blank=True, decimal_places=4, max_digits=9, null=True
            ),
        ),
    ]
