"""What a decision is taken on: each slot's clubs, what was to be kept and fixed, what may leave."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sessions.flow import ComparisonState
from sessions.models import (
    Answer,
    Club,
    Comparison,
    Decision,
    LoftPlan,
    OtherClubs,
    PlanSlot,
    Trial,
    Visit,
)
from sessions.models.words import Outcome
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.decision_sheet import WantedThing
from sessions.rules.evidence import SlotEvidence, VisitEvidence
from sessions.rules.interview_questions import BY_KEY
from sessions.selectors.evidence import last_bag_entries

# Nothing tapped: the answer is worked out from the shots of the club that is chosen.
AS_SHOWN = ("", "As the shots show")
KEEP_ANSWERS = (("kept", "Kept"), ("lost", "Lost"), ("not_shown", "Not shown"))
FIX_ANSWERS = (("fixed", "Fixed"), ("not_fixed", "Not fixed"), ("not_shown", "Not shown"))


def answers_to(wanted: WantedThing) -> tuple[tuple[str, str], ...]:
    """What may be answered to a thing wanted."""
    return KEEP_ANSWERS if wanted.kind == "keep" else FIX_ANSWERS


@dataclass(frozen=True)
class SlotToDecide:
    """A slot with what was planned, what was hit, what may be kept, and what was decided."""

    slot: int
    role: str
    planned: PlanSlot | None
    evidence: SlotEvidence
    own_club: Club | None
    decision: Decision | None

    @property
    def own(self) -> ClubEvidence | None:
        return self.evidence.own


def wanted_in(visit: Visit) -> tuple[WantedThing, ...]:
    """Keep and Fix from the last answers of the interview."""
    answers = {
        answer.question: answer
        for answer in Answer.objects.filter(
            interview__visit=visit, question__in=["keep", "fix"]
        ).order_by("sequence")
    }
    found = []
    kinds: tuple[Literal["keep", "fix"], ...] = ("keep", "fix")
    for kind in kinds:
        answer = answers.get(kind)
        if answer is None or answer.ask_later or not isinstance(answer.value, list):
            continue
        labels = {choice.value: choice.label for choice in BY_KEY[kind].choices}
        found += [
            WantedThing(kind, str(what), labels.get(what) or str(what)) for what in answer.value
        ]
    return tuple(found)


def current_decisions(visit: Visit) -> dict[int, Decision]:
    """The decision that counts in each slot, with the rows it names."""
    rows = Decision.objects.filter(visit=visit, is_current=True).select_related(
        "chosen_trial", "against_trial", "kept_club", "leaves_bag"
    )
    return {row.slot: row for row in rows}


def slots_to_decide(visit: Visit, evidence: VisitEvidence) -> tuple[SlotToDecide, ...]:
    """Every slot that was planned or tried, strongest first."""
    plan = (
        LoftPlan.objects.filter(visit=visit, is_current=True)
        .prefetch_related("slots__head", "slots__club")
        .first()
    )
    planned = {} if plan is None else {slot.slot: slot for slot in plan.slots.all()}
    decided = current_decisions(visit)
    clubs = {pk: entry.club for pk, entry in last_bag_entries(visit).items()}
    found = []
    for slot in sorted(set(evidence.slots()) | set(decided)):
        there = evidence.slot(slot)
        wanted = planned.get(slot)
        # The club that was planned to stay, hit or not; else the own one it is held against.
        own_club = None if wanted is None else wanted.club
        if own_club is None and there.own is not None and there.own.club_id:
            own_club = clubs.get(there.own.club_id)
        role = wanted.role if wanted is not None else _tried_role(there)
        found.append(SlotToDecide(slot, role, wanted, there, own_club, decided.get(slot)))
    return tuple(found)


def planned_slot(visit: Visit, slot: int) -> PlanSlot | None:
    """The slot as the plan in force has it."""
    return PlanSlot.objects.filter(plan__visit=visit, plan__is_current=True, slot=slot).first()


def may_leave(visit: Visit) -> tuple[list[Club], list[str]]:
    """What can come out of the bag: own clubs written down, and kinds of the others by name."""
    clubs = [entry.club for entry in last_bag_entries(visit).values()]
    others = OtherClubs.objects.filter(visit=visit, count__gt=0)
    return clubs, [other.get_kind_display() for other in others if other.kind != "putter"]


def compared_words(visit: Visit, evidence: VisitEvidence) -> dict[str, str]:
    """How the revealed comparisons were run, by club key: really blind or not, and when rated."""
    said: dict[str, str] = {}
    revealed = (
        Comparison.objects.filter(visit=visit, state=ComparisonState.REVEALED)
        .prefetch_related("arms", "ratings", "peeks")
        .order_by("sequence")
    )
    for one in revealed:
        before = sum(1 for rating in one.ratings.all() if rating.before_reveal)
        after = sum(1 for rating in one.ratings.all() if not rating.before_reveal)
        words = "blind" if _was_blind(one) else f"{_NOT_BLIND[one.hiding]}, not blind"
        if one.peeks.all():
            words += ", and somebody looked behind a number"
        words += f"; rated {before} times before the reveal" if before else "; not rated blind"
        words += f" and {after} after it" if after else ""
        for arm in one.arms.all():
            club = evidence.club_of(arm.trial_id)
            if club is not None:
                said[club.key] = f"Number {arm.code}: compared {words}."
    return said


_NOT_BLIND: dict[str, str] = {
    Comparison.Hiding.BLIND: "in hidden order",
    Comparison.Hiding.HIDDEN_ORDER: "in hidden order",
    Comparison.Hiding.OPEN: "in the open",
}


def _was_blind(one: Comparison) -> bool:
    """Really blind: sole and stamp covered, and nobody looked behind a number."""
    return one.hiding == Comparison.Hiding.BLIND and one.covered and not one.peeks.all()


def matched_set_keys(visit: Visit, evidence: VisitEvidence) -> frozenset[str]:
    """The keys of the clubs tried that are a set's own wedge."""
    trials = Trial.objects.filter(visit=visit, trial_head__head__is_matched_set=True)
    clubs = (evidence.club_of(pk) for pk in trials.values_list("pk", flat=True))
    return frozenset(club.key for club in clubs if club is not None)


def is_all_decided(slots: tuple[SlotToDecide, ...]) -> bool:
    return bool(slots) and all(each.decision is not None for each in slots)


def outcome_words(decision: Decision) -> str:
    """`Build: Maker Model 54`, `Keep: your 56`, `Come back on grass`."""
    if decision.outcome == Outcome.BUILD and decision.chosen_trial is not None:
        return f"Build: {decision.chosen_trial.head_name}"
    if decision.outcome == Outcome.KEEP and decision.kept_club is not None:
        return f"Keep: {decision.kept_club.label}"
    return decision.get_outcome_display()


def _tried_role(there: SlotEvidence) -> str:
    return next((club.role for club in there.candidates if club.role), "full_shot")
