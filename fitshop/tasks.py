"""What the clockwork calls in a real shop. No fact of the business rides on a broker's message."""

from celery import shared_task
from django.utils import timezone

from fitshop.actor import system_actor
from fitshop.services.mail_transport import transport_in_force
from fitshop.services.sweep import sweep


@shared_task(ignore_result=True)
def sweep_messages() -> None:
    """Send what is due. Called too often, twice at once or too late, it does no harm."""
    sweep(transport=transport_in_force(), clock=timezone.now, by=system_actor("message sweep"))
