"""Whether a club's mass was read on the scale or added up from its parts."""

from typing import Any

from django.db import migrations, models


def readings_marked(apps: Any, schema_editor: Any) -> None:
    """Until now nothing told them apart but where they came from.

    An own club's mass was read, as the bag has it. A trial club's was added up, but where a tablet
    sent one along with the hand-over.
    """
    Trial = apps.get_model("fitting", "Trial")
    Command = apps.get_model("fitting", "Command")
    weighed = Trial.objects.filter(mass_g__isnull=False)
    weighed.filter(club__isnull=False).update(mass_is_measured=True)
    sent = Command.objects.filter(kind="trial.start").values_list("body", flat=True)
    for body in sent.iterator():
        if str(body.get("mass") or "").strip():
            weighed.filter(pk=body["id"]).update(mass_is_measured=True)


class Migration(migrations.Migration):
    dependencies = [
        ("fitting", "0013_how_a_comparison_is_drawn"),
    ]

    operations = [
        migrations.AddField(
            model_name="trial",
            name="mass_is_measured",
            field=models.BooleanField(default=False),
        ),
        migrations.RunPython(readings_marked, migrations.RunPython.noop),
    ]
