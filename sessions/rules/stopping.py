"""Whether a full shot with a wedge stops where it lands, by its spin and its landing angle.

What stops a good player's full gap wedge is common practice. A slower player's ball is judged by
its own speed: it needs less spin, since it comes in slower, and a flatter landing is no fault.
Nothing here is a verdict between two clubs; what is wanted of a flight stays the fitter's to say.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import fmean

from fitshop.setting import Value
from sessions.rules.club_evidence import ClubEvidence, SituationFigures
from sessions.rules.judgements import ALL_ON, JudgementBook, Off, Said, sentences

# As many balls as a mean takes to say anything.
LEAST_BALLS = 3


@dataclass(frozen=True, slots=True)
class StopLimits:
    """The shop's figures: spin [rpm], landing [degrees], a good player's ball speed with a gap
    wedge [m/s], and the loft [degrees] from which a club is for touch and not judged here."""

    spin_low_rpm: float
    spin_high_rpm: float
    landing_low_deg: float
    ball_speed_ms: float
    touch_from_deg: float


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
    """The means of full swings with one club, as they are read: spin to ten, landing to a degree.

    The ball speed is None where it was not measured.
    """

    spin_rpm: float
    landing_deg: float
    ball_speed_ms: float | None = None

    def spin_needed_rpm(self, limits: StopLimits) -> float:
        """In proportion to the ball's speed, never more than a good player's ball needs."""
        share = 1.0 if self.ball_speed_ms is None else self.ball_speed_ms / limits.ball_speed_ms
        return round(limits.spin_low_rpm * min(share, 1.0), -1)

    def is_fast(self, limits: StopLimits) -> bool:
        return self.ball_speed_ms is not None and self.ball_speed_ms >= limits.ball_speed_ms

    def is_steep(self, limits: StopLimits) -> bool:
        return self.landing_deg >= limits.landing_low_deg

    @property
    def spin_words(self) -> str:
        return _rpm(self.spin_rpm)

    @property
    def landing_words(self) -> str:
        return f"{self.landing_deg:.0f}°"


def full_shot_of(there: SituationFigures) -> FullShot | None:
    """The means of a situation's balls; None where it is no full swing or too little was read."""
    if there.situation.swing != "full":
        return None
    if min(len(there.spins_rpm), len(there.landings_deg)) < LEAST_BALLS:
        return None
    speeds = there.ball_speeds_ms
    speed = fmean(speeds) if len(speeds) >= LEAST_BALLS else None
    return FullShot(round(fmean(there.spins_rpm), -1), round(fmean(there.landings_deg), 0), speed)


def stops_words(
    club: ClubEvidence, there: SituationFigures, limits: StopLimits, off: Off = ALL_ON
) -> tuple[Said, ...]:
    """What is said of a club's full shots in one situation; nothing of a touch club."""
    shot = full_shot_of(there)
    if shot is None or club.loft_deg is None or club.loft_deg >= limits.touch_from_deg:
        return ()
    return sentences(STOPS, shot, limits, off)


def _rpm(value: float) -> str:
    return f"{value:,.0f} rpm"


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
        and shot.spin_needed_rpm(limits) <= shot.spin_rpm <= limits.spin_high_rpm
    ):
        yield f"A full shot stops: {shot.spin_words}, landing at {shot.landing_words}."


@STOPS.judgement(
    "DEC-S02",
    about="Full swings of a good player's ball speed land flat: they run on. Slower ones may.",
    thresholds=("comparison.stop_ball_speed_ms", LANDING),
)
def lands_flat(shot: FullShot, limits: StopLimits) -> Iterable[str]:
    if shot.is_fast(limits) and not shot.is_steep(limits):
        yield (
            f"Lands at {shot.landing_words}, flatter than the {limits.landing_low_deg:.0f}° and "
            "more that stop a full shot of this ball speed: it runs on."
        )


@STOPS.judgement(
    "DEC-S03",
    about="Full swings spin less than their ball speed wants: they run on.",
    thresholds=SPIN,
)
def spins_little(shot: FullShot, limits: StopLimits) -> Iterable[str]:
    needed = shot.spin_needed_rpm(limits)
    if shot.ball_speed_ms is not None and shot.spin_rpm < needed:
        yield (
            f"{shot.spin_words} is little for this ball speed: it runs on. "
            f"{_rpm(needed)} and more stop it."
        )


@STOPS.judgement(
    "DEC-S04",
    about="Full swings spin more than it takes to stop, at any ball speed.",
    thresholds=(MOST,),
)
def spins_much(shot: FullShot, limits: StopLimits) -> Iterable[str]:
    if shot.spin_rpm > limits.spin_high_rpm:
        yield (
            f"{shot.spin_words}, landing at {shot.landing_words}: more spin than the "
            f"{_rpm(limits.spin_high_rpm)} that stop any full shot. Into the wind it climbs and "
            "falls short."
        )
