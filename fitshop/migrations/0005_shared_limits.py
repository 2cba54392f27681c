from django.core.management import call_command
from django.db import migrations


def make_table(apps, schema_editor):
    call_command("createcachetable", database=schema_editor.connection.alias, verbosity=0)


def drop_table(apps, schema_editor):
    schema_editor.execute("DROP TABLE shop_cache")


class Migration(migrations.Migration):

    dependencies = [
        ('shop', '0004_first_password_is_changed'),
    ]

    operations = [migrations.RunPython(make_table, drop_table)]
