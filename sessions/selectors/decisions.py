"""What a decision is taken on: each slot's clubs, what was to be kept and fixed, what may leave."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from django.db.models import Prefetch

from fitshop.selectors import the_shop
from sessions.flow import ComparisonState
from sessions.models import (
    Answer,
    Club,
    Comparison,
    Decision,
    OtherClubs,
    PlanSlot,
    Rating,
    Trial,
    Visit,
)
from sessions.models.words import Outcome
from sessions.rules.blindness import spoiled_words
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.evidence import SlotEvidence, VisitEvidence
from sessions.rules.facts import Role
from sessions.rules.first_clubs import jobs_of
from sessions.rules.interview_questions import BY_KEY
from sessions.rules.judgements import Said
from sessions.rules.likeness import Likeness
from sessions.rules.slot_suggestions import PlannedSlot
from sessions.rules.sole_advice import Job
from sessions.rules.wanted import WantedThing
from sessions.selectors.comparisons import held_of, spoilers_of
from sessions.selectors.equipment import LengthUnit, Played, played_club
from sessions.selectors.evidence import last_bag_entries, trial_name
from sessions.selectors.heard import answers_of
from sessions.selectors.likeness import likeness
from sessions.selectors.visit_rows import current_plan

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

    @property
    def loft_deg(self) -> Decimal | None:
        """As planned, else of the first club tried, else of the one played now."""
        if self.planned is not None:
            target: Decimal = self.planned.target_loft_deg
            return target
        played = (*self.evidence.candidates, *self.evidence.played)
        return next((club.loft_deg for club in played if club.loft_deg is not None), None)


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
        if answer is None or not isinstance(answer.value, list):
            continue
        labels = {choice.value: choice.label for choice in BY_KEY[kind].choices}
        found += [
            WantedThing(kind, str(what), labels.get(what) or str(what)) for what in answer.value
        ]
    return tuple(found)


def current_decisions(visit: Visit) -> dict[int, Decision]:
    """The decision that counts in each slot, with the rows it names."""
    rows = Decision.objects.filter(visit=visit, is_current=True).select_related(
        "chosen_trial", "against_trial__club", "kept_club", "leaves_bag"
    )
    return {row.slot: row for row in rows}


def slots_to_decide(visit: Visit, evidence: VisitEvidence) -> tuple[SlotToDecide, ...]:
    """Every slot that was planned or tried, strongest first."""
    plan = current_plan(visit, "slots__head", "slots__club")
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


def jobs_in(visit: Visit, slots: Sequence[SlotToDecide]) -> dict[int, tuple[Job, ...]]:
    """What each slot is for: by the interview where its loft is known, else by its role."""
    planned = [
        PlannedSlot(each.slot, loft, Role(each.role))
        for each in slots
        if (loft := each.loft_deg) is not None
    ]
    jobs = {each.slot: _jobs_of_role(each.role) for each in slots}
    return jobs | jobs_of(answers_of(visit), sorted(planned, key=lambda slot: slot.loft_deg))


def _jobs_of_role(role: str) -> tuple[Job, ...]:
    return tuple(job for job in Job if job.role == role)


def likenesses(
    visit: Visit, there: SlotEvidence
) -> tuple[dict[str, Likeness], dict[str, Likeness]]:
    """How each club of a slot is made beside another, by its key: what is alike and what not.

    First beside the club that the verdicts hold it against, then beside the one played now, hit
    or not. Nothing of a club that goes by a number.
    """
    shown = [club for club in there.played if not club.is_hidden]
    trials = Trial.objects.in_bulk([club.trial_id for club in shown if club.trial_ids])
    made: dict[str, Trial | Played] = {
        club.key: trials[club.trial_id] for club in shown if club.trial_ids
    }
    own = there.own
    if own is not None and own.key not in made and not own.is_hidden:
        entry = last_bag_entries(visit).get(own.club_id) if own.club_id else None
        if entry is not None:
            made[own.key] = played_club(club=entry.club, entry=entry)
    shop = the_shop()
    unit: LengthUnit = "mm" if shop is not None and shop.length_unit == "mm" else "in"

    def beside(other: ClubEvidence | None) -> dict[str, Likeness]:
        if other is None or other.key not in made:
            return {}
        return {
            club.key: replace(
                likeness(made[club.key], made[other.key], other.name, unit), off=there.off
            )
            for club in shown
            if club.key in made and club.key != other.key
        }

    return beside(there.against), beside(own)


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
        .prefetch_related("arms__trial", Prefetch("ratings", Rating.objects.standing()), "peeks")
        .order_by("sequence")
    )
    for one in revealed:
        before = sum(1 for rating in one.ratings.all() if rating.before_reveal)
        after = sum(1 for rating in one.ratings.all() if not rating.before_reveal)
        words = "blind" if _was_blind(one) else f"{_NOT_BLIND[one.hiding]}, not blind"
        if spoiled := _spoiled(one):
            words += f" ({spoiled})"
        words += f", {one.get_kind_display()}"
        if one.peeks.all():
            words += ", and somebody looked behind a number"
        often = "once" if before == 1 else f"{before} times"
        words += f"; rated {often} before the reveal" if before else "; not rated blind"
        words += f" and {after} after it" if after else ""
        held = held_of([arm.trial for arm in one.arms.all()])
        for arm in one.arms.all():
            club = evidence.club_of(arm.trial_id)
            if club is not None:
                said[club.key] = f"Number {arm.code}: compared {words}. {held}".strip()
    return said


_NOT_BLIND: dict[str, str] = {
    Comparison.Hiding.BLIND: "in hidden order",
    Comparison.Hiding.HIDDEN_ORDER: "in hidden order",
    Comparison.Hiding.OPEN: "in the open",
}


def _spoiled(one: Comparison) -> str:
    """What spoiled the blindness of a hidden order; "" of an open one, where nothing was hidden."""
    if one.hiding == Comparison.Hiding.OPEN:
        return ""
    trials = [arm.trial for arm in one.arms.all()]
    return spoiled_words(spoilers_of(trials, covered=one.covered))


def _was_blind(one: Comparison) -> bool:
    """Really blind: sole and stamp covered, and nobody looked behind a number."""
    return one.hiding == Comparison.Hiding.BLIND and one.covered and not one.peeks.all()


def matched_set_keys(visit: Visit, here: SlotToDecide) -> frozenset[str]:
    """The keys of a slot's clubs that are a set's own wedge; of none that goes by a number."""
    ids = Trial.objects.filter(visit=visit, trial_head__head__is_matched_set=True).values_list(
        "pk", flat=True
    )
    matched = set(ids)
    found = {
        club.key
        for club in here.evidence.candidates
        if not club.is_hidden and matched & set(club.trial_ids)
    }
    own, club = here.own, here.own_club
    if own is not None and club is not None and club.head is not None and club.head.is_matched_set:
        found.add(own.key)
    return frozenset(found)


def decided_on(decision: Decision) -> tuple[str, ...]:
    """What a decision stands on, from its frozen numbers: the real differences, or that none is.

    Only of the two clubs that were decided between; without a second one there is nothing.
    """
    against = against_words(decision)
    chosen = _chosen_name(decision)
    if not against or not chosen:
        return ()
    pairs = [
        pair
        for pair in decision.numbers.get("verdicts", [])
        if {pair["candidate"], pair["against"]} == {chosen, against}
    ]
    real = tuple(
        f"{_of(pair, chosen)}{pair['situation']}: {box['what'].lower()}, {box['sentence']}"
        for pair in pairs
        for box in pair["said"]
        if box["kind"] == "real"
    )
    unfair = tuple(
        f"{pair['situation']}: not compared. {pair['unfair'][0]}"
        for pair in pairs
        if pair["unfair"]
    )
    if real or unfair:
        return (*real, *unfair)
    if not pairs:
        return (f"Not hit in the same situation as {against}.",)
    return ("No real difference between the two was measured.",)


def spoken_against(decision: Decision) -> tuple[Said, ...]:
    """What was said against the choice when it was made, each with the judgement that said it."""
    spoken = decision.numbers.get("speaks_against", [])
    # Decisions of before the judgements were named have none.
    rules = decision.numbers.get("speaks_against_rules", [""] * len(spoken))
    return tuple(Said(*each) for each in zip(spoken, rules, strict=True))


def _of(pair: Mapping[str, str], chosen: str) -> str:
    """Whose verdict it is, where it isn't the chosen club's."""
    return "" if pair["candidate"] == chosen else f"{pair['candidate']}, "


def against_words(decision: Decision) -> str:
    """The name of the club it was held against, "" for none."""
    return "" if decision.against_trial is None else trial_name(decision.against_trial)


def _chosen_name(decision: Decision) -> str:
    if decision.chosen_trial is not None:
        return trial_name(decision.chosen_trial)
    return "" if decision.kept_club is None else f"your {decision.kept_club.label}"


def is_all_decided(slots: tuple[SlotToDecide, ...]) -> bool:
    return bool(slots) and all(each.decision is not None for each in slots)


def outcome_words(decision: Decision) -> str:
    """`Build: Maker Model 54°`, `Keep: your 56`, `Come back on grass`."""
    if decision.outcome == Outcome.BUILD and decision.chosen_trial is not None:
        return f"Build: {trial_name(decision.chosen_trial)}"
    if decision.outcome == Outcome.KEEP and decision.kept_club is not None:
        return f"Keep: {decision.kept_club.label}"
    if decision.outcome == Outcome.COME_BACK and decision.numbers.get("to_try"):
        return f"Come back for the set's own wedge: {decision.numbers['to_try']}"
    return decision.get_outcome_display()


def _tried_role(there: SlotEvidence) -> str:
    return next((club.role for club in there.candidates if club.role), "full_shot")
