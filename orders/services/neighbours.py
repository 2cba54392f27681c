"""Clubs of a set beside each other: what stops the glue and the check, and accepting a step."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import the_shop
from fitshop.services.audit import audit_record
from orders.models import BuildOrder, OrderClub, OrderRevision, SetConcession
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.figures import settings_of
from orders.selectors.neighbours import StepSeen, Unit, open_steps, steps_of
from orders.services.moves import current_revision, locked_order


@transaction.atomic
def set_concession_sign(
    *,
    order: BuildOrder,
    measure: str,
    slots: tuple[int, int],
    reason: str,
    player_words: str = "",
    by: Actor,
    at: datetime,
) -> SetConcession:
    """Accept the step between two clubs as it is, with the shop's own reason.

    It holds as long as the step gets no further from its plan. `player_words` is what the player
    reads; where it is empty, what is worded from the figures.
    Raises Refused, StateRefused, FieldsRefused. Writes SetConcession, AuditEntry.
    """
    row = locked_order(order)
    ORDER_POLICY.require(
        by, OrderAction.CONCESSION_SIGN, location_id=row.location_id, state=row.state
    )
    if not reason.strip():
        raise FieldsRefused(
            {"reason": "Say why it is accepted: it stands on the ticket."},
            code="neighbours.reason_missing",
        )
    revision = current_revision(row)
    seen = _step(revision, measure, slots)
    if seen.concession is not None:
        return seen.concession

    accepted = SetConcession.objects.create(
        revision=revision,
        measure=seen.measure,
        slot_above=slots[0],
        slot_below=slots[1],
        planned=seen.judged.planned,
        accepted_value=seen.judged.came.quantize(Decimal("0.0001")),
        reason=reason.strip()[:300],
        player_words=player_words.strip()[:300],
        signed_at=at,
        signed_by=by.name,
    )
    audit_record(
        action="orders.set_concession.signed",
        subject=row,
        after={
            "rule": seen.judged.rule,
            "slots": list(slots),
            "planned": accepted.planned,
            "accepted": accepted.accepted_value,
            "reason": accepted.reason,
            "player_words": accepted.player_words,
        },
        by=by,
        at=at,
    )
    return accepted


def _step(revision: OrderRevision, measure: str, slots: tuple[int, int]) -> StepSeen:
    found = next(
        (
            each
            for each in steps_of(revision, settings_of(revision).values)
            if each.measure == measure and each.judged.slots == slots and each.judged.is_out
        ),
        None,
    )
    if found is None:
        raise StateRefused(
            "That step is as it was planned: there is nothing to accept.",
            code="neighbours.nothing_to_accept",
        )
    if found.judged.wants_second_reading and found.concession is None:
        raise StateRefused(
            "Read both clubs a second time first: the means decide whether it is out.",
            code="neighbours.read_twice",
        )
    return found


def refuse_glue_beside(club: OrderClub) -> None:
    """What is glued now would stand a wrong step from its neighbour. Raises StateRefused."""
    settings = settings_of(club.revision).values
    steps = open_steps(club.revision, settings, slot=club.slot)
    _refuse(steps, code="bench.neighbours", helps="Bend it first, or have the step accepted")


def refuse_check_beside(revision: OrderRevision) -> None:
    """Clubs that are in by themselves and out beside each other. Raises StateRefused."""
    steps = open_steps(revision, settings_of(revision).values)
    _refuse(steps, code="checks.neighbours", helps="Send one back, or have the step accepted")


def _refuse(steps: list[StepSeen], *, code: str, helps: str) -> None:
    if not steps:
        return
    shop = the_shop()
    unit: Unit = "mm" if shop is not None and shop.length_unit == "mm" else "in"
    said = " ".join(step.sentence(unit) for step in steps)
    if all(step.judged.wants_second_reading for step in steps):
        helps = "Read both a second time first"
    else:
        helps += " by a fitter or manager"
    raise StateRefused(f"{said} {helps}.", code=code)
