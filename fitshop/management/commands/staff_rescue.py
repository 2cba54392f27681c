"""Let a manager in again who has lost password or second factor, on the shop's own machine."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from fitshop.actor import Role, system_actor
from fitshop.models import Staff
from fitshop.services.colleagues import (
    one_time_password,
    staff_factor_remove,
    staff_password_give,
)


class Command(BaseCommand):
    help = "Give a manager a password for one sign-in, and remove the second factor."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("username", help="the manager's sign-in name")

    def handle(self, *args: Any, username: str, **options: Any) -> None:
        person = Staff.objects.filter(
            username__iexact=username, is_active=True, role_rows__role=Role.MANAGER.value
        ).first()
        if person is None:
            raise CommandError(f"No manager who works here signs in as {username}.")
        by, at = system_actor("staff_rescue"), timezone.now()
        password = one_time_password()
        staff_password_give(person=person, password=password, by=by, at=at)
        staff_factor_remove(person=person, by=by, at=at)
        self.stdout.write(f"{person} signs in once as {person.username} with {password}")
