import uuid

import django.db.models.deletion
from django.db import migrations, models

HOW = {"e-mail": "letter", "telephone": "telephone", "text": "text", "here": "in_person"}


def tellings_from_before(apps, schema_editor):
    """Every telling that was audited, every letter that was queued, and the columns for the rest."""
    orders = apps.get_model("orders", "BuildOrder")
    telling = apps.get_model("orders", "Telling")
    audit = apps.get_model("shop", "AuditEntry")
    letters = apps.get_model("shop", "OutgoingMessage")
    for order in orders.objects.all():
        rows = []
        queued = letters.objects.filter(
            kind="order_ready", subject_type="order", subject_id=str(order.pk)
        ).first()
        if queued is not None:
            rows.append(
                telling(order=order, how="letter", letter=queued, at=queued.created_at,
                        by=queued.created_by)
            )  # fmt: skip
        written = audit.objects.filter(action="orders.order.told", object_id=str(order.pk))
        for entry in written.order_by("id"):
            how = HOW.get((entry.after or {}).get("how", ""))
            if how is not None:
                rows.append(
                    telling(order=order, how=how, outcome="reached", at=entry.at,
                            by=entry.actor_name)
                )  # fmt: skip
        if not rows and order.told_at is not None:
            how = HOW.get(order.told_how, "in_person")
            rows.append(
                telling(order=order, how=how, outcome="reached", at=order.told_at, by="not noted")
            )
        telling.objects.bulk_create(rows)


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0006_rulers_and_their_methods"),
        ("shop", "0006_a_day_of_trying"),
    ]

    operations = [
        migrations.CreateModel(
            name="Telling",
            fields=[
                ("id", models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ("how", models.CharField(choices=[("letter", "e-mail"), ("telephone", "telephone"), ("text", "text message"), ("in_person", "in person")], max_length=12)),
                ("outcome", models.CharField(blank=True, choices=[("reached", "Player told"), ("no_answer", "No answer"), ("message_left", "Message left")], default="", max_length=12)),
                ("said", models.CharField(blank=True, default="", max_length=300)),
                ("at", models.DateTimeField()),
                ("by", models.CharField(max_length=200)),
                ("letter", models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name="+", to="shop.outgoingmessage")),
                ("order", models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name="tellings", to="orders.buildorder")),
            ],
            options={
                "ordering": ["at", "id"],
                "constraints": [
                    models.CheckConstraint(condition=models.Q(("how__in", ["letter", "telephone", "text", "in_person"])), name="telling_how_is_known"),
                    models.CheckConstraint(condition=models.Q(models.Q(("how", "letter"), ("letter__isnull", False), ("outcome", "")), models.Q(("letter__isnull", True), ("outcome__in", ["reached", "no_answer", "message_left"])), _connector="OR"), name="telling_has_its_outcome_or_its_letter"),
                ],
            },
        ),
        migrations.AddField(
            model_name="buildorder",
            name="tell_by",
            field=models.CharField(blank=True, choices=[("", "Letter if agreed, otherwise telephone"), ("telephone", "Telephone, no letter"), ("text", "Text message, no letter")], default="", max_length=12),
        ),
        migrations.AddConstraint(
            model_name="buildorder",
            constraint=models.CheckConstraint(condition=models.Q(("tell_by__in", ["", "telephone", "text"])), name="order_tell_by_is_known"),
        ),
        migrations.RunPython(tellings_from_before, migrations.RunPython.noop),
    ]
