"""The pitching wedge that everything is counted from, and the line of carry below it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from uuid import UUID

from sessions.maths.block_context import BlockContext, unfairness
from sessions.maths.carry_line import CarryLine, ClubKey, ClubOnLine, LoftCarry, carry_line
from sessions.models import BagEntry, Club, SpecClub, Trial
from sessions.models.words import Face, Swing
from sessions.rules.club_evidence import Baseline, ClubEvidence, SituationFigures

NO_BASELINE = (
    "Hit full stock swings with the pitching wedge that stays, five at least, "
    "or write its stock carry in the bag."
)
NO_LOFT = "Measure the pitching wedge's loft, or write its stamp in the bag: the gaps hang on it."


def baseline_of(
    entries: Mapping[UUID, BagEntry], trials: Sequence[Trial], clubs: Sequence[ClubEvidence]
) -> tuple[Baseline | None, str]:
    """The pitching wedge that stays, hit or at least said; else what is to be done."""
    entry = next((e for e in entries.values() if e.club.kind == Club.Kind.PITCHING_WEDGE), None)
    trial = _baseline_trial(trials)
    club = trial.club if trial is not None else (entry.club if entry else None)
    if trial is not None and trial.club_id is not None:
        entry = entries.get(trial.club_id, entry if club is None else None)
    hit = next((c for c in clubs if trial is not None and trial.pk in c.trial_ids), None)
    full = None if hit is None else _most_hit(hit)
    carry = None if full is None else full.figures.carry
    said = None if entry is None else entry.stock_carry_m
    carry_m = said if carry is None else carry.mean
    if carry_m is None:
        return None, NO_BASELINE
    loft, measured, stamped = _baseline_loft(trial, entry, club)
    if loft is None:
        return None, NO_LOFT
    return (
        Baseline(
            club_id=None if club is None else club.pk,
            name="pitching wedge" if club is None else club.label,
            loft_deg=loft,
            is_loft_measured=measured,
            carry_m=carry_m,
            carry=carry,
            stamped_loft_deg=stamped,
        ),
        "",
    )


def _baseline_trial(trials: Sequence[Trial]) -> Trial | None:
    """The pitching wedge among what was hit for the baseline (the 9-iron may be there too)."""
    anchors = [trial for trial in trials if trial.purpose == Trial.Purpose.BASELINE]
    wedges = [
        trial
        for trial in (anchors or trials)
        if trial.club is not None and trial.club.kind == Club.Kind.PITCHING_WEDGE
    ]
    found = wedges or anchors
    return found[-1] if found else None


def _baseline_loft(
    trial: Trial | None, entry: BagEntry | None, club: Club | None
) -> tuple[Decimal | None, bool, Decimal | None]:
    """Loft, whether it was measured, and the stamp: as read, else as stamped."""
    stamped = club.stamped_loft_deg if club is not None else None
    if trial is not None and trial.stamped_loft_deg is not None:
        stamped = trial.stamped_loft_deg
    if entry is not None and entry.loft_deg is not None:
        return entry.loft_deg, True, stamped
    if trial is not None and trial.loft_deg is not None:
        return trial.loft_deg, trial.loft_is_measured, stamped
    return stamped, False, stamped


def entry_loft(entry: BagEntry) -> Decimal | None:
    """As read, else as stamped."""
    read: Decimal | None = entry.loft_deg
    stamped: Decimal | None = entry.club.stamped_loft_deg
    return stamped if read is None else read


def line_of(
    entries: Mapping[UUID, BagEntry], baseline: Baseline, clubs: Sequence[ClubEvidence]
) -> tuple[CarryLine, tuple[str, ...]]:
    """Carry against loft, from the full stock swings with a square face; and what was left out.

    Balls hit otherwise than the pitching wedge's (wet, another ball or device, figures that mean
    something else) would bend the line: they stay out, and a sentence says so. An own wedge that
    was not hit comes in as the player said. A club is found by its own club's id and by the id of
    every trial it was hit in.
    """
    alike = _alike(baseline, clubs)
    hit = {
        club.key: [
            LoftCarry(float(loft), carry, club.on_line.head, club.on_line.shaft)
            for each in _full_square(club)
            if not _otherwise(each, alike)
            for carry in each.carries_m
        ]
        for club in clubs
        if (loft := _loft(club, baseline)) is not None
    }
    left_out = tuple(
        f"{club.label}: {len(each.carries_m)} full balls stay out of the carries by loft. "
        f"{' '.join(why)}"
        for club in clubs
        for each in _full_square(club)
        if (why := _otherwise(each, alike)) and each.carries_m
    )
    shots = [shot for shots in hit.values() for shot in shots]
    were_hit = {club.club_id for club in clubs if hit.get(club.key)}
    line = carry_line(
        float(baseline.loft_deg),
        baseline.carry_m,
        shots,
        stated=_stated(entries, baseline, were_hit),
        is_baseline_hit=baseline.carry is not None,
    )
    names = {
        str(name): club.on_line
        for club in clubs
        if hit.get(club.key)
        for name in (*club.trial_ids, club.club_id)
        if name is not None
    }
    return replace(line, clubs={**line.clubs, **names}), left_out


def balls_of(baseline: Baseline, clubs: Sequence[ClubEvidence]) -> dict[str, int]:
    """Full stock balls on the carry line, by the key of each club that was hit."""
    alike = _alike(baseline, clubs)
    counts = {
        club.key: sum(
            len(each.carries_m) for each in _full_square(club) if not _otherwise(each, alike)
        )
        for club in clubs
        if _loft(club, baseline) is not None
    }
    return {key: balls for key, balls in counts.items() if balls}


def full_balls_of(club: ClubEvidence) -> int:
    """Full stock balls of a club, wherever and with whatever ball they were hit."""
    return sum(len(each.carries_m) for each in _full_square(club))


def _full_square(club: ClubEvidence) -> list[SituationFigures]:
    """Stock and flat-out swings never mix, and an opened face is another club."""
    return [
        each
        for each in club.situations
        if each.situation.swing == Swing.FULL and each.context.face == Face.SQUARE.label
    ]


def _most_hit(club: ClubEvidence) -> SituationFigures | None:
    hit = [each for each in _full_square(club) if each.carries_m]
    return max(hit, key=lambda each: len(each.carries_m), default=None)


def _alike(baseline: Baseline, clubs: Sequence[ClubEvidence]) -> BlockContext | None:
    """What the pitching wedge was hit with; where it was only said, what most balls were."""
    full = [there for club in clubs if (there := _most_hit(club)) is not None]
    own = next((there for there in full if there.figures.carry == baseline.carry), None)
    most = max(full, key=lambda there: len(there.carries_m), default=None)
    found = most if own is None else own
    return None if found is None else found.context


def pool_of(baseline: Baseline | None, clubs: Sequence[ClubEvidence]) -> tuple[BlockContext, ...]:
    """How balls must be hit to be held against each other over clubs, the first counting most.

    As the pitching wedge was hit; among balls that are not, as most full balls were.
    """
    first = None
    if baseline is not None and baseline.carry is not None:
        first = _alike(baseline, clubs)
    balls: dict[BlockContext, int] = {}
    for club in clubs:
        for there in _full_square(club):
            context = replace(there.context, grooves=None)
            balls[context] = balls.get(context, 0) + len(there.carries_m)
    most = max(balls, key=lambda each: balls[each], default=None)
    return tuple(each for each in (first, most) if each is not None)


def _otherwise(there: SituationFigures, alike: BlockContext | None) -> tuple[str, ...]:
    """What differs from how the pitching wedge was hit, in sentences.

    Grooves and the ground move spin and strike, hardly the carry of a full swing.
    """
    if alike is None:
        return ()
    plain = {"grooves": None, "surface": None, "ground": None}
    return unfairness(replace(there.context, **plain), replace(alike, **plain))


def trial_on_line(trial: Trial) -> ClubOnLine:
    """An own club is never taken apart; a trial club is a head and a shaft of the catalogue."""
    if trial.trial_head is None:
        return ClubOnLine(str(trial.club_id), str(trial.club_id))
    shaft = trial.trial_shaft
    return ClubOnLine(str(trial.trial_head.head_id), "" if shaft is None else str(shaft.shaft_id))


def spec_on_line(club: SpecClub) -> ClubKey:
    """An own club by its id; a new one has its head's offset and that of the shaft it will have."""
    if club.club_id is not None:
        return str(club.club_id)
    return ClubOnLine(str(club.head_id or ""), str(club.shaft_id or ""))


def _stated(
    entries: Mapping[UUID, BagEntry], baseline: Baseline, were_hit: Collection[UUID | None]
) -> list[LoftCarry]:
    """The stock carries that the player says of own wedges that were not hit."""
    found = []
    for club_id, entry in entries.items():
        loft = entry_loft(entry)
        if (
            club_id not in were_hit
            and club_id != baseline.club_id
            and entry.club.kind == Club.Kind.WEDGE
            and loft is not None
            and entry.stock_carry_m is not None
        ):
            found.append(LoftCarry(float(loft), entry.stock_carry_m, str(club_id)))
    return found


def _loft(club: ClubEvidence, baseline: Baseline) -> Decimal | None:
    if club.club_id is not None and club.club_id == baseline.club_id:
        return baseline.loft_deg
    return club.loft_deg
