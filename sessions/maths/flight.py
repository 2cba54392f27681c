"""How a golf ball flies: drag, lift from spin and its axis, spin decay, wind, in three dimensions.

A modelled carry is never shown as a measurement. It serves ratios: other air, wind, slope.

One border is crossed here and nowhere else: the equations have x to the target, y to the **left**,
z up; everything that goes in or comes out is **positive to the player's right**.

Assumptions: the air is the same along the whole flight; the spin axis keeps its direction and only
the spin slows, at 2e-5 V omega / r (keys ``smits-smith-1994``, ``penner-2001``); no bounce and no
roll. Equations of motion as Penner's (key ``penner-2001``), the lift along axis x velocity.

Method: Runge-Kutta of fifth order over all shots and models at once, in fixed steps that grow as
balls slow; apex and landing are read off the curve between two steps. The carry is within 1 mm of a
far finer solution.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sessions.maths.ball_forces import MODELS, ForceModel
from sessions.maths.errors import FlightRefused
from sessions.maths.flight_end import landed
from sessions.maths.flight_steps import Balls, Shots, flown

Floats = NDArray[np.float64]

STEP_S = 0.35
# Shots flown at once: every step is kept, a few kilobytes a shot.
BLOCK = 4096
SPEEDS_MS = (1.0, 110.0)
LAUNCHES_DEG = (0.1, 89.0)
SPINS_RPM = (0.0, 20_000.0)
SIDES_DEG = (-90.0, 90.0)
DENSITIES_KG_M3 = (0.0, 2.0)
WINDS_MS = (0.0, 40.0)
LANDINGS_M = (-200.0, 200.0)


@dataclass(frozen=True)
class Launch:
    """How balls leave the face: floats, or arrays that broadcast to one shape.

    ``launch_deg`` is up from the ground, ``side_deg`` the start to the right of the target;
    ``axis_deg`` tilts the spin axis so that positive curves the ball to the right. The axis is at
    right angles to the start: a golf ball has no rifle spin.
    """

    speed_ms: ArrayLike
    launch_deg: ArrayLike
    spin_rpm: ArrayLike
    side_deg: ArrayLike = 0.0
    axis_deg: ArrayLike = 0.0


@dataclass(frozen=True)
class Wind:
    """A steady wind [m/s], blowing to an angle from the target line: 0 helps, 90 to the right."""

    speed_ms: float = 0.0
    to_deg: float = 0.0

    def blows(self) -> Floats:
        """Return the wind with x to the target, y to the left, z up [m/s]."""
        to = math.radians(self.to_deg)
        return self.speed_ms * np.array([math.cos(to), -math.sin(to), 0.0])


@dataclass(frozen=True)
class Flights:
    """Where and how balls land by each model: arrays of the shape (models, *shots).

    ``carry_m`` is the straight distance over the ground from tee to landing, ``side_m`` how far
    right of the target line it ends; ``apex_m`` is the greatest height above the tee.
    """

    carry_m: Floats
    side_m: Floats
    apex_m: Floats
    time_s: Floats
    landing_deg: Floats
    landing_speed_ms: Floats
    landing_spin_rpm: Floats


NO_WIND = Wind()


def flights(
    launch: Launch,
    density_kg_m3: ArrayLike,
    *,
    wind: Wind = NO_WIND,
    landing_m: float = 0.0,
    models: Sequence[ForceModel] = MODELS,
    step_s: float = STEP_S,
) -> Flights:
    """Return the flights of shots by each model.

    Args:
        launch: the shots; speeds 1 to 110 m/s, launch 0.1 to 89 degrees, spin to 20,000 rpm.
        density_kg_m3: of the air, broadcast with the shots; 0 is a vacuum.
        wind: the same for all.
        landing_m: height of the ground at the landing above the tee (negative: below).
        models: drag and lift; the first axis of what is returned.
        step_s: the integration's first step; later ones are up to 2.6 times as long.

    Raises:
        FlightRefused: no shot, a figure missing or not believable, or a ball that never comes
            down at that height.
    """
    shots, shape = _shots(launch, density_kg_m3)
    _within("wind", np.asarray(wind.speed_ms, float), WINDS_MS, "m/s")
    _within("wind's direction", np.asarray(wind.to_deg, float), (-360.0, 360.0), "degrees")
    _within("landing height", np.asarray(landing_m, float), LANDINGS_M, "m")
    if not models or not 0 < step_s <= 1:
        raise FlightRefused("A flight needs a model, and a step of up to a second.")
    blocks = []
    for first in range(0, shots.speed_ms.size, BLOCK):
        balls = Balls.leaving(shots.part(first, first + BLOCK), wind.blows(), tuple(models))
        blocks.append(landed(balls, flown(balls, landing_m, step_s), landing_m))
    return Flights(
        **{
            name: np.concatenate(
                [block[name].reshape(len(models), -1) for block in blocks], axis=1
            ).reshape(len(models), *shape)
            for name in blocks[0]
        }
    )


def _shots(launch: Launch, density_kg_m3: ArrayLike) -> tuple[Shots, tuple[int, ...]]:
    """Flatten and refuse: what comes back is finite, believable and at least one shot."""
    asked = (
        ("ball speed", launch.speed_ms, SPEEDS_MS, "m/s"),
        ("launch", launch.launch_deg, LAUNCHES_DEG, "degrees"),
        ("spin", launch.spin_rpm, SPINS_RPM, "rpm"),
        ("start direction", launch.side_deg, SIDES_DEG, "degrees"),
        ("spin axis", launch.axis_deg, SIDES_DEG, "degrees"),
        ("air density", density_kg_m3, DENSITIES_KG_M3, "kg/m3"),
    )
    try:
        arrays = np.broadcast_arrays(*(np.asarray(value, float) for _, value, _, _ in asked))
    except (TypeError, ValueError) as wrong:
        raise FlightRefused("The figures of the shots do not belong together.") from wrong
    if not arrays[0].size:
        raise FlightRefused("There is no shot to fly.")
    for (name, _, limits, unit), array in zip(asked, arrays, strict=True):
        _within(name, array, limits, unit)
    return Shots(*(array.reshape(-1) for array in arrays)), arrays[0].shape


def _within(name: str, values: Floats, limits: tuple[float, float], unit: str) -> None:
    if not np.isfinite(values).all():
        raise FlightRefused(f"The {name} is missing or not a number.")
    low, high = limits
    wrong = values[(values < low) | (values > high)]
    if wrong.size:
        raise FlightRefused(
            f"The {name} of {wrong.flat[0]:g} {unit} is not believable; "
            f"{low:g} to {high:g} {unit} are."
        )
