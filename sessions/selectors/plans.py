"""What a loft plan is made of: the wish, the heads that can be had, the clubs that stay."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from fitshop.selectors import SettingsInForce
from sessions.maths.bending import BendLimits
from sessions.maths.errors import NotAFigure, PlanImpossible
from sessions.maths.loft_plan import CandidateHead, KeptClub, LoftPlan, PlanWish
from sessions.models import BagEntry, Club, Head, OtherClubs, Visit
from sessions.models.words import Availability, Hand
from sessions.rules.evidence import VisitEvidence
from sessions.rules.facts import HeadLimits, MakerLimits, Making, SpecLimits, limits_from
from sessions.rules.first_clubs import OF_THE_SET
from sessions.rules.judgements import ALL_ON, Off
from sessions.rules.plan_jobs import plans_by_job
from sessions.rules.plan_notes import (
    BagCount,
    OwnLoft,
    bag_notes,
    drift_notes,
    matched_set_note,
)
from sessions.rules.plan_wedges import WedgesToPlan, wedges_to_plan
from sessions.rules.plan_wish import (
    PlanLimits,
    jobs_to_begin,
    plan_limits_from,
    slot_wishes,
    sole_traits,
)
from sessions.rules.rule_chapters import off_from
from sessions.rules.set_advice import SetHeard, wedges_to_begin
from sessions.rules.slot_suggestions import Suggestion, first_club_limits_from
from sessions.rules.sole_advice import SoleAdvice, SoleLimits, sole_advice, sole_limits_from
from sessions.selectors.evidence import last_bag_entries
from sessions.selectors.heard import answers_of, player_heard
from sessions.selectors.overrulings import overruling_in_force, overrulings_of


@dataclass(frozen=True)
class PlanPieces:
    """Everything a plan is chosen from, with the rows behind the ids."""

    heads: tuple[CandidateHead, ...]
    kept: tuple[KeptClub, ...]
    head_rows: Mapping[str, Head]
    club_rows: Mapping[str, Club]
    bag: BagCount
    notes: tuple[str, ...]
    limits: SpecLimits
    plan_limits: PlanLimits
    advice: SoleAdvice
    sole_limits: SoleLimits
    wedges: WedgesToPlan
    own_lofts: Mapping[str, Decimal]
    measured: frozenset[str]
    baseline_key: str = ""
    answers: Mapping[str, object] = field(default_factory=dict)
    offers: tuple[str, ...] = ()
    off: Off = ALL_ON

    def is_measured(self, club_id: str) -> bool:
        """Say whether an own club's loft was read at this visit; else its stamp stands for it."""
        return club_id in self.measured


@dataclass(frozen=True)
class PlanChoices:
    """The plans that fit, best first, or the sentence that says why none does."""

    plans: tuple[LoftPlan, ...]
    impossible: str = ""


def plan_pieces(visit: Visit, evidence: VisitEvidence, settings: SettingsInForce) -> PlanPieces:
    """Collect heads of the player's hand, own wedges that may stay, and the rest of the bag."""
    limits = limits_from(settings.values)
    plan_limits = plan_limits_from(settings.values)
    sole_limits = sole_limits_from(settings.values)
    off = off_from(settings.values)
    answers = answers_of(visit)
    entries = last_bag_entries(visit)
    baseline = evidence.baseline
    lowest = None if baseline is None else baseline.loft_deg
    wedges = [entry for entry in entries.values() if _is_wedge(entry)]
    heads = list(
        Head.objects.filter(hand=visit.player.hand).exclude(availability=Availability.DISCONTINUED)
    )
    kept = [
        _kept(entry, loft, limits)
        for entry in wedges
        if entry.is_kept is not False
        and (loft := _loft(entry)) is not None
        and (lowest is None or loft > lowest)
    ]
    own_lofts = _own_lofts(entries.values(), lowest, evidence)
    return PlanPieces(
        heads=tuple(candidate_head(head, limits, plan_limits, off) for head in heads),
        kept=tuple(kept),
        head_rows={str(head.pk): head for head in heads},
        club_rows={str(entry.club_id): entry.club for entry in entries.values()},
        bag=_bag(visit, len(entries) - len(wedges), len(wedges)),
        notes=(
            *bag_notes(
                own_lofts,
                same_deg=limits.same_loft_deg,
                hole_deg=limits.loft_step_high_deg,
                off=off,
            ),
            *drift_notes(own_lofts, drift_from_deg=drift_limit(settings), off=off),
        ),
        offers=matched_set_note(_matched_names(heads, lowest, limits), off),
        off=off,
        limits=limits,
        plan_limits=plan_limits,
        advice=sole_advice(answers, sole_limits, off),
        sole_limits=sole_limits,
        wedges=_wedges(
            visit,
            wedges_to_begin(
                SetHeard(answers=answers, player=player_heard(visit, evidence)),
                first_club_limits_from(settings.values),
                off,
            ),
            in_bag=len(wedges),
            must_stay=sum(1 for club in kept if club.must_stay),
        ),
        own_lofts={
            str(entry.club_id): loft
            for entry in entries.values()
            if (loft := _loft(entry)) is not None
        },
        measured=frozenset(
            str(entry.club_id) for entry in entries.values() if entry.loft_deg is not None
        ),
        baseline_key="" if baseline is None else str(baseline.club_id or ""),
        answers=answers,
    )


def drift_limit(settings: SettingsInForce) -> Decimal:
    """From how much on an own club's loft off its stamp is called drift [degrees]."""
    return Decimal(str(settings["plan.drift_from_deg"]))


def wish_of(
    visit: Visit,
    pieces: PlanPieces,
    *,
    wedges: int | None = None,
    most_lofted_deg: Decimal | None = None,
    step_limits_deg: tuple[Decimal, Decimal] | None = None,
    full_shots: int | None = None,
    leave_out: frozenset[str] = frozenset(),
) -> PlanWish:
    """The fitter's wish, else what First clubs begins with.

    Limits are the shop's settings. Steps that the fitter set are kept to: none wider are offered.
    """
    count = pieces.wedges.count if wedges is None else wedges
    limits = pieces.limits
    return PlanWish(
        wedges=count,
        hand="right" if visit.player.hand == Hand.RIGHT else "left",
        most_lofted_deg=most_lofted_deg,
        step_limits_deg=step_limits_deg or (limits.loft_step_low_deg, limits.loft_step_high_deg),
        gap_limits_percent=(float(limits.gap_low_pct), float(limits.gap_high_pct)),
        leave_out=leave_out,
        slots=slot_wishes(
            jobs_to_begin(count), pieces.advice, pieces.sole_limits, full_shots, pieces.off
        ),
        usual_end_deg=pieces.plan_limits.usual_end_deg,
        touch_from_deg=pieces.plan_limits.touch_from_deg,
        wider=None if step_limits_deg else pieces.plan_limits.wider,
        baseline_key=pieces.baseline_key,
    )


def plan_choices(evidence: VisitEvidence, pieces: PlanPieces, wish: PlanWish) -> PlanChoices:
    """The best plan and the next distinct ones; nothing before there is a baseline."""
    if evidence.line is None:
        return PlanChoices((), evidence.no_baseline_because)
    try:
        plans = plans_by_job(
            evidence.line,
            wish,
            pieces.heads,
            pieces.kept,
            answers=pieces.answers,
            advice=pieces.advice,
            limits=pieces.sole_limits,
            off=pieces.off,
        )
        return PlanChoices(plans)
    except (PlanImpossible, NotAFigure) as refused:
        return PlanChoices((), str(refused))


def head_at(pieces: PlanPieces, loft_deg: Decimal) -> CandidateHead | None:
    """The head that reaches a loft with the smallest bend, or None where none does."""
    reaching = [
        head
        for head in pieces.heads
        if -head.strong_limit_deg <= loft_deg - head.stamped_loft_deg <= head.weak_limit_deg
    ]
    return min(
        reaching, key=lambda h: (abs(loft_deg - h.stamped_loft_deg), h.head_id), default=None
    )


def _wedges(visit: Visit, suggested: Suggestion, *, in_bag: int, must_stay: int) -> WedgesToPlan:
    row = overruling_in_force(overrulings_of(visit), OF_THE_SET, suggested)
    return wedges_to_plan(
        suggested,
        overruled="" if row is None else row.instead,
        overruled_why="" if row is None else f"{row.overruled_by}: {row.reason}",
        in_bag=in_bag,
        must_stay=must_stay,
    )


def _is_wedge(entry: BagEntry) -> bool:
    return entry.club.kind == Club.Kind.WEDGE


def _loft(entry: BagEntry) -> Decimal | None:
    """As measured, else as stamped."""
    measured: Decimal | None = entry.loft_deg
    stamped: Decimal | None = entry.club.stamped_loft_deg
    return stamped if measured is None else measured


def _making(word: str) -> Making:
    return next((making for making in Making if making.label == word), Making.UNKNOWN)


def _matched_names(
    heads: Iterable[Head], baseline_deg: Decimal | None, limits: SpecLimits
) -> list[str]:
    """Matched sets' own wedges that stand, or may be bent to stand, a usual step below."""
    if baseline_deg is None:
        return []
    low, high = baseline_deg + limits.loft_step_low_deg, baseline_deg + limits.loft_step_high_deg
    found = []
    for head in heads:
        bend = limits.bend_limits(HeadLimits(_making(head.making), _maker_limits(head)))
        weak, strong = (min(way, limits.bend_look_deg) for way in bend.on_loft)
        stamped = head.stamped_loft_deg
        if head.is_matched_set and stamped - strong <= high and stamped + weak >= low:
            found.append(str(head))
    return found


def _maker_limits(head: Head) -> MakerLimits:
    return MakerLimits(
        weak_deg=head.limit_weak_deg,
        strong_deg=head.limit_strong_deg,
        up_deg=head.limit_upright_deg,
        flat_deg=head.limit_flat_deg,
    )


def _own_limits(club: Club, limits: SpecLimits) -> BendLimits:
    """How far an own club may be bent: its head's maker's word where it is a head of ours."""
    maker = MakerLimits() if club.head is None else _maker_limits(club.head)
    return limits.bend_limits(HeadLimits(making=_making(club.making), maker=maker))


def candidate_head(
    head: Head, limits: SpecLimits, plan_limits: PlanLimits, off: Off = ALL_ON
) -> CandidateHead:
    """A head with how far it may be bent: its maker's word, never past what wants a look."""
    bend = limits.bend_limits(HeadLimits(making=_making(head.making), maker=_maker_limits(head)))
    return CandidateHead(
        head_id=str(head.pk),
        stamped_loft_deg=head.stamped_loft_deg,
        bounce_deg=head.bounce_deg,
        weak_limit_deg=min(bend.weak_deg, limits.bend_look_deg),
        strong_limit_deg=min(bend.strong_deg, limits.bend_look_deg),
        hand="right" if head.hand == Hand.RIGHT else "left",
        traits=sole_traits(
            width_mm=head.sole_width_mm,
            relief_heel=head.relief_heel,
            relief_trailing=head.relief_trailing,
            is_softened=head.leading_softened,
            limits=plan_limits,
            off=off,
        ),
    )


def _kept(entry: BagEntry, loft_deg: Decimal, limits: SpecLimits) -> KeptClub:
    """An own wedge; what it was bent before is taken off what is left of its travel."""
    limit = _own_limits(entry.club, limits)
    earlier = [Decimal(str(bend[0])) for bend in entry.club.bends]
    weak = sum((bend for bend in earlier if bend > 0), Decimal(0))
    strong = -sum((bend for bend in earlier if bend < 0), Decimal(0))
    bounce = entry.bounce_deg
    return KeptClub(
        club_id=str(entry.club_id),
        loft_deg=loft_deg,
        bounce_deg=bounce if bounce is not None else entry.club.stamped_bounce_deg,
        weak_limit_deg=max(min(limit.weak_deg, limits.bend_look_deg) - weak, Decimal(0)),
        strong_limit_deg=max(min(limit.strong_deg, limits.bend_look_deg) - strong, Decimal(0)),
        must_stay=entry.is_kept is True,
        is_loft_measured=entry.loft_deg is not None,
    )


def _bag(visit: Visit, below: int, wedges: int) -> BagCount:
    others = list(OtherClubs.objects.filter(visit=visit))
    return BagCount(
        others=sum(other.count for other in others) if others else None,
        below=below,
        wedges=wedges,
        unused=tuple(
            f"{other.unused} of the {other.get_kind_display()}" for other in others if other.unused
        ),
    )


def _own_lofts(
    entries: Iterable[BagEntry], lowest: Decimal | None, evidence: VisitEvidence
) -> list[OwnLoft]:
    """The pitching wedge and the own wedges below it, by loft as it is known."""
    baseline = evidence.baseline
    found = []
    if baseline is not None:
        found.append(
            OwnLoft(
                baseline.name,
                baseline.loft_deg,
                baseline.is_loft_measured,
                baseline.stamped_loft_deg,
            )
        )
    for entry in entries:
        loft = _loft(entry)
        if _is_wedge(entry) and loft is not None and (lowest is None or loft > lowest):
            is_measured = entry.loft_deg is not None
            stamped = entry.club.stamped_loft_deg
            found.append(OwnLoft(entry.club.label, loft, is_measured, stamped))
    return found
