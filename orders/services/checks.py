"""The check by a second look, and accepting a figure that is out of tolerance."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from orders.flow import ClubState, OrderState
from orders.models import BuildOrder, Check, Concession, OrderClub, OrderRevision, Reading
from orders.models.bench import Measure, Stage
from orders.policy import ORDER_POLICY, OrderAction
from orders.selectors.figures import COLUMNS, figures_of, is_built_by, settings_of
from orders.selectors.holds import Hold, holds_of
from orders.selectors.second_look import second_look
from orders.services.moves import club_move, current_revision, locked_club, locked_order, order_move
from orders.services.neighbours import refuse_check_beside
from sessions.rules.wording import listed

NOTHING_TO_ACCEPT = "That figure is in tolerance: there is nothing to accept."
BUILT_COLUMNS = [column for (stage, _), (column, _) in COLUMNS.items() if stage == Stage.AS_BUILT]
# Why clubs are built again. Common practice.
CAUSES = (
    "fitted wrong",
    "ordered wrong",
    "player changed his mind",
    "wrong part or hand",
    "tip trim",
    "over-prepared tip",
    "insertion",
    "epoxy",
    "rattle",
    "scorch",
    "scratch",
    "stress mark",
    "logo, rib or grip out of line",
    "grip size or not home",
    "length",
    "loft",
    "lie",
    "swing weight",
    "ferrule",
    "stamping",
)


@transaction.atomic
def check_sign(
    *,
    order: BuildOrder,
    result: str,
    cause: str = "",
    note: str = "",
    slots: Sequence[int] = (),
    by: Actor,
    at: datetime,
) -> Check:
    """Sign the second look: passed, or back to the bench with its cause.

    Rework takes the named slots (none named: all) back and strikes out their readings as built.
    Whether the one who built may pass it follows the number of builders, or the shop's setting;
    it is written down. Signed
    twice is signed once.
    Raises Refused, StateRefused, FieldsRefused.
    Writes Check, BuildOrder, OrderClub, Reading, AuditEntry.
    """
    row = locked_order(order)
    ORDER_POLICY.require(by, OrderAction.CHECK_SIGN, location_id=row.location_id, state=row.state)
    revision = current_revision(row)
    last = revision.checks.first()
    if result == Check.Result.PASSED and last is not None and last.result == result:
        return last
    if result not in Check.Result.values:
        raise FieldsRefused({"result": "Choose: passed, or rework."})
    if result == Check.Result.REWORK and cause not in CAUSES:
        raise FieldsRefused({"cause": "Choose the cause: it is counted in the reports."})
    if result == Check.Result.PASSED:
        _refuse_what_is_out(revision)
        refuse_check_beside(revision)
        _refuse_the_builder(revision, by)

    check = Check.objects.create(
        revision=revision,
        result=result,
        cause=cause if result == Check.Result.REWORK else "",
        note=note.strip()[:300],
        same_person_built=is_built_by(revision, by),
        signed_at=at,
        signed_by=by.name,
        staff_id=by.staff_id,
    )
    if result == Check.Result.REWORK:
        _back_to_the_bench(row, revision, slots, cause, at)
    audit_record(
        action="orders.check.signed",
        subject=row,
        after={
            "result": result,
            "cause": check.cause,
            "same_person_built": check.same_person_built,
            "slots": list(slots),
        },
        by=by,
        at=at,
    )
    return check


@transaction.atomic
def concession_sign(
    *,
    club: OrderClub,
    measure: str,
    reason: str,
    player_words: str = "",
    stage: str = Stage.AS_BUILT,
    by: Actor,
    at: datetime,
) -> Concession:
    """Accept one figure out of tolerance, as it was read, with the shop's own reason.

    It holds for this very figure: another reading wants another look. `player_words` is what
    the player reads; where it is empty, what is worded from the figures. Dry, the figure is
    what the club comes to when glued; as received, the head's mass.
    Raises Refused, StateRefused, FieldsRefused. Writes Concession, AuditEntry.
    """
    order, row = locked_club(club)
    ORDER_POLICY.require(
        by, OrderAction.CONCESSION_SIGN, location_id=order.location_id, state=order.state
    )
    if not reason.strip():
        raise FieldsRefused({"reason": "Say why it is accepted: it stands on the ticket."})
    out = _out_as_built(row, measure) if stage == Stage.AS_BUILT else _held(row, stage, measure)
    if out.concession is not None:
        return out.concession
    if out.wants_second_reading:
        raise StateRefused(
            "Read it a second time first: the mean decides whether it is out.",
            code="concession.read_twice",
        )

    concession = Concession.objects.create(
        club=row,
        stage=stage,
        measure=measure,
        target=out.target,
        accepted_value=out.value.quantize(Decimal("0.0001")),
        reason=reason.strip()[:300],
        player_words=player_words.strip()[:300],
        signed_at=at,
        signed_by=by.name,
    )
    audit_record(
        action="orders.concession.signed",
        subject=row,
        after={
            "stage": stage,
            "measure": measure,
            "target": concession.target,
            "accepted": concession.accepted_value,
            "reason": concession.reason,
            "player_words": concession.player_words,
        },
        by=by,
        at=at,
    )
    return concession


@transaction.atomic
def concession_word(
    *, concession: Concession, player_words: str, by: Actor, at: datetime
) -> Concession:
    """Put another sentence where the player reads of an accepted figure, until it is sent.

    Raises Refused, FieldsRefused. Writes Concession, AuditEntry.
    """
    order, row = locked_club(concession.club)
    ORDER_POLICY.require(
        by, OrderAction.CONCESSION_WORDS, location_id=order.location_id, state=order.state
    )
    if not player_words.strip():
        raise FieldsRefused(
            {"player_words": "Write what the player is to read."},
            code="checks.player_words_missing",
        )
    locked = Concession.objects.select_for_update(of=("self",)).get(pk=concession.pk)
    before = locked.player_words
    if player_words.strip()[:300] == before:
        return locked

    locked.player_words = player_words.strip()[:300]
    locked.save(update_fields=["player_words"])
    audit_record(
        action="orders.concession.worded",
        subject=row,
        before={"player_words": before},
        after={"measure": locked.measure, "player_words": locked.player_words},
        by=by,
        at=at,
    )
    return locked


def _out_as_built(club: OrderClub, measure: str) -> Hold:
    figures = {each.measure: each for each in figures_of(club, settings_of(club.revision).values)}
    figure = figures.get(Measure(measure))
    if figure is None or figure.verdict.mean is None:
        raise StateRefused("That figure isn't measured yet.", code="concession.unread")
    if figure.concession is None and figure.verdict.is_in:
        raise StateRefused(NOTHING_TO_ACCEPT, code="concession.in_tolerance")
    return Hold(
        stage=Stage.AS_BUILT,
        measure=figure.measure,
        target=figure.target,
        value=figure.verdict.mean,
        concession=figure.concession,
        wants_second_reading=figure.wants_second_reading,
    )


def _held(club: OrderClub, stage: str, measure: str) -> Hold:
    hold = holds_of(club, settings_of(club.revision).values).get((stage, measure))
    if hold is None:
        raise StateRefused(NOTHING_TO_ACCEPT, code="concession.in_tolerance")
    return hold


def _refuse_what_is_out(revision: OrderRevision) -> None:
    settings = settings_of(revision).values
    open_ones = [
        (club, figure)
        for club in revision.clubs.all()
        for figure in figures_of(club, settings)
        if not figure.may_pass
    ]
    if not open_ones:
        return
    said = [
        f"Slot {club.slot}, {figure.measure.label}: "
        + ("read it a second time first." if figure.wants_second_reading else figure.sentence)
        for club, figure in open_ones
    ]
    if not all(figure.wants_second_reading for _, figure in open_ones):
        said.append("Send it to rework, or have it accepted by a fitter or manager.")
    raise StateRefused(" ".join(said))


def _refuse_the_builder(revision: OrderRevision, by: Actor) -> None:
    if second_look(revision, by).is_refused:
        raise StateRefused(
            "You built on this ticket, and here another person checks. "
            "Ask a builder or a manager who didn't build on it to look and sign.",
            code="checks.second_person",
        )


def _back_to_the_bench(
    order: BuildOrder, revision: OrderRevision, slots: Sequence[int], cause: str, at: datetime
) -> None:
    clubs = list(revision.clubs.select_for_update(of=("self",)))
    wrong = [slot for slot in slots if slot not in {club.slot for club in clubs}]
    if wrong:
        raise FieldsRefused({"slots": f"Not on this ticket: slot {listed([*map(str, wrong)])}."})
    for club in clubs:
        if slots and club.slot not in slots:
            continue
        if club.state != ClubState.REWORK:
            club_move(club, ClubState.REWORK)
        club.reworked_at = at
        for column in BUILT_COLUMNS:
            setattr(club, column, None)
        club.save(update_fields=["state", "reworked_at", *BUILT_COLUMNS])
        Reading.objects.filter(club=club, stage=Stage.AS_BUILT, struck_out_at__isnull=True).update(
            struck_out_at=at, struck_out_why=f"rework: {cause}"[:120]
        )
    order_move(order, OrderState.REWORK)
    order.save(update_fields=["state"])
