"""A measured carry brought to other air: by the ratio of modelled carries, as a band.

What is printed is the measured carry times how much farther the **same launch** flies in the other
air by each of three open models (`ball_forces`). The models differ by a fifth in carry but by two
or three parts in a hundred in that ratio, and their spread is the band. Only the air changes: the
ball is as warm as here, and whatever wind blew is in both figures.

Refused where the device may have normalised its figures already: that would correct them twice.

Where launch, spin or ball speed were not measured a plausible one is taken from carry and loft, and
the band holds what a launch 4 degrees, a spin 20 % or a speed 10 % off either way would do: the
ratio hardly hangs on them. The plausible launch is common practice: a full pitching wedge of 46
degrees that carries 136 yards leaves at 102 mph, 24 degrees and 9,300 rpm; the carry goes with the
speed to the power of 1.2, whatever the club; each degree of loft adds 0.7 degrees of launch, and 6
rpm for each metre a second. It holds for full swings, from about 45 m.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from sessions.maths.air import Air
from sessions.maths.errors import CarryNotBrought, FlightRefused, NotAFigure
from sessions.maths.flight import Launch, flights

Floats = NDArray[np.float64]
Figures = Literal["as flown", "normalised"]

CARRIES_M = (30.0, 250.0)
LOFTS_DEG = (30.0, 75.0)
# The plausible launch, and how far the true one may be from it: common practice.
TYPICAL_LOFT_DEG = 46.0
TYPICAL_LAUNCH_DEG, LAUNCH_PER_LOFT = 24.0, 0.7
TYPICAL_SPIN_PER_MS, SPIN_PER_MS_PER_LOFT = 204.0, 6.0
TYPICAL_SPEED_MS, TYPICAL_CARRY_M, CARRY_EXPONENT = 45.6, 124.4, 1.2
LAUNCH_DOUBT_DEG = 4.0
SPIN_DOUBT = 0.20
SPEED_DOUBT = 0.10
MOST_SPIN_RPM = 13_000.0
# The models themselves are a tenth off; past this the launch is not that of the carry.
MOST_OFF = 0.35

NORMALISED = (
    "The device normalised these figures already: bringing them to other air would correct them "
    "twice."
)
UNANSWERED = (
    "Were these as flown, or did the device normalise them? Home figures wait for that answer."
)


@dataclass(frozen=True)
class FlownCarry:
    """A mean carry as it flew, and what is known of its launch; None where not measured."""

    carry_m: float
    loft_deg: float | None = None
    ball_speed_ms: float | None = None
    launch_deg: float | None = None
    spin_rpm: float | None = None

    @property
    def is_launch_known(self) -> bool:
        """Whether nothing about the launch had to be supposed."""
        return None not in (self.ball_speed_ms, self.launch_deg, self.spin_rpm)


@dataclass(frozen=True)
class CarryBand:
    """A carry in other air: worked out, not measured. `by_model_m` is each model's own figure."""

    low_m: float
    middle_m: float
    high_m: float
    by_model_m: tuple[float, ...]
    is_launch_supposed: bool


def carry_in_other_air(
    flown: FlownCarry, here: Air, there: Air, *, figures: Figures | None
) -> CarryBand:
    """Return one carry brought from the air here to the air there. See `carries_in_other_air`."""
    return carries_in_other_air([flown], here, there, figures=figures)[0]


def carries_in_other_air(
    flown: Sequence[FlownCarry], here: Air, there: Air, *, figures: Figures | None
) -> tuple[CarryBand, ...]:
    """Return measured carries brought from the air here to the air there, each as a band.

    Args:
        flown: carries of 10 to 320 m with a measured launch or a loft of 30 to 75 degrees.
        here: the air they flew in.
        there: the air asked for.
        figures: what the device's figures are; None while nobody has said.

    Raises:
        CarryNotBrought: the figures are normalised or may be, a launch can't be supposed, or the
            models can't carry a ball so far with it.
        NotAFigure: a carry or another figure is missing or no number.
    """
    if figures is None:
        raise CarryNotBrought(UNANSWERED)
    if figures != "as flown":
        raise CarryNotBrought(NORMALISED)
    if not flown:
        raise CarryNotBrought("There is no carry to bring to other air.")
    for each in flown:
        _refuse_carry(each)
    cases = [_cases(each) for each in flown]
    counts = [len(each) for each in cases]
    speed, launch, spin = np.array([case for each in cases for case in each]).T
    airs = np.array([[here.density_kg_m3], [there.density_kg_m3]])
    try:
        modelled = flights(Launch(speed, launch, spin), airs).carry_m
    except FlightRefused as refused:
        raise CarryNotBrought(str(refused)) from refused
    parts = np.split(modelled, np.cumsum(counts)[:-1], axis=2)
    return tuple(_band(each, part) for each, part in zip(flown, parts, strict=True))


def gap_in_other_air(longer: CarryBand, shorter: CarryBand) -> tuple[float, float]:
    """Return the least and the greatest gap between two clubs there, model by model [m].

    The models err together for both clubs, so the gap is narrower than the two bands would say.
    """
    gaps = [a - b for a, b in zip(longer.by_model_m, shorter.by_model_m, strict=True)]
    return min(gaps), max(gaps)


def _refuse_carry(flown: FlownCarry) -> None:
    figures = (flown.loft_deg, flown.ball_speed_ms, flown.launch_deg, flown.spin_rpm)
    if not np.isfinite([flown.carry_m, *(each for each in figures if each is not None)]).all():
        raise NotAFigure("A carry, or what is known of its launch, is not a number.")
    low, high = CARRIES_M
    if not low <= flown.carry_m <= high:
        raise CarryNotBrought(
            f"Carries of {low:g} to {high:g} m can be brought to other air, not {flown.carry_m:g}."
        )
    if None in (flown.launch_deg, flown.spin_rpm):
        if flown.loft_deg is None:
            raise CarryNotBrought(
                "With neither a measured launch nor the club's loft there is no flight to compare."
            )
        if not LOFTS_DEG[0] <= flown.loft_deg <= LOFTS_DEG[1]:
            raise CarryNotBrought(
                f"A plausible launch is known for lofts of {LOFTS_DEG[0]:g} to {LOFTS_DEG[1]:g} "
                f"degrees, not for {flown.loft_deg:g}."
            )


def _cases(flown: FlownCarry) -> list[tuple[float, float, float]]:
    """The launches to try, the likeliest first: speed [m/s], launch [degrees], spin [rpm]."""
    more = 0.0 if flown.loft_deg is None else flown.loft_deg - TYPICAL_LOFT_DEG
    speed = TYPICAL_SPEED_MS * (flown.carry_m / TYPICAL_CARRY_M) ** (1 / CARRY_EXPONENT)
    speeds = _tried(flown.ball_speed_ms, speed, SPEED_DOUBT)
    launch = TYPICAL_LAUNCH_DEG + LAUNCH_PER_LOFT * more
    launches = _tried(flown.launch_deg, launch, LAUNCH_DOUBT_DEG / launch)
    per_ms = TYPICAL_SPIN_PER_MS + SPIN_PER_MS_PER_LOFT * more
    spins = _tried(flown.spin_rpm, min(per_ms * speeds[0], MOST_SPIN_RPM), SPIN_DOUBT)
    return [
        (speeds[0], launches[0], spins[0]),
        *((speed, launches[0], spins[0]) for speed in speeds[1:]),
        *((speeds[0], launch, spins[0]) for launch in launches[1:]),
        *((speeds[0], launches[0], spin) for spin in spins[1:]),
    ]


def _tried(measured: float | None, supposed: float, doubt: float) -> tuple[float, ...]:
    """What was measured; else what is supposed, and that less and more its doubt."""
    if measured is not None:
        return (measured,)
    return supposed, supposed * (1 - doubt), supposed * (1 + doubt)


def _band(flown: FlownCarry, modelled_m: Floats) -> CarryBand:
    """The band from carries by model, air (here, there) and case.

    Raises:
        CarryNotBrought: the models' carry here is nothing like the one that was measured.
    """
    here, there = modelled_m[:, 0], modelled_m[:, 1]
    modelled = float(here[:, 0].mean())
    if abs(modelled / flown.carry_m - 1) > MOST_OFF:
        if flown.ball_speed_ms is None:
            raise CarryNotBrought("A plausible launch is known for full swings only.")
        raise CarryNotBrought(
            f"A ball that starts so carries about {modelled:.0f} m, not {flown.carry_m:.0f}: "
            "carry and launch are not of the same shots."
        )
    ratios = there / here
    likeliest = ratios[:, 0]
    return CarryBand(
        low_m=float(flown.carry_m * ratios.min()),
        middle_m=float(flown.carry_m * likeliest.mean()),
        high_m=float(flown.carry_m * ratios.max()),
        by_model_m=tuple(float(flown.carry_m * ratio) for ratio in likeliest),
        is_launch_supposed=not flown.is_launch_known,
    )
