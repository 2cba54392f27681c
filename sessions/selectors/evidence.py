"""What was hit in a visit, from rows to the values that rules and charts take.

A dozen small queries whatever the number of shots. Shots left out count in nothing (a misread is
counted as such), warm-up likewise; a shot that is only left out of the mean is still counted.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from uuid import UUID

from fitshop.selectors import SettingsInForce, settings_in_force
from sessions.flow import ComparisonState
from sessions.maths.drift import BallInOrder, Drift, drift
from sessions.models import (
    BagEntry,
    Club,
    Comparison,
    LoftPlan,
    Rating,
    Trial,
    Visit,
)
from sessions.rules.club_evidence import (
    Asked,
    ClubEvidence,
    Margins,
    OwnClub,
)
from sessions.rules.evidence import VisitEvidence
from sessions.rules.rule_chapters import off_from
from sessions.rules.stopping import stop_limits_from
from sessions.rules.wording import bounce_words, figure, is_bend, loft_words
from sessions.selectors.carry_base import (
    baseline_of,
    entry_loft,
    line_of,
    pool_of,
    trial_on_line,
)
from sessions.selectors.comparisons import is_again
from sessions.selectors.equipment import bounce_figure
from sessions.selectors.situations import places_in_order, situation_of, situations_of
from sessions.selectors.visit_rows import VisitRows, current_plan, trials_hit


def visit_evidence(
    visit: Visit,
    settings: SettingsInForce | None = None,
    read: VisitRows | None = None,
) -> VisitEvidence:
    """Everything hit in a visit, club by club. Right after every shot: nothing is cached.

    `read`: its rows, where the caller has them.
    """
    in_force = settings or settings_in_force()
    rows = read or _rows(visit)
    trials, codes, entries = rows.trials, rows.codes, rows.entries
    ratings = _ratings(visit)
    answered_later = visit.figures_answers.order_by("sequence").last()
    late = "" if answered_later is None else answered_later.answer
    places = places_in_order(trials, visit.opened_at or visit.starts_at)
    clubs = tuple(_club(group, codes, ratings, late, places) for group in _by_club(trials))
    baseline, why_not = baseline_of(entries, trials, clubs)
    pool = pool_of(baseline, clubs)
    clubs = tuple(replace(club, pool=pool) for club in clubs)
    line, left_out = (None, ()) if baseline is None else line_of(entries, baseline, clubs)
    lofts, kept, foretold = _planned(rows.plan)
    return VisitEvidence(
        clubs=clubs,
        margins=margins_of(in_force),
        baseline=baseline,
        no_baseline_because=why_not,
        line=line,
        left_out_of_line=left_out,
        planned_lofts_deg=lofts,
        planned_clubs=kept,
        planned_carries_m=foretold,
        owned=_owned(entries, _hidden_clubs(clubs)),
        drift=_drift(clubs),
        near_enough_deg=Decimal(str(in_force["plan.near_enough_deg"])),
        off=off_from(in_force.values),
        stop_limits=stop_limits_from(in_force.values),
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
        # A share of nothing and one of all are no margins.
        spread_share=_share(number("comparison.spread_margin_pct")),
        proximity_m=number("comparison.proximity_margin_m"),
        launch_deg=number("comparison.launch_margin_deg"),
        spin_rpm=number("comparison.spin_margin_rpm"),
        landing_deg=number("comparison.landing_margin_deg"),
        strikes_share=_share(number("comparison.strikes_margin_pct")),
        ratings_share=_share(number("comparison.ratings_margin_pct")),
    )


def _share(percent: float) -> float:
    return min(max(percent / 100, 0.01), 0.99)


def _rows(visit: Visit) -> VisitRows:
    return VisitRows(
        trials_hit(visit), last_bag_entries(visit), current_plan(visit), hidden_codes(visit)
    )


def hidden_codes(visit: Visit) -> dict[UUID, int]:
    """The neutral numbers of the clubs that must not be named before the reveal."""
    running = visit.comparisons.filter(
        state__in=[ComparisonState.DRAWN, ComparisonState.RUNNING]
    ).exclude(hiding=Comparison.Hiding.OPEN)
    return dict(running.values_list("arms__trial_id", "arms__code"))


def _planned(
    plan: LoftPlan | None,
) -> tuple[dict[int, Decimal], dict[int, UUID], dict[int, float]]:
    """The lofts of the plan that counts, the own clubs that it keeps, the carries it foretold."""
    slots = [] if plan is None else list(plan.slots.all())
    return (
        {slot.slot: slot.target_loft_deg for slot in slots},
        {slot.slot: slot.club_id for slot in slots if slot.club_id is not None},
        {slot.slot: slot.predicted_carry_m for slot in slots if slot.predicted_carry_m is not None},
    )


def _ratings(visit: Visit) -> dict[UUID, dict[Asked, int]]:
    """Scores by trial, each under what was asked; not of a comparison that runs.

    What was said of the first club when it came again is a round of its own.
    """
    found: dict[UUID, dict[Asked, int]] = {}
    rows = (
        Rating.objects.standing()
        .filter(visit=visit)
        .exclude(comparison__state__in=[ComparisonState.DRAWN, ComparisonState.RUNNING])
    )
    for row in rows.select_related("comparison").order_by("sequence"):
        again = " again" if is_again(row) else ""
        situation = situation_of(row) if row.swing else None
        asked = Asked(row.about, f"{row.comparison_id or ''}{again}", situation)
        found.setdefault(row.trial_id, {})[asked] = row.score
    return found


def _hidden_clubs(clubs: Sequence[ClubEvidence]) -> set[UUID]:
    return {club.club_id for club in clubs if club.is_hidden and club.club_id is not None}


def _owned(entries: Mapping[UUID, BagEntry], hidden: Collection[UUID]) -> tuple[OwnClub, ...]:
    """The own wedges of the bag, but for one that goes by a number just now."""
    return tuple(
        OwnClub(club_id, f"your {entry.club.label}", entry_loft(entry))
        for club_id, entry in entries.items()
        if entry.club.kind == Club.Kind.WEDGE and club_id not in hidden
    )


def _drift(clubs: Sequence[ClubEvidence]) -> Drift | None:
    """Drift of carry over the visit, each ball against its own club in its own situation."""
    return drift(
        [
            BallInOrder(number, f"{club.key} {place}", carry)
            for club in clubs
            for place, there in enumerate(club.situations)
            for number, carry in there.carries_in_order
        ]
    )


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


def _club(
    trials: Sequence[Trial],
    codes: Mapping[UUID, int],
    ratings: Mapping[UUID, Mapping[Asked, int]],
    late: str,
    places: Mapping[UUID, int],
) -> ClubEvidence:
    last = trials[-1]
    said = {asked: score for trial in trials for asked, score in ratings.get(trial.pk, {}).items()}
    code = next((codes[trial.pk] for trial in trials if trial.pk in codes), None)
    situations = tuple(situations_of(trials, late, places))
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
        ratings=said,
        on_line=trial_on_line(last),
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


def last_bag_entries(visit: Visit) -> dict[UUID, BagEntry]:
    """The last entry of each own club at this visit, by the club's id."""
    entries = BagEntry.objects.filter(visit=visit).select_related("club__head").order_by("sequence")
    return {entry.club_id: entry for entry in entries}
