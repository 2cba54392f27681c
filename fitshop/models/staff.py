"""The people who work here, their roles and where they work."""

import uuid
from collections.abc import Iterator

from django.contrib.auth.models import AbstractUser
from django.db import models

from fitshop.actor import Role
from fitshop.models.places import Location


class Staff(AbstractUser):
    """A member of staff, who signs in. Roles and locations are rows of their own."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    display_name = models.CharField(max_length=120, blank=True, default="")
    # Hashed, empty where none is set. It opens nothing but on an enrolled tablet.
    pin = models.CharField(max_length=128, blank=True, default="", editable=False)
    # Somebody else knows it: the next sign-in sets another before anything else.
    must_set_password = models.BooleanField(default=False)
    # Part of every session: a new one ends them all, at once and for good.
    sign_in_epoch = models.UUIDField(default=uuid.uuid4, editable=False)
    locations = models.ManyToManyField(Location, through="StaffLocation", related_name="staff")

    class Meta:
        verbose_name_plural = "staff"

    def __str__(self) -> str:
        return self.display_name or self.username

    def get_session_auth_hash(self) -> str:
        return f"{super().get_session_auth_hash()}{self.sign_in_epoch.hex}"

    def get_session_auth_fallback_hash(self) -> Iterator[str]:
        for known in super().get_session_auth_fallback_hash():
            yield f"{known}{self.sign_in_epoch.hex}"


class StaffRole(models.Model):
    staff = models.ForeignKey(Staff, on_delete=models.CASCADE, related_name="role_rows")
    role = models.CharField(max_length=20, choices=[(role.value, role.value) for role in Role])

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["staff", "role"], name="staff_role_once"),
            models.CheckConstraint(
                condition=models.Q(role__in=[role.value for role in Role]),
                name="staff_role_is_known",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.staff} as {self.role}"


class StaffLocation(models.Model):
    staff = models.ForeignKey(Staff, on_delete=models.CASCADE, related_name="location_rows")
    location = models.ForeignKey(Location, on_delete=models.PROTECT, related_name="staff_rows")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["staff", "location"], name="staff_location_once")
        ]

    def __str__(self) -> str:
        return f"{self.staff} at {self.location}"
