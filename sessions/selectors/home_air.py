"""The home air of a visit's player, from the visit's last noted air, and the baseline's launch."""

from __future__ import annotations

from django.db.models import Avg

from sessions.maths.other_air import FlownCarry
from sessions.models import Shot, Visit
from sessions.models.words import AsFlown
from sessions.rules.club_evidence import SituationFigures
from sessions.rules.evidence import VisitEvidence
from sessions.rules.home_air import AS_FLOWN, HomeAir, HomeFacts, home_air


def visit_home_air(visit: Visit, evidence: VisitEvidence) -> HomeAir:
    """The air here and at the player's home, or what is missing for it. Two queries.

    The last noted air counts: a correction is a later note. Where neither pressure nor altitude
    was noted, the location's own altitude stands in.
    """
    noted = visit.conditions.order_by("-sequence").first()
    altitude = None if noted is None else noted.altitude_m
    answer = visit.figures_answers.order_by("-sequence").first()
    return home_air(
        HomeFacts(
            home_place=visit.player.home_place,
            home_altitude_m=visit.player.home_altitude_m,
            temperature_c=None if noted is None else noted.temperature_c,
            pressure_hpa=None if noted is None else noted.pressure_hpa,
            altitude_m=visit.location.altitude_m if altitude is None else altitude,
            humidity_pct=None if noted is None else noted.humidity_pct,
            wind_ms=None if noted is None else noted.wind_ms,
            figures=_figures(evidence),
            answered_later=None if answer is None else answer.get_answer_display(),
        )
    )


def _figures(evidence: VisitEvidence) -> set[str | None]:
    """What the blocks with carries say of their figures; nothing where the baseline was not hit."""
    if evidence.baseline is None or evidence.baseline.carry is None:
        return set()
    as_flown = AsFlown.AS_FLOWN.label

    def told(there: SituationFigures) -> str | None:
        """The blocks' own answer: what was said later is handed in beside it."""
        if there.is_figures_answered_later:
            return None
        return AS_FLOWN if there.context.figures == as_flown else there.context.figures

    return {told(each) for club in evidence.clubs for each in club.situations if each.carries_m}


def baseline_flown(evidence: VisitEvidence) -> FlownCarry | None:
    """The baseline's mean carry with what its balls say of their launch. One query."""
    baseline = evidence.baseline
    if baseline is None or baseline.carry is None:
        return None
    launch = _launch(_baseline_situation(evidence))
    return FlownCarry(baseline.carry_m, float(baseline.loft_deg), **launch)


def _baseline_situation(evidence: VisitEvidence) -> SituationFigures | None:
    """The full stock swings that the baseline's carry is the mean of."""
    wanted = None if evidence.baseline is None else evidence.baseline.carry
    every = (club.full_stock() for club in evidence.clubs)
    return next((full for full in every if full and full.figures.carry == wanted), None)


def _launch(there: SituationFigures | None) -> dict[str, float | None]:
    """Mean ball speed, launch and spin of the shots that count in the mean."""
    if there is None:
        return {}
    return (
        Shot.objects.counted()
        .filter(
            block_id__in=there.block_ids,
            is_warm_up=False,
            in_mean=True,
            carry_m__isnull=False,
        )
        .aggregate(
            ball_speed_ms=Avg("ball_speed_ms"),
            launch_deg=Avg("launch_deg"),
            spin_rpm=Avg("spin_rpm"),
        )
    )
