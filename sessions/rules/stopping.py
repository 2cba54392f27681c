"""Whether a full shot with a wedge stops where it lands, by its spin and its landing angle.

What stops a good player's full gap wedge is common practice. A slower player's ball is judged by
its own speed: it needs less spin, since it comes in slower, and a flatter landing is no fault.
A figure is held against a limit only where its doubt leaves the limit out. Nothing here is a
verdict between two clubs; what is wanted of a flight stays the fitter's to say.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import fmean

from fitshop.setting import Value
from sessions.maths.dispersion import LEAST_FOR_INTERVAL, Spread, spread
from sessions.maths.shown import show_speed
from sessions.maths.unit_factors import DistanceUnit, SpeedUnit
from sessions.rules.club_evidence import ClubEvidence, SituationFigures
from sessions.rules.judgements import ALL_ON, JudgementBook, Off, Said, sentences

# What a stock shot is hit from, and with: elsewhere grass, sand or a soft cover make the spin.
CLEAN_LIES = frozenset({"fairway", "tight", "tee", "mat"})
OTHER_BALLS = frozenset({"range ball", "limited-flight ball"})


@dataclass(frozen=True, slots=True)
class StopLimits:
    """The shop's figures: spin [rpm], landing [degrees], a good player's ball speed with a gap
    wedge [m/s], and the loft [degrees] from which a club is for touch and not judged here."""

    spin_low_rpm: float
    spin_high_rpm: float
    landing_low_deg: float
    ball_speed_ms: float
    touch_from_deg: float

    @property
    def spin_most_rpm(self) -> float:
        """Never less than what stops, whatever was set."""
        return max(self.spin_low_rpm, self.spin_high_rpm)


def stop_limits_from(settings: Mapping[str, Value]) -> StopLimits:
    """Build the limits from the settings. Raises KeyError for a missing one."""
    return StopLimits(
        spin_low_rpm=float(settings["comparison.stop_spin_low_rpm"]),
        spin_high_rpm=float(settings["comparison.stop_spin_high_rpm"]),
        landing_low_deg=float(settings["comparison.stop_landing_low_deg"]),
        ball_speed_ms=float(settings["comparison.stop_ball_speed_ms"]),
        touch_from_deg=float(settings["plan.touch_from_deg"]),
    )


@dataclass(frozen=True, slots=True)
class FullShot:
    """The means of full swings with one club, each with its doubt either way.

    The ball speed is None where it was not measured; spin may be estimated by the device.
    """

    spin_rpm: float
    landing_deg: float
    ball_speed_ms: float | None = None
    spin_doubt_rpm: float = 0.0
    landing_doubt_deg: float = 0.0
    is_estimated: bool = False
    speed_unit: SpeedUnit = "m/s"

    def spin_needed_rpm(self, limits: StopLimits) -> float:
        """In proportion to the ball's speed, never more than a good player's ball needs."""
        share = 1.0 if self.ball_speed_ms is None else self.ball_speed_ms / limits.ball_speed_ms
        return limits.spin_low_rpm * min(share, 1.0)

    def is_fast(self, limits: StopLimits) -> bool:
        return self.ball_speed_ms is not None and self.ball_speed_ms >= limits.ball_speed_ms

    def is_steep(self, limits: StopLimits) -> bool:
        return self.landing_deg - self.landing_doubt_deg >= limits.landing_low_deg

    def is_flat(self, limits: StopLimits) -> bool:
        return self.landing_deg + self.landing_doubt_deg < limits.landing_low_deg

    def spins_at_least(self, rpm: float) -> bool:
        return self.spin_rpm - self.spin_doubt_rpm >= rpm

    def spins_at_most(self, rpm: float) -> bool:
        return self.spin_rpm + self.spin_doubt_rpm <= rpm

    @property
    def spin_words(self) -> str:
        return f"{_rpm(self.spin_rpm)}{' (estimated)' if self.is_estimated else ''}"

    @property
    def landing_words(self) -> str:
        return f"{self.landing_deg:.0f}°"

    @property
    def speed_words(self) -> str:
        return "" if self.ball_speed_ms is None else show_speed(self.ball_speed_ms, self.speed_unit)


def full_shot_of(there: SituationFigures, unit: DistanceUnit) -> FullShot | None:
    """The means of a situation's balls; None where it is no stock shot or too little was read."""
    if there.situation.swing != "full" or there.situation.extra:
        return None
    if there.situation.hit_from not in CLEAN_LIES or there.context.ball in OTHER_BALLS:
        return None
    spin, landing = spread(there.spins_rpm), spread(there.landings_deg)
    if spin is None or landing is None or min(spin.n, landing.n) < LEAST_FOR_INTERVAL:
        return None
    speeds = there.ball_speeds_ms
    return FullShot(
        spin.mean,
        landing.mean,
        fmean(speeds) if len(speeds) >= LEAST_FOR_INTERVAL else None,
        _doubt(spin),
        _doubt(landing),
        there.spin_got == "estimated",
        "mph" if unit == "yd" else "m/s",
    )


def _doubt(mean: Spread) -> float:
    return 0.0 if mean.high is None else mean.high - mean.mean


def stops_words(
    club: ClubEvidence,
    there: SituationFigures,
    limits: StopLimits,
    unit: DistanceUnit,
    off: Off = ALL_ON,
) -> tuple[Said, ...]:
    """What is said of a club's full shots in one situation; nothing of a touch club."""
    shot = full_shot_of(there, unit)
    if shot is None or club.loft_deg is None or club.loft_deg >= limits.touch_from_deg:
        return ()
    return sentences(STOPS, shot, limits, off)


def _rpm(value: float) -> str:
    return f"{round(value, -1):,.0f} rpm"


SPIN = ("comparison.stop_spin_low_rpm", "comparison.stop_ball_speed_ms")
LANDING = "comparison.stop_landing_low_deg"
MOST = "comparison.stop_spin_high_rpm"
STOPS: JudgementBook[FullShot, StopLimits, str] = JudgementBook("DEC-S", "What stops a full shot")


@STOPS.judgement(
    "DEC-S01",
    about="Full swings below the touch clubs land steeply and spin enough for their ball speed: "
    "they stop.",
    thresholds=(*SPIN, MOST, LANDING),
)
def stops(shot: FullShot, limits: StopLimits) -> Iterable[str]:
    if (
        shot.is_steep(limits)
        and shot.spins_at_least(shot.spin_needed_rpm(limits))
        and shot.spins_at_most(limits.spin_most_rpm)
    ):
        yield f"A full shot stops: {shot.spin_words}, landing at {shot.landing_words}."


@STOPS.judgement(
    "DEC-S02",
    about="Full swings of a good player's ball speed land flat: they run on. Slower ones may.",
    thresholds=("comparison.stop_ball_speed_ms", LANDING),
)
def lands_flat(shot: FullShot, limits: StopLimits) -> Iterable[str]:
    if shot.is_fast(limits) and shot.is_flat(limits):
        yield (
            f"A full shot runs on: it lands at {shot.landing_words}, flatter than the "
            f"{limits.landing_low_deg:.0f}° that stop a ball of {shot.speed_words}."
        )


@STOPS.judgement(
    "DEC-S03",
    about="Full swings spin less than their ball speed wants: they run on.",
    thresholds=SPIN,
)
def spins_little(shot: FullShot, limits: StopLimits) -> Iterable[str]:
    needed = shot.spin_needed_rpm(limits)
    if shot.ball_speed_ms is not None and shot.spin_rpm + shot.spin_doubt_rpm < needed:
        yield (
            f"A full shot runs on: {shot.spin_words} is little for a ball of {shot.speed_words}, "
            f"which takes about {_rpm(needed)}."
        )


@STOPS.judgement(
    "DEC-S04",
    about="Full swings land steeply and spin more than it takes to stop, at any ball speed.",
    thresholds=("comparison.stop_spin_low_rpm", MOST, LANDING),
)
def spins_much(shot: FullShot, limits: StopLimits) -> Iterable[str]:
    is_more = shot.spin_rpm - shot.spin_doubt_rpm > limits.spin_most_rpm
    if is_more and shot.is_steep(limits):
        yield (
            f"{shot.spin_words}, landing at {shot.landing_words}: more spin than the "
            f"{_rpm(limits.spin_most_rpm)} that a full shot takes to stop. Into the wind it climbs "
            "and falls short."
        )
