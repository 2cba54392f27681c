"""What the interview suggests for this visit's slots, and what a person set aside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from fitshop.selectors import SettingsInForce, settings_in_force
from sessions.models import Block, Overruling, Visit
from sessions.rules.delivered import delivered_bounce_words
from sessions.rules.evidence import VisitEvidence
from sessions.rules.facts import Role
from sessions.rules.first_clubs import FirstClubs, first_clubs
from sessions.rules.interview import number_from
from sessions.rules.plan_notes import suggested_role
from sessions.rules.rule_chapters import off_from
from sessions.rules.slot_suggestions import (
    PlannedSlot,
    SlotSuggestions,
    Suggestion,
    Topic,
    first_club_limits_from,
)
from sessions.rules.sole_heard import SoleLimits
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.heard import answers_of, player_heard
from sessions.selectors.overrulings import Overrulings, overruling_in_force, overrulings_of
from sessions.selectors.plans import plan_choices, plan_pieces, wish_of
from sessions.selectors.visit_rows import current_plan


@dataclass(frozen=True)
class VisitFirstClubs:
    """The suggestions, whether their slots are chosen or only proposed, and what was set aside."""

    found: FirstClubs
    is_chosen: bool
    overruled: Overrulings
    sole_limits: SoleLimits
    attack_deg: Decimal | None = None

    def overruling(self, slot: int, one: Suggestion) -> Overruling | None:
        """The overruling that counts: the last one, while the suggestion says the same."""
        return overruling_in_force(self.overruled, slot, one)

    def delivered(self, slot: SlotSuggestions, one: Suggestion) -> str:
        """What becomes of a suggested bounce as the club is delivered; "" for anything else."""
        if one.topic is not Topic.SOLE:
            return ""
        return delivered_bounce_words(slot.slot.loft_deg, one.low, one.high, self.attack_deg)


def visit_first_clubs(
    visit: Visit,
    settings: SettingsInForce | None = None,
    evidence: VisitEvidence | None = None,
) -> VisitFirstClubs:
    """Suggest for the chosen plan's slots, else for those of the plan that fits best."""
    in_force = settings or settings_in_force()
    seen = evidence or visit_evidence(visit, in_force)
    slots, is_chosen = _slots(visit, seen, in_force)
    limits = first_club_limits_from(in_force.values)
    answers = answers_of(visit)
    return VisitFirstClubs(
        found=first_clubs(
            answers,
            player_heard(visit, seen),
            slots,
            limits,
            surfaces=_surfaces(visit),
            off=off_from(in_force.values),
        ),
        is_chosen=is_chosen,
        sole_limits=limits.sole,
        overruled=overrulings_of(visit),
        attack_deg=number_from(answers.get("attack_deg")),
    )


def _slots(
    visit: Visit, evidence: VisitEvidence, settings: SettingsInForce
) -> tuple[Sequence[PlannedSlot], bool]:
    chosen = current_plan(visit)
    if chosen is not None:
        return [
            PlannedSlot(row.slot, row.target_loft_deg, Role(row.role)) for row in chosen.slots.all()
        ], True
    pieces = plan_pieces(visit, evidence, settings)
    plans = plan_choices(evidence, pieces, wish_of(visit, pieces)).plans
    if not plans:
        return [], False
    return [
        _proposed(number, slot.target_loft_deg, pieces.plan_limits.touch_from_deg)
        for number, slot in enumerate(plans[0].slots, start=1)
    ], False


def _proposed(number: int, loft_deg: Decimal, touch_from_deg: Decimal) -> PlannedSlot:
    return PlannedSlot(number, loft_deg, Role(suggested_role(loft_deg, touch_from_deg)))


def _surfaces(visit: Visit) -> frozenset[str]:
    """What counted shots were hit from, in the stored words."""
    return frozenset(
        Block.objects.filter(trial__visit=visit, shots__isnull=False)
        .exclude(hit_from="")
        .values_list("hit_from", flat=True)
    )
