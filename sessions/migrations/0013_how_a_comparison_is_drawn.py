"""Head to head or all against all, and which of all the orders of these clubs was drawn."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("fitting", "0012_overrulings_of_the_set"),
    ]

    operations = [
        migrations.AddField(
            model_name="comparison",
            name="chosen",
            field=models.JSONField(blank=True, default=list, help_text="ids of the trials, sorted"),
        ),
        migrations.AddField(
            model_name="comparison",
            name="kind",
            field=models.CharField(
                choices=[("all_against_all", "all against all"), ("head_to_head", "head to head")],
                default="all_against_all",
                max_length=15,
            ),
        ),
        migrations.AddField(
            model_name="comparison",
            name="row",
            field=models.PositiveSmallIntegerField(
                blank=True, help_text="which of all the orders of these clubs, from 0", null=True
            ),
        ),
        migrations.AddConstraint(
            model_name="comparison",
            constraint=models.CheckConstraint(
                condition=models.Q(("kind__in", ["all_against_all", "head_to_head"])),
                name="comparison_kind_is_known",
            ),
        ),
    ]
