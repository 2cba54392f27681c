"""What was hit in a visit, from rows to the values that rules and charts take.

Nine small queries whatever the number of shots. Shots left out count in nothing (a misread is
counted as such), warm-up likewise; a shot that is only left out of the mean is still counted.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from decimal import Decimal
from uuid import UUID

from django.db.models import Prefetch

from fitshop.selectors import SettingsInForce, settings_in_force
from sessions.flow import ComparisonState
from sessions.maths.block_context import BlockContext
from sessions.maths.carry_line import CarryLine, LoftCarry, carry_line
from sessions.maths.dispersion import ShotFigures, block_figures, spread
from sessions.models import BagEntry, Block, Club, Comparison, LoftPlan, Shot, Trial, Visit
from sessions.models.words import AsFlown, Face, Grooves, LeftOut, Swing, Wetness
from sessions.rules.club_evidence import (
    Baseline,
    ClubEvidence,
    Margins,
    Situation,
    SituationFigures,
)
from sessions.rules.evidence import VisitEvidence
from sessions.rules.wording import bounce_words, figure, is_bend, loft_words
from sessions.selectors.equipment import bounce_figure

NO_BASELINE = (
    "Hit full stock swings with the pitching wedge that stays, five at least, "
    "or write its stock carry in the bag."
)
NO_LOFT = "Measure the pitching wedge's loft, or write its stamp in the bag: the gaps hang on it."


def visit_evidence(visit: Visit, settings: SettingsInForce | None = None) -> VisitEvidence:
    """Everything hit in a visit, club by club. Right after every shot: nothing is cached."""
    in_force = settings or settings_in_force()
    trials = list(_trials(visit))
    codes = _hidden_codes(visit)
    clubs = tuple(_club(group, codes) for group in _by_club(trials))
    baseline, why_not = _baseline(visit, trials, clubs)
    return VisitEvidence(
        clubs=clubs,
        margins=margins_of(in_force),
        baseline=baseline,
        no_baseline_because=why_not,
        line=None if baseline is None else _line(visit, baseline, clubs),
        planned_lofts_deg=_planned(visit),
    )


def margins_of(settings: SettingsInForce) -> Margins:
    """The shop's margins as the verdicts take them."""

    def number(key: str) -> float:
        value = settings[key]
        assert not isinstance(value, str)
        return float(value)

    return Margins(
        carry_m=number("comparison.carry_margin_m"),
        side_m=number("comparison.side_margin_m"),
        least_balls=int(number("spec.shots_for_a_build")),
        most_more_balls=int(number("comparison.more_balls_most")),
    )


def _trials(visit: Visit) -> Iterable[Trial]:
    shots = Shot.objects.select_related("exclusion")
    blocks = Block.objects.select_related("device").prefetch_related(
        Prefetch("shots", queryset=shots)
    )
    return (
        Trial.objects.filter(visit=visit)
        .select_related("club")
        .prefetch_related(Prefetch("blocks", queryset=blocks))
        .order_by("sequence")
    )


def _hidden_codes(visit: Visit) -> dict[UUID, int]:
    """The neutral numbers of the clubs that must not be named before the reveal."""
    running = visit.comparisons.filter(
        state__in=[ComparisonState.DRAWN, ComparisonState.RUNNING]
    ).exclude(hiding=Comparison.Hiding.OPEN)
    return dict(running.values_list("arms__trial_id", "arms__code"))


def _planned(visit: Visit) -> dict[int, Decimal]:
    plan = LoftPlan.objects.filter(visit=visit, is_current=True).first()
    return {} if plan is None else dict(plan.slots.values_list("slot", "target_loft_deg"))


def _by_club(trials: Sequence[Trial]) -> list[list[Trial]]:
    """The same thing handed over twice is one club: an own club, or head and shaft as played."""
    groups: dict[tuple[object, ...], list[Trial]] = {}
    for trial in trials:
        key = (
            (trial.club_id,)
            if trial.club_id is not None
            else (trial.trial_head_id, trial.trial_shaft_id, trial.loft_deg, trial.lie_deg,
                  trial.length_mm, trial.slot)
        )  # fmt: skip
        groups.setdefault(key, []).append(trial)
    return list(groups.values())


def _club(trials: Sequence[Trial], codes: dict[UUID, int]) -> ClubEvidence:
    last = trials[-1]
    code = next((codes[trial.pk] for trial in trials if trial.pk in codes), None)
    situations = tuple(_situations(trials))
    slot = next((t.slot for t in reversed(trials) if t.slot is not None), None)
    if code is not None:
        return ClubEvidence(
            key=str(last.pk),
            trial_ids=tuple(trial.pk for trial in trials),
            name=f"Number {code}",
            is_own=last.club_id is not None,
            club_id=last.club_id,
            slot=slot,
            role=last.role,
            is_hidden=True,
            situations=situations,
        )
    return ClubEvidence(
        key=str(last.pk),
        trial_ids=tuple(trial.pk for trial in trials),
        name=trial_name(last),
        is_own=last.club_id is not None,
        club_id=last.club_id,
        slot=slot,
        role=last.role,
        loft_deg=last.loft_deg,
        stamped_loft_deg=last.stamped_loft_deg,
        loft_words=trial_loft_words(last),
        bounce_words=trial_bounce_words(last),
        sole_words=last.sole_words,
        grooves=last.grooves,
        situations=situations,
    )


def trial_name(trial: Trial) -> str:
    """`your 56` for an own club, else what the head is called and the loft it plays at."""
    if trial.club is not None:
        return f"your {trial.club.label}"
    if trial.loft_deg is None:
        return trial.head_name
    is_bent = trial.stamped_loft_deg not in (None, trial.loft_deg)
    stamp = f" (stamped {figure(trial.stamped_loft_deg)})" if is_bent else ""
    return f"{trial.head_name} {figure(trial.loft_deg)}°{stamp}"


def trial_loft_words(trial: Trial) -> str:
    """The loft as played with its stamp; an own club has drifted, so nothing is said of bends.

    Nor of a trial head that reads a hair off its stamp: it was made so.
    """
    loft, stamped = trial.loft_deg, trial.stamped_loft_deg
    if loft is None:
        return loft_words(None, stamped)
    if stamped is None or stamped == loft:
        return f"{figure(loft)}°"
    if trial.club_id is None and is_bend(loft, stamped):
        return loft_words(loft, stamped)
    return f"{figure(loft)}° (stamped {figure(stamped)})"


def trial_bounce_words(trial: Trial) -> str:
    """The bounce as played, with its stamp where they differ."""
    if trial.bounce_deg is None or trial.stamped_bounce_deg is None:
        if trial.bounce_deg is not None:
            return bounce_figure(trial.bounce_deg, None, is_measured=trial.bounce_is_measured)
        return bounce_words(trial.stamped_bounce_deg, trial.loft_deg, trial.stamped_loft_deg)
    said = bounce_figure(
        trial.bounce_deg, trial.stamped_bounce_deg, is_measured=trial.bounce_is_measured
    )
    if trial.bounce_deg == trial.stamped_bounce_deg:
        return said
    return f"{said} (stamped {figure(trial.stamped_bounce_deg)})"


def _situations(trials: Sequence[Trial]) -> Iterable[SituationFigures]:
    """A club's shots by situation, in the order in which each was first hit."""
    groups: dict[tuple[object, ...], list[tuple[Trial, Block]]] = {}
    for trial in trials:
        for block in trial.blocks.all():
            if block.is_warm_up:
                continue
            key = (block.swing, block.target_m, block.hit_from, block.ground, block.wetness,
                   block.face, block.ball, block.device_id, block.as_flown)  # fmt: skip
            groups.setdefault(key, []).append((trial, block))
    for group in groups.values():
        yield _situation_figures(group)


def _situation_figures(group: Sequence[tuple[Trial, Block]]) -> SituationFigures:
    trial, block = group[-1]
    shots = [shot for _, each in group for shot in each.shots.all() if not shot.is_warm_up]
    known = [shot for shot in shots if not _is_undone(shot)]
    counted = [shot for shot in known if not _is_left_out(shot)]
    in_mean = [shot for shot in counted if shot.in_mean]
    figures = tuple(
        ShotFigures(
            carry_m=shot.carry_m,
            side_m=shot.side_m,
            strike="" if shot.strike == "clean" else shot.strike,
            misread=_is_left_out(shot),
            counted_in_mean=shot.in_mean,
        )
        for shot in known
    )
    return SituationFigures(
        situation=_situation(block),
        context=_context(trial, block),
        figures=block_figures(figures),
        shots=figures,
        carries_m=tuple(shot.carry_m for shot in in_mean if shot.carry_m is not None),
        sides_m=tuple(shot.side_m for shot in in_mean if shot.side_m is not None),
        turf=dict(Counter(shot.turf for shot in counted if shot.turf)),
        spin=spread([shot.spin_rpm for shot in in_mean if shot.spin_rpm is not None]),
        block_ids=tuple(each.pk for _, each in group),
    )


def _situation(block: Block) -> Situation:
    extra = []
    if block.wetness == Wetness.WET:
        extra.append("wet")
    if block.face != Face.SQUARE:
        extra.append(f"face {block.get_face_display()}")
    return Situation(
        swing=block.swing,
        swing_label=block.get_swing_display(),
        hit_from=block.hit_from,
        from_label=block.get_hit_from_display(),
        target_m=block.target_m,
        extra=tuple(extra),
    )


def _context(trial: Trial, block: Block) -> BlockContext:
    return BlockContext(
        swing=block.get_swing_display(),
        surface=block.get_hit_from_display(),
        ground=block.get_ground_display(),
        wet=block.get_wetness_display(),
        face=block.get_face_display(),
        ball=f"{block.get_ball_display()} ball",
        device=None if block.device is None else block.device.name,
        figures=None if block.as_flown == AsFlown.UNANSWERED else block.get_as_flown_display(),
        grooves=None if trial.grooves == Grooves.UNKNOWN else trial.get_grooves_display(),
    )


def _is_left_out(shot: Shot) -> bool:
    return getattr(shot, "exclusion", None) is not None


def _is_undone(shot: Shot) -> bool:
    """Mistyped or undone: it was never a ball of this club, so it isn't counted as a misread."""
    left_out = getattr(shot, "exclusion", None)
    return left_out is not None and left_out.reason != LeftOut.MISREAD


def _baseline(
    visit: Visit, trials: Sequence[Trial], clubs: Sequence[ClubEvidence]
) -> tuple[Baseline | None, str]:
    """The pitching wedge that stays, hit or at least said; else what is to be done."""
    entries = last_bag_entries(visit)
    entry = next((e for e in entries.values() if e.club.kind == Club.Kind.PITCHING_WEDGE), None)
    trial = _baseline_trial(trials)
    club = trial.club if trial is not None else (entry.club if entry else None)
    if trial is not None and trial.club_id is not None:
        entry = entries.get(trial.club_id, entry if club is None else None)
    hit = next((c for c in clubs if trial is not None and trial.pk in c.trial_ids), None)
    full = None if hit is None else hit.full_stock()
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


def last_bag_entries(visit: Visit) -> dict[UUID, BagEntry]:
    """The last entry of each own club at this visit, by the club's id."""
    entries = BagEntry.objects.filter(visit=visit).select_related("club").order_by("sequence")
    return {entry.club_id: entry for entry in entries}


def _line(visit: Visit, baseline: Baseline, clubs: Sequence[ClubEvidence]) -> CarryLine:
    """Carry against loft, from every full stock swing with a square face.

    An own wedge that was not hit comes in as the player said. Each club's offset is found by its
    own club's id and by the id of every trial it was hit in.
    """
    hit = {
        club.key: [
            LoftCarry(float(loft), carry, club.key)
            for each in club.situations
            if each.situation.swing == Swing.FULL and each.context.face == Face.SQUARE.label
            for carry in each.carries_m
        ]
        for club in clubs
        if (loft := _loft(club, baseline)) is not None
    }
    shots = [shot for shots in hit.values() for shot in shots]
    were_hit = {club.club_id for club in clubs if hit.get(club.key)}
    line = carry_line(
        float(baseline.loft_deg),
        baseline.carry_m,
        shots,
        stated=_stated(visit, baseline, were_hit),
        is_baseline_hit=baseline.carry is not None,
    )
    names = {
        str(name): line.clubs[club.key]
        for club in clubs
        if club.key in line.clubs
        for name in (*club.trial_ids, club.club_id)
        if name is not None
    }
    return replace(line, clubs={**line.clubs, **names})


def _stated(visit: Visit, baseline: Baseline, were_hit: Collection[UUID | None]) -> list[LoftCarry]:
    """The stock carries that the player says of own wedges that were not hit."""
    found = []
    for club_id, entry in last_bag_entries(visit).items():
        loft = entry.loft_deg if entry.loft_deg is not None else entry.club.stamped_loft_deg
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
