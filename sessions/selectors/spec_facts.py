"""The values that the spec's rules judge, built from rows."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import cast

from django.db.models import QuerySet

from sessions.maths.bending import Bend
from sessions.maths.carry_line import CarryLine
from sessions.models import Answer, Club, Decision, FinalSpec, Head, Player, SpecClub, Visit
from sessions.models import words as stored
from sessions.rules.evidence import VisitEvidence
from sessions.rules.facts import (
    ClubFacts,
    ClubSource,
    Evidence,
    Hand,
    HeadLimits,
    MakerLimits,
    Making,
    PlayerFacts,
    PlayerKind,
    Role,
    SpecFacts,
    Tip,
)
from sessions.rules.interview import unanswered
from sessions.rules.interview_questions import BY_KEY, NEEDED_FOR_A_SOLE
from sessions.selectors.evidence import last_bag_entries, visit_evidence

# The word that says that nothing is stamped; an empty field says that nobody decided.
STAMP_NONE = "none"
# Where a bore lies within this of a tip's nominal size, it is a bore for that tip.
BORE_SLACK_MM = Decimal("0.19")
BORES = ((Tip.TAPER, Decimal("9.017")), (Tip.PARALLEL, Decimal("9.398")))
# Half-width of an interval that holds a standard deviation each side.
ONE_SD = 0.6827


def spec_facts(spec: FinalSpec, evidence: VisitEvidence | None = None) -> SpecFacts:
    """A spec as its rules take it. Bag and leaving clubs are read as they are now."""
    visit = spec.visit
    seen = evidence or visit_evidence(visit)
    clubs = list(spec_clubs(spec))
    baseline = seen.baseline
    return SpecFacts(
        player=player_facts(visit),
        clubs=tuple(club_facts(club, seen) for club in clubs),
        baseline_loft_deg=None if baseline is None else baseline.loft_deg,
        baseline_carry_m=None if baseline is None else baseline.carry_m,
        other_clubs=other_clubs(visit, clubs),
        leaving=leaving(visit),
    )


def spec_clubs(spec: FinalSpec) -> QuerySet[SpecClub]:
    """A spec's clubs by slot, with all that is said of them."""
    return spec.clubs.select_related("head", "shaft", "grip", "club__head", "trial").order_by(
        "slot"
    )


def player_facts(visit: Visit) -> PlayerFacts:
    player: Player = visit.player
    return PlayerFacts(
        hand=Hand(player.hand),
        kind=PlayerKind(player.kind),
        height_mm=None if player.height_mm is None else round(player.height_mm),
        unanswered=open_questions(visit),
    )


def open_questions(visit: Visit) -> tuple[str, ...]:
    """What a sole hangs on and nobody answered, as the interview asks it."""
    rows = Answer.objects.filter(interview__visit=visit).order_by("sequence")
    said = {row.question: None if row.ask_later else row.value for row in rows}
    needed = tuple(BY_KEY[key] for key in NEEDED_FOR_A_SOLE if key in BY_KEY)
    return tuple(f"“{BY_KEY[key].label}”" for key in unanswered(needed, said))


def club_facts(club: SpecClub, evidence: VisitEvidence) -> ClubFacts:
    """One club of the spec; an own club's parts are those it has."""
    played = None if club.trial_id is None else evidence.club_of(club.trial_id)
    shaft, head = club.shaft, club.head
    return ClubFacts(
        slot=club.slot,
        source=ClubSource(club.source),
        role=Role(club.role) if club.role else None,
        has_head=head is not None,
        hand=Hand(club.hand) if club.hand else None,
        head=head_limits(head, club.club),
        bore=None if head is None else bore_of(head),
        stamped_loft_deg=club.stamped_loft_deg,
        stamped_bounce_deg=club.stamped_bounce_deg,
        stock_lie_deg=club.stock_lie_deg,
        as_received_loft_deg=club.as_received_loft_deg,
        as_received_lie_deg=club.as_received_lie_deg,
        target_loft_deg=club.target_loft_deg,
        target_lie_deg=club.target_lie_deg,
        length_mm=club.target_length_mm,
        has_shaft=shaft is not None,
        tip=None if shaft is None else Tip(shaft.tip_kind),
        has_grip=club.grip_id is not None,
        swing_weight_points=club.target_swing_weight_points,
        stamping=stamping_of(club),
        predicted_carry_m=club.predicted_carry_m,
        predicted_carry_sd_m=club.predicted_sd_m,
        evidence=Evidence() if played is None else played.for_spec(),
    )


def stamping_of(club: SpecClub) -> str | None:
    """None where nobody said, "" where it is to be none."""
    text = club.stamping.strip()
    if not text:
        return None
    return "" if text.casefold() == STAMP_NONE else text


def head_limits(head: Head | None, own: Club | None) -> HeadLimits:
    """Making, the maker's word, and what an own club was bent before."""
    made = head or (own.head if own else None)
    making = made.making if made is not None else (own.making if own else "")
    maker = MakerLimits()
    if made is not None:
        maker = MakerLimits(
            weak_deg=made.limit_weak_deg,
            strong_deg=made.limit_strong_deg,
            up_deg=made.limit_upright_deg,
            flat_deg=made.limit_flat_deg,
        )
    earlier = () if own is None else earlier_bends(own)
    return HeadLimits(making=making_of(making), maker=maker, earlier=earlier)


def earlier_bends(own: Club) -> tuple[Bend, ...]:
    return tuple(Bend(Decimal(str(loft)), Decimal(str(lie))) for loft, lie in own.bends)


def making_of(label: str) -> Making:
    """The making whose words are stored; what nobody knows is unknown."""
    return next((m for m in Making if label in (m.label, m.value)), Making.UNKNOWN)


def bore_of(head: Head) -> Tip | None:
    """Which tip the bore takes; None where its size fits neither."""
    return next((tip for tip, mm in BORES if abs(head.bore_mm - mm) <= BORE_SLACK_MM), None)


def other_clubs(visit: Visit, clubs: Sequence[SpecClub]) -> int | None:
    """The bag of the day without the spec's clubs: the others by count, own clubs not in the spec.

    Those that leave are counted here, whether they left since or not: `leaving` takes them off.
    """
    counts = list(visit.other_clubs.values_list("count", flat=True))
    if not counts:
        return None
    in_spec = {club.club_id for club in clubs if club.club_id is not None}
    return sum(counts) + len(last_bag_entries(visit).keys() - in_spec)


def leaving(visit: Visit) -> tuple[str, ...]:
    """What comes out of the bag, as the decisions say; each club once."""
    rows = visit.decisions.filter(is_current=True).select_related("leaves_bag").order_by("slot")
    named: dict[object, str] = {}
    for row in rows:
        if row.leaves_bag is not None:
            named[row.leaves_bag_id] = row.leaves_bag.label
        elif row.leaves_bag_words.strip():
            named[row.leaves_bag_words.strip().casefold()] = row.leaves_bag_words.strip()
    return tuple(named.values())


def predicted_carry(
    line: CarryLine | None, loft_deg: Decimal | None
) -> tuple[float | None, float | None]:
    """The mean carry at a loft and its standard deviation [m]; None without a line or a loft."""
    if line is None or loft_deg is None:
        return None, None
    there = line.at(float(loft_deg), level=ONE_SD)
    if there.carry_m <= 0:
        return None, None
    return there.carry_m, (there.high_m - there.low_m) / 2


def current_decisions(visit: Visit) -> Sequence[Decision]:
    """The decisions that hold, by slot."""
    rows = visit.decisions.filter(is_current=True).select_related(
        "chosen_trial__trial_head__head",
        "chosen_trial__trial_shaft__shaft",
        "chosen_trial__trial_shaft__grip",
        "chosen_trial__club__head",
        "kept_club__head",
        "leaves_bag",
    )
    return cast("Sequence[Decision]", rows.order_by("slot"))


def slot_name(loft_deg: Decimal | None, role: str) -> str:
    """What a wedge of this loft is usually called (common practice); a word to overwrite."""
    if loft_deg is None:
        return str(stored.SlotRole(role).label).capitalize()
    if loft_deg < Decimal(53):
        return "Gap wedge"
    return "Sand wedge" if loft_deg < Decimal("57.5") else "Lob wedge"
