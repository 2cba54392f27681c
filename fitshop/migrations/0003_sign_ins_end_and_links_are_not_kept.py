import uuid

from django.db import migrations, models


def forget_links(apps, schema_editor):
    """Empty the account letters that were frozen with their links."""
    apps.get_model("shop", "OutgoingMessage").objects.filter(kind="account").update(
        body_text="", body_html=""
    )


class Migration(migrations.Migration):

    dependencies = [
        ('shop', '0002_letters_withdrawn'),
    ]

    operations = [
        migrations.AddField(
            model_name='staff',
            name='sign_in_epoch',
            field=models.UUIDField(default=uuid.uuid4, editable=False),
        ),
        migrations.RunPython(forget_links, migrations.RunPython.noop),
    ]
