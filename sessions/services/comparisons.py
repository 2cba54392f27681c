"""Clubs side by side under neutral numbers: drawn, rated, looked behind, revealed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from itertools import combinations
from typing import Any
from uuid import UUID

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import settings_in_force
from fitshop.services.audit import audit_record
from sessions.flow import ComparisonState, can_move, refusal
from sessions.maths.errors import OrderRefused
from sessions.maths.hidden_order import HiddenOrder, all_against_all, head_to_head
from sessions.models import Comparison, ComparisonArm, Peek, Rating, Trial, Visit
from sessions.policy import FittingAction
from sessions.rules.likeness import SEVERAL
from sessions.rules.wording import listed
from sessions.selectors.comparisons import spoilers_of
from sessions.selectors.likeness import likeness
from sessions.services.capture import visit_locked
from sessions.services.rated_in import rated_in
from sessions.services.visits import sequence_take

RUNNING_STATES = (ComparisonState.DRAWN, ComparisonState.RUNNING)
LOWEST_SCORE, HIGHEST_SCORE = 1, 5


@transaction.atomic
def comparison_open(
    *,
    visit: Visit,
    comparison_id: UUID,
    slot: int | None,
    trials: Sequence[Trial],
    covered: bool,
    seed: int,
    kind: str = Comparison.Kind.ALL_AGAINST_ALL,
    knowingly: bool = False,
    by: Actor,
    at: datetime,
) -> Comparison:
    """Draw neutral numbers and an order for two to eight clubs of this visit.

    All of them in turn, or two of them head to head. A later comparison of the same clubs in this
    visit takes an order, or a pair, that is not used yet, while there is one. No number comes
    twice in a visit. Two clubs that differ in several things are drawn only `knowingly`.

    It is blind only if nothing spoils it (`sessions.rules.blindness`); otherwise hidden order.
    The order ends with the first club again, to see drift.

    Raises Refused, FieldsRefused, StateRefused.
    Writes Comparison, ComparisonArm, AuditEntry.
    """
    visit = visit_locked(visit, by=by, action=FittingAction.COMPARE)
    known = Comparison.objects.filter(pk=comparison_id, visit=visit).first()
    if known is not None:
        return known
    _refuse_trials(visit, trials)

    _refuse_kind(kind)
    several = several_differ(trials)
    if several and not knowingly:
        raise FieldsRefused(
            {"knowingly": _several_words(several)}, code="comparison.several_differ"
        )
    drawn = _drawn(visit, trials, kind, seed)
    round_of_numbers = list(drawn.order)
    meeting = {head.head_id for head in drawn.heads}

    comparison = Comparison.objects.create(
        id=comparison_id,
        visit=visit,
        sequence=sequence_take(visit),
        slot=slot,
        hiding=_hiding([trial for trial in trials if str(trial.pk) in meeting], covered),
        covered=covered,
        kind=kind,
        seed=seed,
        chosen=sorted(str(trial.pk) for trial in trials),
        row=drawn.row,
        order=[*round_of_numbers, round_of_numbers[0]],
        drawn_at=at,
        drawn_by=by.name,
    )
    ComparisonArm.objects.bulk_create(
        ComparisonArm(comparison=comparison, trial_id=UUID(head.head_id), code=head.number)
        for head in drawn.heads
    )
    audit_record(
        action="fitting.comparison.opened",
        subject=comparison,
        after={
            "trials": [str(trial.pk) for trial in trials],
            "kind": kind,
            "row": drawn.row,
            "order": comparison.order,
            "hiding": comparison.hiding,
            "slot": slot,
            "several_differ": [[str(one.pk), str(two.pk), names] for one, two, names in several],
        },
        by=by,
        at=at,
    )
    return comparison


@transaction.atomic
def comparison_rate(
    *,
    comparison: Comparison,
    rating_id: UUID,
    code: int,
    about: str,
    score: int,
    turn: int | None = None,
    situation: Mapping[str, Any] | None = None,
    by: Actor,
    at: datetime,
) -> Rating:
    """Record what the player said of the club behind a number; after the reveal it is marked so.

    `turn` is the place in the order, from 0: the first club comes again last, and what is said of
    it then is a rating of its own. `situation`: where it was given, see `rated_in`.

    Raises Refused, FieldsRefused, StateRefused. Writes Rating, Comparison, AuditEntry.
    """
    visit, comparison = _locked(comparison, by)
    known = Rating.objects.filter(pk=rating_id, comparison=comparison).first()
    if known is not None:
        return known
    if comparison.state == ComparisonState.ABANDONED:
        raise StateRefused("This comparison was abandoned. Draw a new one to rate in.")
    arm = _arm(comparison, code)
    _refuse_rating(about, score)
    place = _turn(comparison, code, turn)
    where = rated_in(arm.trial, situation, after=comparison.sequence)

    if comparison.state == ComparisonState.DRAWN:
        _move(comparison, ComparisonState.RUNNING)
        comparison.save(update_fields=["state"])
    rating = Rating.objects.create(
        id=rating_id,
        visit=visit,
        sequence=sequence_take(visit),
        trial_id=arm.trial_id,
        comparison=comparison,
        about=about,
        score=score,
        before_reveal=comparison.state != ComparisonState.REVEALED,
        turn=place,
        **where,
        rated_at=at,
        recorded_by=by.name,
    )
    audit_record(
        action="fitting.comparison.rated",
        subject=rating,
        after={"code": code, "about": about, "score": score, "turn": place,
               "swing": rating.swing, "hit_from": rating.hit_from,
               "before_reveal": rating.before_reveal},
        by=by,
        at=at,
    )  # fmt: skip
    return rating


@transaction.atomic
def comparison_reveal(*, comparison: Comparison, by: Actor, at: datetime) -> Comparison:
    """Say which club was behind which number. Once revealed it stays revealed.

    Raises Refused, StateRefused. Writes Comparison, AuditEntry.
    """
    _, comparison = _locked(comparison, by)
    before = comparison.state
    if before == ComparisonState.DRAWN:
        _move(comparison, ComparisonState.RUNNING)
    _move(comparison, ComparisonState.REVEALED)

    comparison.revealed_at = at
    comparison.revealed_by = by.name
    comparison.save(update_fields=["state", "revealed_at", "revealed_by"])
    audit_record(
        action="fitting.comparison.revealed",
        subject=comparison,
        before={"state": before},
        after={"state": comparison.state,
               "rated_before": comparison.ratings.filter(before_reveal=True).count()},
        by=by,
        at=at,
    )  # fmt: skip
    return comparison


@transaction.atomic
def comparison_peek(*, comparison: Comparison, code: int, by: Actor, at: datetime) -> Peek:
    """Record that someone looked behind a number before the reveal, to hand the club over.

    Raises Refused, FieldsRefused, StateRefused. Writes Peek, AuditEntry.
    """
    _, comparison = _locked(comparison, by)
    if comparison.state not in RUNNING_STATES:
        raise StateRefused("This comparison is over: nothing is hidden any more.")
    arm = _arm(comparison, code)

    peek = Peek.objects.create(
        comparison=comparison, code=arm.code, peeked_at=at, peeked_by=by.name
    )
    audit_record(
        action="fitting.comparison.peeked", subject=comparison, after={"code": code}, by=by, at=at
    )
    return peek


def _locked(comparison: Comparison, by: Actor) -> tuple[Visit, Comparison]:
    """The visit first, then the comparison: one order of locks for every service here."""
    visit = visit_locked(comparison.visit, by=by, action=FittingAction.COMPARE)
    return visit, Comparison.objects.select_for_update().get(pk=comparison.pk)


def _refuse_trials(visit: Visit, trials: Sequence[Trial]) -> None:
    if any(trial.visit_id != visit.pk for trial in trials):
        raise FieldsRefused({"trial_ids": "A club in this comparison is of another visit."})
    if visit.comparisons.filter(state__in=RUNNING_STATES).exists():
        raise StateRefused("Another comparison is running: reveal it first.")


def _refuse_kind(kind: str) -> None:
    if kind not in Comparison.Kind.values:
        raise FieldsRefused({"kind": f"Choose one of: {', '.join(Comparison.Kind.labels)}."})


def several_differ(trials: Sequence[Trial]) -> list[tuple[Trial, Trial, list[str]]]:
    """The pairs of clubs that differ in two or more things, each with the names of these."""
    found = []
    for one, two in combinations(trials, 2):
        names = [each.name for each in likeness(one, two, "", "mm").apart]
        if len(names) >= SEVERAL:
            found.append((one, two, names))
    return found


def _several_words(several: Sequence[tuple[Trial, Trial, list[str]]]) -> str:
    pairs = "; ".join(
        f"clubs {one.number} and {two.number} in {listed(names)}" for one, two, names in several
    )
    return f"These differ in several things: {pairs}. Say that you know it, or choose others."


def _drawn(visit: Visit, trials: Sequence[Trial], kind: str, seed: int) -> HiddenOrder:
    earlier = (
        visit.comparisons.filter(kind=kind)
        .exclude(state=ComparisonState.ABANDONED)
        .prefetch_related("arms")
    )
    draw = head_to_head if kind == Comparison.Kind.HEAD_TO_HEAD else all_against_all
    codes = ComparisonArm.objects.filter(comparison__visit=visit).values_list("code", flat=True)
    try:
        return draw(
            [str(trial.pk) for trial in trials],
            seed=seed,
            used=[comparison.trials_in_turn() for comparison in earlier],
            taken=frozenset(codes),
        )
    except OrderRefused as refused:
        raise FieldsRefused({"trial_ids": str(refused)}, code="comparison.not_drawn") from refused


def _hiding(trials: Sequence[Trial], covered: bool) -> str:
    """Blind only if nothing gives a club away; what is not known may."""
    if not covered and not settings_in_force()["comparison.hidden_order"]:
        return Comparison.Hiding.OPEN
    is_spoiled = bool(spoilers_of(trials, covered=covered))
    return Comparison.Hiding.HIDDEN_ORDER if is_spoiled else Comparison.Hiding.BLIND


def _turn(comparison: Comparison, code: int, turn: int | None) -> int:
    """The place in the order; the club's first where none is said."""
    if turn is None:
        return int(comparison.order.index(code))
    if not 0 <= turn < len(comparison.order) or comparison.order[turn] != code:
        raise FieldsRefused(
            {"turn": f"Number {code} is not in hand at this turn."}, code="comparison.other_turn"
        )
    return turn


def _arm(comparison: Comparison, code: int) -> ComparisonArm:
    arm = comparison.arms.filter(code=code).first()
    if arm is None:
        raise FieldsRefused({"code": f"No club in this comparison goes by {code}."})
    return arm


def _refuse_rating(about: str, score: int) -> None:
    errors = {}
    if about not in Rating.About.values:
        errors["about"] = f"A rating is about one of: {', '.join(Rating.About.labels)}."
    if not LOWEST_SCORE <= score <= HIGHEST_SCORE:
        errors["score"] = f"A rating is {LOWEST_SCORE} to {HIGHEST_SCORE}."
    if errors:
        raise FieldsRefused(errors)


def _move(comparison: Comparison, to: ComparisonState) -> None:
    now = ComparisonState(comparison.state)
    if not can_move(now, to):
        raise StateRefused(refusal(now, to))
    comparison.state = to
