from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("fitting", "0010_where_the_sole_touches"),
    ]

    operations = [
        migrations.AddField(
            model_name="specfinding",
            name="things",
            field=models.JSONField(default=list),
        ),
        migrations.AddField(
            model_name="acceptance",
            name="things",
            field=models.JSONField(default=list),
        ),
    ]
