"""A club leaves the bag: decided in the fitting, done when what replaces it is the player's."""

from __future__ import annotations

from datetime import datetime

from django.db import transaction

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.services.audit import audit_record
from sessions.models import Club, Visit

ELSEWHERE = "This belongs to a location where you don't work."


@transaction.atomic
def clubs_leave(*, visit: Visit, by: Actor, at: datetime) -> list[Club]:
    """Say of the clubs that the visit's decisions take out of the bag that they left it now.

    Part of handing over what was built, or of closing a visit from which nothing is built: whose
    policy that is asks who may; here only the location is asked. A club that left before keeps
    its time. Raises Refused. Writes Club, AuditEntry.
    """
    if not by.at_location(visit.location_id):
        raise Refused(ELSEWHERE)
    leaving = list(
        Club.objects.select_for_update(of=("self",)).filter(
            pk__in=visit.decisions.filter(is_current=True).values("leaves_bag"),
            left_bag_at__isnull=True,
        )
    )
    for club in leaving:
        club.left_bag_at = at
        club.save(update_fields=["left_bag_at"])
        audit_record(
            action="fitting.club.left_bag",
            subject=club,
            before={"left_bag_at": None},
            after={"left_bag_at": at, "visit": visit.pk},
            by=by,
            at=at,
        )
    return leaving


@transaction.atomic
def clubs_return(*, visit: Visit, by: Actor, at: datetime) -> list[Club]:
    """Put back into the bag what left it when this closed visit was closed.

    Part of reopening it: what leaves is decided anew. Raises Refused. Writes Club, AuditEntry.
    """
    if not by.at_location(visit.location_id):
        raise Refused(ELSEWHERE)
    returning = list(
        Club.objects.select_for_update(of=("self",)).filter(
            player=visit.player_id,
            left_bag_at__isnull=False,
            left_bag_at=visit.closed_at,
            pk__in=visit.decisions.values("leaves_bag"),
        )
    )
    for club in returning:
        before, club.left_bag_at = club.left_bag_at, None
        club.save(update_fields=["left_bag_at"])
        audit_record(
            action="fitting.club.returned",
            subject=club,
            before={"left_bag_at": before},
            after={"left_bag_at": None, "visit": visit.pk},
            by=by,
            at=at,
        )
    return returning
