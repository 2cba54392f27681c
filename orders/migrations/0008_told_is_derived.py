from django.db import migrations


class Migration(migrations.Migration):
    """Told is read from the tellings. Its own migration: PostgreSQL alters no table with open checks."""

    dependencies = [("orders", "0007_tellings")]

    operations = [
        migrations.RemoveField(model_name="buildorder", name="told_at"),
        migrations.RemoveField(model_name="buildorder", name="told_how"),
    ]
