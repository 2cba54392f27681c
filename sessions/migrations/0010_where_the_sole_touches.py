"""How far from the shaft a head's sole touches the bench, for the length by the bench ruler."""

import sessions.models.measures
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("fitting", "0009_grip_diameters"),
    ]

    operations = [
        migrations.AddField(
            model_name="head",
            name="sole_point_mm",
            field=sessions.models.measures.LengthField(
                blank=True, decimal_places=4, max_digits=9, null=True
            ),
        ),
        migrations.AddConstraint(
            model_name="head",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("sole_point_mm__gte", 5), ("sole_point_mm__lte", 70)),
                    ("sole_point_mm__isnull", True),
                    _connector="OR",
                ),
                name="head_sole_point_believable",
            ),
        ),
    ]
