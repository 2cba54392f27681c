from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("fitting", "0011_what_a_finding_is_about"),
    ]

    operations = [
        migrations.RemoveConstraint(
            model_name="overruling",
            name="overruling_topic_is_known",
        ),
        migrations.AlterField(
            model_name="overruling",
            name="suggested",
            field=models.CharField(max_length=2000),
        ),
        migrations.AddConstraint(
            model_name="overruling",
            constraint=models.CheckConstraint(
                condition=models.Q(("topic__in", ["sole", "lie", "shaft", "wedges", "try_first"])),
                name="overruling_topic_is_known",
            ),
        ),
    ]
