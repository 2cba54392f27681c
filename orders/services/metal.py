"""Writing down what a step did to a club's metal for good."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import uuid4

from django.db.models import Max

from fitshop.actor import Actor
from orders.models import OrderClub, PermanentFact, Reading
from orders.models.bench import Measure, Stage, Step
from orders.models.metal import FactKind
from orders.selectors.club_words import cut_left_mm
from orders.selectors.figures import COLUMNS, bend_now, settings_of
from orders.selectors.metal import bend_facts, head_read

KINDS = {
    Step.STAMPED: FactKind.STAMPED,
    Step.BENT_BARE: FactKind.BENT,
    Step.BENT_BUILT: FactKind.BENT,
    Step.TIP_TRIM: FactKind.TIP_TRIMMED,
    Step.BUTT_CUT: FactKind.BUTT_CUT,
    Step.EPOXY: FactKind.GLUED,
}
# What a bend may have moved: it must be read again.
MOVED_BY_A_BEND = (Measure.LOFT, Measure.LIE, Measure.BOUNCE, Measure.LENGTH)


def fact_record(*, club: OrderClub, step: Step, by: Actor, at: datetime) -> PermanentFact | None:
    """Write down what a finished step did for good; None for a step that leaves no such mark.

    Call it in the transaction that finishes the step, before the step's row is written.
    """
    if step not in KINDS:
        return None
    order = club.revision.order
    newest = order.permanent_facts.aggregate(newest=Max("sequence"))["newest"]
    return PermanentFact.objects.create(
        id=uuid4(),
        order=order,
        slot=club.slot,
        head_number=club.head_number,
        shaft_number=club.shaft_number,
        sequence=(newest or 0) + 1,
        club=club,
        kind=KINDS[step],
        step=step,
        made_at=at,
        made_by=by.name,
        **_figures(club, step),
    )


def _figures(club: OrderClub, step: Step) -> dict[str, Any]:
    settings = settings_of(club.revision).values
    match KINDS[step]:
        case FactKind.STAMPED:
            return {"stamping": club.stamping.strip()}
        case FactKind.TIP_TRIMMED:
            return {"length_mm": club.tip_trim_mm}
        case FactKind.BUTT_CUT:
            return {"length_mm": cut_left_mm(club, settings)}
        case FactKind.BENT:
            facts, bend = bend_facts(club), bend_now(club, settings)
            return {
                "from_loft_deg": head_read(club, Measure.LOFT, facts),
                "from_lie_deg": head_read(club, Measure.LIE, facts),
                "planned_loft_deg": bend.loft_deg,
                "planned_lie_deg": bend.lie_deg,
            }
        case _:
            return {}


def readings_bent_over(club: OrderClub, at: datetime) -> None:
    """Strike out what was read before a bend, since the bend moved it. As received stays."""
    standing = Reading.objects.filter(
        club=club,
        stage__in=(Stage.BENT, Stage.AS_BUILT),
        measure__in=MOVED_BY_A_BEND,
        struck_out_at__isnull=True,
    )
    standing.update(struck_out_at=at, struck_out_why="bent again since")
    for measure in MOVED_BY_A_BEND:
        if column := COLUMNS.get((Stage.AS_BUILT, measure)):
            setattr(club, column[0], None)
