"""What is permanent on one club: the facts of the head and the shaft it has now."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal

from orders.flow import ClubState
from orders.models import OrderClub, PermanentFact, Reading
from orders.models.bench import Measure, Stage, Step
from orders.models.metal import FactKind
from orders.rules.metal import BendMade, assumed_after, bends_made
from sessions.maths.bending import Bend

BENDS = (Step.BENT_BARE, Step.BENT_BUILT)
HEAD_FACTS = (FactKind.STAMPED, FactKind.BENT)
SHAFT_FACTS = (FactKind.TIP_TRIMMED, FactKind.BUTT_CUT)


def facts_of(club: OrderClub) -> list[PermanentFact]:
    """The facts that hold for this club, oldest first, whatever revision they were made under."""
    return [
        fact
        for fact in club.revision.order.permanent_facts.all()
        if fact.slot == club.slot and _holds(fact, club)
    ]


def _holds(fact: PermanentFact, club: OrderClub) -> bool:
    same_head = fact.head_number == club.head_number
    same_shaft = fact.shaft_number == club.shaft_number
    if fact.kind in HEAD_FACTS:
        return same_head
    return same_shaft if fact.kind in SHAFT_FACTS else same_head and same_shaft


def last_fact(club: OrderClub, kind: FactKind) -> PermanentFact | None:
    """The last fact of a kind that holds: a shaft that was cut twice is as long as the last cut."""
    return next((fact for fact in reversed(facts_of(club)) if fact.kind == kind), None)


def is_glued_now(club: OrderClub) -> bool:
    """True where this head is glued to this shaft."""
    return last_fact(club, FactKind.GLUED) is not None


def bend_facts(club: OrderClub) -> list[PermanentFact]:
    return [fact for fact in facts_of(club) if fact.kind == FactKind.BENT]


def bends_at_bench(club: OrderClub) -> tuple[Bend, ...]:
    """What each bend of this head came to in this order, oldest first."""
    facts = bend_facts(club)
    made = [
        BendMade(
            fact.from_loft_deg,
            fact.from_lie_deg,
            fact.planned_loft_deg or Decimal(0),
            fact.planned_lie_deg or Decimal(0),
        )
        for fact in facts
    ]
    if not made:
        return ()
    return bends_made(
        made,
        loft_read_deg=head_read(club, Measure.LOFT, facts),
        lie_read_deg=head_read(club, Measure.LIE, facts),
    )


def head_read(
    club: OrderClub,
    measure: Measure,
    facts: Sequence[PermanentFact] | None = None,
    *,
    as_built: bool = True,
) -> Decimal | None:
    """The mean of what was read on the head since its last bend; None where nobody read it.

    `as_built`: what was read on the built club counts too.
    """
    bends = bend_facts(club) if facts is None else facts
    since = bends[-1].made_at if bends else None
    for stage in (Stage.AS_BUILT, Stage.BENT, Stage.AS_RECEIVED)[0 if as_built else 1 :]:
        if stage == Stage.AS_RECEIVED and bends:
            return None
        values = [each.value for each in _read(club, stage, measure, since)]
        if values:
            return (sum(values, Decimal(0)) / len(values)).quantize(Decimal("0.01"))
    return None


def _read(club: OrderClub, stage: Stage, measure: Measure, since: datetime | None) -> list[Reading]:
    """What stands, or what a rework struck out: it was true of the head that came back."""
    readings = [
        each for each in club.readings.all() if each.stage == stage and each.measure == measure
    ]
    standing = [each for each in readings if each.struck_out_at is None]
    if standing or club.reworked_at is None or (since is not None and since > club.reworked_at):
        return standing
    return [each for each in readings if each.struck_out_at == club.reworked_at]


def head_now(club: OrderClub, *, as_built: bool = True) -> tuple[Decimal | None, Decimal | None]:
    """(loft, lie) of the head as it is: as read, or as its last bend was meant."""
    facts = bend_facts(club)
    loft = head_read(club, Measure.LOFT, facts, as_built=as_built)
    lie = head_read(club, Measure.LIE, facts, as_built=as_built)
    if loft is None and facts:
        loft = assumed_after(
            [fact.planned_loft_deg or Decimal(0) for fact in facts],
            [fact.from_loft_deg for fact in facts],
        )
    if lie is None and facts:
        lie = assumed_after(
            [fact.planned_lie_deg or Decimal(0) for fact in facts],
            [fact.from_lie_deg for fact in facts],
        )
    return loft, lie


def is_read_since_bend(club: OrderClub) -> bool:
    """True where loft and lie were read since the last bend, or before any."""
    facts = bend_facts(club)
    return all(
        head_read(club, measure, facts) is not None for measure in (Measure.LOFT, Measure.LIE)
    )


def is_read_as_built(club: OrderClub) -> bool:
    """True where loft and lie were read as built, since the last bend."""
    bends = bend_facts(club)
    since = bends[-1].made_at if bends else None
    return all(
        _read(club, Stage.AS_BUILT, measure, since) for measure in (Measure.LOFT, Measure.LIE)
    )


def may_bend_again(club: OrderClub, step: str) -> bool:
    """Before its check, where the head was read since its last bend: each bend is counted once."""
    if club.state in (ClubState.TO_CHECK, ClubState.READY, ClubState.COLLECTED):
        return False
    if step == Step.BENT_BUILT:
        return is_read_as_built(club)
    return (
        step == Step.BENT_BARE
        and bool(bend_facts(club))
        and is_read_since_bend(club)
        and not is_glued_now(club)
    )
