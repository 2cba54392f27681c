"""Which stamped head a loft is reached from within its limits, where the chosen one is not."""

from __future__ import annotations

from decimal import Decimal

from sessions.maths.bending import bounce_after, planned_bend
from sessions.rules.facts import ClubFacts, SpecFacts, SpecLimits, StampedHead
from sessions.rules.head_bends import judged_bend, predicted_bounce
from sessions.rules.wording import bend_text, figure


def nearer_head(club: ClubFacts, facts: SpecFacts, limits: SpecLimits) -> StampedHead | None:
    """The head of the club's hand from which its target loft is within the head's limit.

    Of the same model where there is one; then the one that is bent least; then the one whose
    bounce comes nearest to what was wanted. None where the catalogue holds none.
    """
    target = club.target_loft_deg
    if target is None:
        return None
    wanted = predicted_bounce(club)

    def distance(head: StampedHead) -> tuple[bool, Decimal, Decimal, str]:
        after = bounce_after(head.bounce_deg, planned_bend(target, head.loft_deg))
        bounce_off = Decimal(0) if wanted is None else abs(after - wanted)
        return (
            head.model != club.head_model,
            abs(target - head.loft_deg),
            bounce_off,
            head.model,
        )

    within = [
        head
        for head in facts.heads
        if head.hand is club.hand
        and not judged_bend(
            head.limits, limits, planned_bend(target, head.loft_deg), Decimal(0)
        ).is_too_far
        and bounce_after(head.bounce_deg, planned_bend(target, head.loft_deg)) >= 0
    ]
    return min(within, key=distance, default=None)


def nearer_head_words(club: ClubFacts, facts: SpecFacts, limits: SpecLimits) -> str:
    """`Tollard Hearth 52 with 10, bent 1.5 strong, plays 8.5.`; empty where there is none."""
    head, target = nearer_head(club, facts, limits), club.target_loft_deg
    if head is None or target is None:
        return ""
    bend = planned_bend(target, head.loft_deg)
    said = f"{head.model} {figure(head.loft_deg)} with {figure(head.bounce_deg)} degrees of bounce"
    if bend == 0:
        return f"{said} needs no bend."
    after = bounce_after(head.bounce_deg, bend)
    return f"{said}, bent {bend_text(bend)}, plays {figure(after)}."
