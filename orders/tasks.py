"""What the clockwork asks of the workshop."""

from celery import shared_task
from django.utils import timezone

from fitshop.actor import system_actor
from orders.services.reminders import reminders_queue_due


@shared_task
def queue_due_reminders() -> int:
    """Queue the reminders that are due by now; answer how many."""
    return len(reminders_queue_due(by=system_actor("reminders"), at=timezone.now()))
