"""Loads the demo's closed fitting, through every service a fitter would have used."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, time, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from fitshop.actor import Actor, ActorKind, Role
from fitshop.models import Bay, Location, Staff
from orders.demo import first_fitting as told
from orders.demo.catalogue_heads import head_name
from orders.demo.identity import DEMO_ACTOR, demo_id
from orders.demo.presence import FIRST_FITTING_ID
from orders.services.build_orders import order_create, order_release
from sessions.maths.units import (
    parse_distance,
    parse_length,
    parse_side,
    parse_swing_weight,
)
from sessions.models import (
    Adapter,
    Club,
    FinalSpec,
    Head,
    MeasuringDevice,
    Player,
    Shot,
    Trial,
    TrialHead,
    TrialShaft,
    Visit,
)
from sessions.models.specs import READ_BACK
from sessions.services.bag import bag_club_record, other_clubs_record
from sessions.services.conditions import conditions_record
from sessions.services.decisions import decision_record
from sessions.services.interviews import interview_answer, interview_close
from sessions.services.plans import WantedSlot, plan_choose
from sessions.services.shots import rating_record, shot_exclude, shot_record
from sessions.services.specs import (
    spec_check,
    spec_club_change,
    spec_draft,
    spec_sign,
    warning_accept,
)
from sessions.services.trials import block_start, trial_finish, trial_start
from sessions.services.visits import visit_book, visit_close, visit_open

BETWEEN_BALLS = timedelta(seconds=40)


class Clock:
    """The fitting's own time: every step is a little later than the one before."""

    def __init__(self, starts: datetime) -> None:
        self.now = starts

    def tick(self) -> datetime:
        self.now += BETWEEN_BALLS
        return self.now


def first_fitting_loaded(location: Location, player: Player, at: datetime) -> None:
    """Fit Gwilym some days ago: interview, bag, trials, decisions, spec and order."""
    zone = ZoneInfo(location.zone)
    day = at.astimezone(zone).date() - timedelta(days=told.DAYS_AGO)
    starts = datetime.combine(day, time(*told.STARTS), zone)
    clock = Clock(starts)
    visit = visit_book(
        visit_id=FIRST_FITTING_ID,
        player=player,
        location=location,
        bay=Bay.objects.get(location=location, name=told.BAY),
        fitter=Staff.objects.get(username=told.FITTER),
        starts_at=starts,
        minutes=told.MINUTES,
        by=DEMO_ACTOR,
        at=starts - timedelta(days=3),
    )
    visit = visit_open(visit=visit, by=DEMO_ACTOR, at=clock.tick())
    _interview(visit, clock)
    clubs = _bag(visit, clock)
    trials = _trials(visit, clubs, clock)
    _plan(visit, clubs, clock)
    _decisions(visit, clubs, trials, clock)
    spec = _signed_spec(visit, clock)
    visit_close(visit=visit, by=DEMO_ACTOR, at=clock.tick())
    order = order_create(
        spec=spec,
        note=told.ORDER_NOTE,
        tell_by=told.ORDER_TELL_BY,
        by=DEMO_ACTOR,
        at=clock.tick(),
    )
    order_release(order=order, by=DEMO_ACTOR, at=clock.tick())


def _interview(visit: Visit, clock: Clock) -> None:
    for question, value in told.ANSWERS:
        interview_answer(
            visit=visit,
            answer_id=demo_id("answer", question),
            question=question,
            value=value,
            by=DEMO_ACTOR,
            at=clock.tick(),
        )
    interview_close(visit=visit, by=DEMO_ACTOR, at=clock.tick())
    conditions_record(
        visit=visit,
        conditions_id=demo_id("conditions", "first fitting"),
        values=told.CONDITIONS,
        by=DEMO_ACTOR,
        at=clock.tick(),
    )


def _bag(visit: Visit, clock: Clock) -> dict[str, Club]:
    clubs = {}
    for row in told.BAG:
        key, kind, label, stamped, bounce, loft, lie, measured, length, weight, carry, *rest = row
        grooves, is_kept = rest
        entry = bag_club_record(
            visit=visit,
            entry_id=demo_id("bag entry", key),
            club_id=demo_id("club", key),
            values={
                "kind": kind,
                "label": label,
                "maker": told.BAG_MAKER,
                "making": told.BAG_MAKING,
                "stamped_loft_deg": Decimal(stamped),
                "stamped_bounce_deg": _decimal(bounce),
                "loft_deg": Decimal(loft),
                "lie_deg": Decimal(lie),
                "bounce_deg": _decimal(measured),
                "length_mm": parse_length(length, unit="in"),
                "swing_weight_points": parse_swing_weight(weight),
                "stock_carry_m": parse_distance(carry, unit="yd"),
                "grooves": grooves,
                "is_kept": is_kept,
                "as_typed": {"length": length, "stock_carry": carry, "unit": "yd"},
            },
            by=DEMO_ACTOR,
            at=clock.tick(),
        )
        clubs[key] = entry.club
    other_clubs_record(visit=visit, counts=told.OTHER_CLUBS, by=DEMO_ACTOR, at=clock.tick())
    return clubs


def _decimal(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)


def _trials(visit: Visit, clubs: dict[str, Club], clock: Clock) -> dict[str, Trial]:
    device = MeasuringDevice.objects.get(name=told.DEVICE)
    trials = {}
    for key, purpose, slot, role, club, changed, balls in told.TRIALS:
        own, head, shaft, adapter = _in_the_hand(club, clubs)
        trial = trial_start(
            visit=visit,
            trial_id=demo_id("trial", key),
            purpose=purpose,
            club=own,
            trial_head=head,
            trial_shaft=shaft,
            adapter=adapter,
            slot=slot,
            role=role,
            changed=changed,
            head_tight=head is not None,
            by=DEMO_ACTOR,
            at=clock.tick(),
        )
        _balls(key, trial, balls, device, clock)
        trial_finish(trial=trial, by=DEMO_ACTOR, at=clock.tick())
        trials[key] = trial
    for key, about, score in told.RATINGS:
        rating_record(
            trial=trials[key],
            rating_id=demo_id("rating", f"{key}/{about}"),
            about=about,
            score=score,
            by=DEMO_ACTOR,
            at=clock.tick(),
        )
    return trials


def _in_the_hand(
    club: str | tuple[str, str, str], clubs: dict[str, Club]
) -> tuple[Club | None, TrialHead | None, TrialShaft | None, Adapter | None]:
    if isinstance(club, str):
        return clubs[club], None, None, None
    head, shaft, adapter = club
    return (
        None,
        TrialHead.objects.get(mark=head),
        TrialShaft.objects.get(mark=shaft),
        Adapter.objects.get(mark=adapter),
    )


def _balls(
    key: str,
    trial: Trial,
    balls: Sequence[tuple[str, str, str, str]],
    device: MeasuringDevice,
    clock: Clock,
) -> None:
    block = block_start(
        trial=trial,
        block_id=demo_id("block", key),
        values=told.BLOCK | {"device": device, "is_warm_up": key == told.WARM_UP},
        by=DEMO_ACTOR,
        at=clock.tick(),
    )
    for number, (carry, side, strike, turf) in enumerate(balls, start=1):
        shot = shot_record(
            block=block,
            shot_id=demo_id("shot", f"{key}/{number}"),
            values={
                "carry_m": parse_distance(carry, unit="yd"),
                "side_m": parse_side(side, unit="yd"),
                "strike": strike,
                "turf": turf,
                "as_typed": {"carry": carry, "side": side, "unit": "yd"},
            },
            source=Shot.Source.HAND,
            by=DEMO_ACTOR,
            at=clock.tick(),
        )
        if (key, number) == told.MISREAD:
            shot_exclude(
                shot=shot,
                exclusion_id=demo_id("exclusion", f"{key}/{number}"),
                reason="misread",
                by=DEMO_ACTOR,
                at=clock.tick(),
            )


def _plan(visit: Visit, clubs: dict[str, Club], clock: Clock) -> None:
    slots = [
        WantedSlot(
            role=role,
            target_loft_deg=Decimal(loft),
            head=None if head is None else Head.objects.get(pk=demo_id("head", head_name(*head))),
            club=None if own is None else clubs[own],
            why=why,
        )
        for role, loft, head, own, why in told.PLAN
    ]
    plan_choose(visit=visit, slots=slots, is_own=False, why="", by=DEMO_ACTOR, at=clock.tick())


def _fitter(visit: Visit) -> Actor:
    """Whoever fitted: decides and signs by name, since the player reads that name."""
    person = visit.fitter
    assert person is not None
    return Actor(
        kind=ActorKind.STAFF,
        name=str(person),
        staff_id=person.pk,
        roles=frozenset(Role(row.role) for row in person.role_rows.all()),
        location_ids=frozenset([visit.location_id]),
    )


def _decisions(
    visit: Visit, clubs: dict[str, Club], trials: dict[str, Trial], clock: Clock
) -> None:
    fitter = _fitter(visit)
    for slot, role, outcome, chosen, against, kept, leaves, reason in told.DECISIONS:
        decision_record(
            visit=visit,
            slot=slot,
            role=role,
            outcome=outcome,
            chosen_trial=trials[chosen] if chosen else None,
            against_trial=trials[against] if against else None,
            kept_club=clubs[kept] if kept else None,
            leaves_bag=clubs[leaves] if leaves else None,
            leaves_bag_words="",
            keep_fix=[],  # answered as the shots show
            reason=reason,
            by=fitter,
            at=clock.tick(),
        )


def _signed_spec(visit: Visit, clock: Clock) -> FinalSpec:
    fitter = _fitter(visit)
    spec = spec_draft(visit=visit, by=fitter, at=clock.tick())
    for slot, added in told.SPEC.items():
        values: dict[str, Any] = dict(added)
        values["target_swing_weight_points"] = Decimal(values["target_swing_weight_points"])
        spec.refresh_from_db()
        spec_club_change(
            spec_club=spec.clubs.get(slot=slot),
            values=values,
            edition=spec.edition,
            by=fitter,
            at=clock.tick(),
        )
    for finding in spec_check(spec=spec, by=fitter, at=clock.tick()):
        if finding.wants_a_look:
            warning_accept(
                spec=spec,
                rule=finding.id,
                fields=finding.fields,
                reason=told.ACCEPTED,
                by=fitter,
                at=clock.tick(),
            )
    spec.refresh_from_db()
    return spec_sign(
        spec=spec, edition=spec.edition, read_back=READ_BACK, by=fitter, at=clock.tick()
    )
