"""The values that the spec's rules judge, built from rows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import cast
from uuid import UUID

from django.db.models import QuerySet

from sessions.maths.carry_line import CarryLine, ClubKey
from sessions.models import (
    BagEntry,
    Club,
    Decision,
    FinalSpec,
    Grip,
    Head,
    OtherClubs,
    Shaft,
    SpecClub,
    Trial,
    TrialHead,
    Visit,
)
from sessions.models import words as stored
from sessions.models.words import Availability
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.dry_weight import DryParts
from sessions.rules.evidence import VisitEvidence
from sessions.rules.facts import (
    ClubFacts,
    ClubSource,
    Evidence,
    GripFacts,
    Hand,
    Role,
    ShaftFacts,
    ShaftMaterial,
    SpecFacts,
    Tip,
)
from sessions.rules.spec_evidence import NORMALISED
from sessions.selectors.carry_base import spec_on_line
from sessions.selectors.evidence import last_bag_entries, visit_evidence
from sessions.selectors.heard import answers_of
from sessions.selectors.spec_balance import parts_of
from sessions.selectors.spec_heads import bore_of, head_limits, heads_to_be_had, sole_of
from sessions.selectors.spec_player import player_facts, wedges_made_in

# The word that says that nothing is stamped; an empty field says that nobody decided.
STAMP_NONE = "none"
# Half-width of an interval that holds a standard deviation each side.
ONE_SD = 0.6827
# What a device's figures are called where nobody said what they are.
UNANSWERED = "unanswered"
NO_CLUB = UUID(int=0)


@dataclass(frozen=True, slots=True)
class BagSeen:
    """What the bag and the decisions say of the spec's own clubs."""

    entries: Mapping[UUID, BagEntry] = field(default_factory=dict)
    leaving_ids: frozenset[UUID] = frozenset()
    wedges_made_in: int | None = None


def spec_facts(spec: FinalSpec, evidence: VisitEvidence | None = None) -> SpecFacts:
    """A spec as its rules take it. Bag and leaving clubs are read as they are now."""
    visit = spec.visit
    seen = evidence or visit_evidence(visit)
    answers = answers_of(visit)
    clubs = list(spec_clubs(spec))
    decisions = list(current_decisions(visit))
    others = list(visit.other_clubs.all())
    bag = BagSeen(
        entries=last_bag_entries(visit),
        leaving_ids=frozenset(d.leaves_bag_id for d in decisions if d.leaves_bag_id is not None),
        wedges_made_in=wedges_made_in(visit, answers),
    )
    baseline = seen.baseline
    pitching = None if baseline is None else bag.entries.get(baseline.club_id or NO_CLUB)
    return SpecFacts(
        player=player_facts(visit, answers),
        clubs=tuple(club_facts(club, seen, bag) for club in clubs),
        baseline_loft_deg=None if baseline is None else baseline.loft_deg,
        baseline_carry_m=None if baseline is None else baseline.carry_m,
        baseline_key="" if baseline is None else str(baseline.club_id or ""),
        baseline_figures=baseline_figures(seen),
        baseline_length_mm=None if pitching is None else pitching.length_mm,
        baseline_lie_deg=None if pitching is None else pitching.lie_deg,
        baseline_swing_weight_points=None if pitching is None else pitching.swing_weight_points,
        other_clubs=_other_clubs(others, bag.entries, clubs),
        leaving=_leaving(decisions, others),
        unused=tuple(f"{o.unused} of the {o.get_kind_display()}" for o in others if o.unused),
        heads=heads_to_be_had(clubs),
        line=seen.line,
    )


def spec_clubs(spec: FinalSpec) -> QuerySet[SpecClub]:
    """A spec's clubs by slot, with all that is said of them."""
    return spec.clubs.select_related(
        "head", "shaft", "grip", "club__head", "trial__trial_head"
    ).order_by("slot")


def club_facts(
    club: SpecClub, evidence: VisitEvidence | None, bag: BagSeen | None = None
) -> ClubFacts:
    """One club of the spec; an own club's parts are those it has.

    Without evidence, what stands behind it is left out: enough to say it in words.
    """
    shaft, head, grip, own = club.shaft, club.head, club.grip, club.club
    seen = bag or BagSeen()
    entry = seen.entries.get(own.pk) if own is not None else None
    return ClubFacts(
        slot=club.slot,
        key=key_of(club),
        source=ClubSource(club.source),
        role=Role(club.role) if club.role else None,
        has_head=head is not None,
        hand=Hand(club.hand) if club.hand else None,
        head_model="" if head is None else f"{head.maker} {head.model}",
        head=head_limits(head, own),
        bore=None if head is None else bore_of(head),
        stamped_loft_deg=club.stamped_loft_deg,
        stamped_bounce_deg=club.stamped_bounce_deg,
        stock_lie_deg=club.stock_lie_deg,
        as_received_loft_deg=club.as_received_loft_deg,
        as_received_lie_deg=club.as_received_lie_deg,
        as_received_bounce_deg=club.as_received_bounce_deg,
        target_loft_deg=club.target_loft_deg,
        target_lie_deg=club.target_lie_deg,
        length_mm=club.target_length_mm,
        sole=None if head is None else sole_of(head),
        has_shaft=shaft is not None,
        tip=None if shaft is None else Tip(shaft.tip_kind),
        tip_trim_mm=club.tip_trim_mm,
        shaft=ShaftFacts() if shaft is None else shaft_of(shaft, is_pulled=club.shaft_is_pulled),
        has_grip=grip is not None,
        grip=GripFacts()
        if grip is None
        else GripFacts(grip.core_mm, grip.length_mm, key=str(grip.pk)),
        swing_weight_points=club.target_swing_weight_points,
        dry=dry_parts(club),
        stamping=stamping_of(club),
        own_key="" if own is None else str(own.pk),
        is_leaving=own is not None and own.pk in seen.leaving_ids,
        has_crack=None if entry is None else entry.has_crack,
        grooves_conform=None if head is None else head.grooves_conform,
        made_year=None if own is None else _made_in(own, seen),
        discontinued=_parts_that_are(Availability.DISCONTINUED, head, shaft, grip),
        to_order=_parts_that_are(Availability.TO_ORDER, head, shaft, grip),
        predicted_carry_m=club.predicted_carry_m,
        predicted_carry_sd_m=club.predicted_sd_m,
        on_line=spec_on_line(club),
        evidence=Evidence() if evidence is None else club_evidence(club, evidence),
    )


def key_of(club: SpecClub) -> str:
    """What tells the club from any other that might stand in its slot."""
    parts = {
        "head": club.head_id,
        "own": club.club_id,
        "trial": club.trial_id,
        "shaft": club.shaft_id,
    }
    return ", ".join(f"{name} {key}" for name, key in parts.items() if key is not None)


def club_evidence(club: SpecClub, evidence: VisitEvidence) -> Evidence:
    """What was hit with it, how it was measured, and whether its comparison was a fair one."""
    trial = club.trial
    played = None if trial is None else evidence.club_of(trial.pk)
    if trial is None or played is None:
        return Evidence()
    unfair, cautions = evidence.slot(club.slot).fairness(played)
    thing = trial.trial_head
    return replace(
        played.for_spec(),
        unfair=unfair,
        cautions=cautions,
        figures=figures_of(played),
        is_loft_measured=None if thing is None else trial.loft_is_measured,
        days_since_check=None if thing is None else _days_since_check(trial, thing),
    )


def figures_of(club: ClubEvidence) -> frozenset[str]:
    """What the carries of a club are: as flown, normalised, unanswered."""
    words = {each.context.figures or UNANSWERED for each in club.situations if each.carries_m}
    return frozenset(NORMALISED if NORMALISED in word else word for word in words)


def baseline_figures(evidence: VisitEvidence) -> frozenset[str]:
    """Of the pitching wedge, where it was hit."""
    baseline = evidence.baseline
    if baseline is None or baseline.carry is None:
        return frozenset()
    hit = (club for club in evidence.clubs if club.club_id == baseline.club_id and club.is_own)
    return frozenset(word for club in hit for word in figures_of(club))


def _days_since_check(trial: Trial, thing: TrialHead) -> int | None:
    """Days from the last check to the trial; a check after it counts as none at all."""
    if thing.checked_on is None:
        return None
    return max((trial.started_at.date() - thing.checked_on).days, 0)


def _made_in(own: Club, seen: BagSeen) -> int | None:
    """The year from which an own club is: as recorded, else as the player said of his wedges."""
    return seen.wedges_made_in if own.in_use_since is None else int(own.in_use_since.year)


def shaft_of(shaft: Shaft, *, is_pulled: bool) -> ShaftFacts:
    return ShaftFacts(
        mass_g=shaft.mass_g,
        material=ShaftMaterial(shaft.material),
        butt_mm=shaft.butt_mm,
        is_pulled=is_pulled,
    )


def dry_parts(club: SpecClub) -> DryParts | None:
    """What a swing weight is foretold from; None where a part or one of its figures is missing."""
    parts = parts_of(club)
    if parts is None or parts.shaft_balance_mm is None or parts.bore_to_ground_mm is None:
        return None
    return parts


def _parts_that_are(
    availability: str, head: Head | None, shaft: Shaft | None, grip: Grip | None
) -> tuple[str, ...]:
    parts = (("head", head), ("shaft", shaft), ("grip", grip))
    return tuple(
        name for name, part in parts if part is not None and part.availability == availability
    )


def stamping_of(club: SpecClub) -> str | None:
    """None where nobody said, "" where it is to be none."""
    text = club.stamping.strip()
    if not text:
        return None
    return "" if text.casefold() == STAMP_NONE else text


def other_clubs(visit: Visit, clubs: Sequence[SpecClub]) -> int | None:
    """The bag of the day without the spec's clubs: the others by count, own clubs not in the spec.

    Those that leave are counted here, whether they left since or not: `leaving` takes them off.
    """
    return _other_clubs(list(visit.other_clubs.all()), last_bag_entries(visit), clubs)


def _other_clubs(
    others: Sequence[OtherClubs], entries: Mapping[UUID, BagEntry], clubs: Sequence[SpecClub]
) -> int | None:
    if not others:
        return None
    in_spec = {club.club_id for club in clubs if club.club_id is not None}
    return sum(other.count for other in others) + len(entries.keys() - in_spec)


def leaving(visit: Visit) -> tuple[str, ...]:
    """What comes out of the bag, as the decisions say; each club once."""
    rows = visit.decisions.filter(is_current=True).select_related("leaves_bag").order_by("slot")
    return _leaving(rows, list(visit.other_clubs.all()))


def _leaving(decisions: Iterable[Decision], others: Sequence[OtherClubs]) -> tuple[str, ...]:
    """An own club once however often it is named; one of a kind as often as there are of it."""
    counted = {other.get_kind_display().casefold(): other.count for other in others}
    said: list[str] = []
    ids: set[UUID | None] = set()
    times: dict[str, int] = {}
    for row in decisions:
        words = row.leaves_bag_words.strip()
        if row.leaves_bag is not None:
            if row.leaves_bag_id not in ids:
                said.append(row.leaves_bag.label)
            ids.add(row.leaves_bag_id)
        elif words:
            before = times.get(words.casefold(), 0)
            if before < max(counted.get(words.casefold(), 1), 1):
                said.append(f"another of the {words}" if before else words)
            times[words.casefold()] = before + 1
    return tuple(said)


def predicted_carry(
    line: CarryLine | None, loft_deg: Decimal | None, club: ClubKey = ""
) -> tuple[float | None, float | None]:
    """The mean carry at a loft and its standard deviation [m]; None without a line or a loft.

    `club` is what the line knows it by; any other name is a club never hit.
    """
    if line is None or loft_deg is None:
        return None, None
    there = line.at(float(loft_deg), level=ONE_SD, club=club)
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
