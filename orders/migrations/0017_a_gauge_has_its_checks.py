from django.db import migrations


class Migration(migrations.Migration):
    dependencies = [("orders", "0016_checks_of_gauges")]

    operations = [migrations.RemoveField(model_name="gauge", name="checked_on")]
