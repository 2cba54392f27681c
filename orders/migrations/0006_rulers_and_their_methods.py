"""A gauge for lengths says by which method it reads, and a reading keeps it.

Of the gauges from before this, one that speaks of 60 degrees is the Rules' stop; any other reads
along the shaft, as a bench ruler does. Readings from before keep none: they were held against
their target as it was meant, and stay so.
"""

import sessions.models.measures
from django.db import migrations, models


def methods_named(apps, schema_editor):
    for gauge in apps.get_model("orders", "Gauge").objects.filter(measure="length"):
        gauge.length_method = "rules" if "60" in gauge.name else "ruler"
        gauge.save(update_fields=["length_method"])


class Migration(migrations.Migration):

    dependencies = [
        ('orders', '0005_where_the_sole_touches'),
    ]

    operations = [
        migrations.RemoveConstraint(
            model_name='reading',
            name='reading_measure_is_known',
        ),
        migrations.AddField(
            model_name='gauge',
            name='length_method',
            field=models.CharField(blank=True, choices=[('rules', 'on the 60 degree plane (Rules)'), ('ruler', 'bench ruler along the shaft')], default='', max_length=6),
        ),
        migrations.AddField(
            model_name='orderclub',
            name='as_received_sole_point_mm',
            field=sessions.models.measures.LengthField(blank=True, decimal_places=4, max_digits=9, null=True),
        ),
        migrations.AddField(
            model_name='reading',
            name='length_method',
            field=models.CharField(blank=True, choices=[('rules', 'on the 60 degree plane (Rules)'), ('ruler', 'bench ruler along the shaft')], default='', max_length=6),
        ),
        migrations.AlterField(
            model_name='concession',
            name='measure',
            field=models.CharField(choices=[('loft', 'loft'), ('lie', 'lie'), ('bounce', 'bounce'), ('head_mass', 'head mass'), ('length', 'length'), ('swing_weight', 'swing weight'), ('total_mass', 'total mass'), ('grip_diameter', 'grip diameter'), ('sole_point', 'sole point')], max_length=14),
        ),
        migrations.AlterField(
            model_name='gauge',
            name='measure',
            field=models.CharField(choices=[('loft', 'loft'), ('lie', 'lie'), ('bounce', 'bounce'), ('head_mass', 'head mass'), ('length', 'length'), ('swing_weight', 'swing weight'), ('total_mass', 'total mass'), ('grip_diameter', 'grip diameter'), ('sole_point', 'sole point')], max_length=14),
        ),
        migrations.AlterField(
            model_name='reading',
            name='measure',
            field=models.CharField(choices=[('loft', 'loft'), ('lie', 'lie'), ('bounce', 'bounce'), ('head_mass', 'head mass'), ('length', 'length'), ('swing_weight', 'swing weight'), ('total_mass', 'total mass'), ('grip_diameter', 'grip diameter'), ('sole_point', 'sole point')], max_length=14),
        ),
        migrations.RunPython(methods_named, migrations.RunPython.noop),
        migrations.AddConstraint(
            model_name='gauge',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('length_method__in', ['rules', 'ruler']), ('measure', 'length')), models.Q(models.Q(('measure', 'length'), _negated=True), ('length_method', '')), _connector='OR'), name='gauge_for_lengths_has_its_method'),
        ),
        migrations.AddConstraint(
            model_name='reading',
            constraint=models.CheckConstraint(condition=models.Q(('measure__in', ['loft', 'lie', 'bounce', 'head_mass', 'length', 'swing_weight', 'total_mass', 'grip_diameter', 'sole_point'])), name='reading_measure_is_known'),
        ),
    ]
