"""Where a flight is highest and where it lands: read off the path between two steps.

Between the ends of a step a ball's place is the curve of fifth degree with both ends' places,
velocities and accelerations; the roots on it are found by Newton's method.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sessions.maths.errors import FlightRefused
from sessions.maths.flight_steps import RAD_S_PER_RPM, STILL_MS, Balls, Floats, Path

Steps = NDArray[np.int_]
NEWTON_TURNS = 6


def landed(balls: Balls, path: Path, landing_m: float) -> dict[str, Floats]:
    """Read apex and landing off a path, right positive, by the names of `flight.Flights`.

    Raises:
        FlightRefused: a ball's apex is below the landing.
    """
    top, top_share, apex = _top(balls, path)
    if (apex <= landing_m).any():
        raise FlightRefused("A ball with these figures never climbs to where it should land.")
    later = np.arange(len(path.height) - 1)[:, None] >= top
    step = (later & (path.height[1:] <= landing_m)).argmax(axis=0)
    lasts = path.time_s[step + 1] - path.time_s[step]
    curve, spins = _curve(path, step, lasts)
    above = np.where(step == top, top_share, 0.0)
    share = _share_of_landing(curve.upward(balls), above, landing_m)
    time = path.time_s[step] + share * lasts
    x, y, _ = balls.seen_from_the_tee(curve.at(share)) + balls.wind[:, None] * time
    velocity = balls.seen_from_the_tee(curve.slope(share) / lasts) + balls.wind[:, None]
    over_ground = np.hypot(velocity[0], velocity[1])
    return {
        "carry_m": np.hypot(x, y),
        "side_m": 0.0 - y,
        "apex_m": apex,
        "time_s": time,
        "landing_deg": np.degrees(np.arctan2(-velocity[2], over_ground)),
        "landing_speed_ms": np.hypot(over_ground, velocity[2]),
        "landing_spin_rpm": _cubic(spins, share) / RAD_S_PER_RPM,
    }


@dataclass(frozen=True)
class _Curve:
    """Curves of fifth degree in the share of a step; the first axis of `terms` is the power."""

    terms: Floats

    def upward(self, balls: Balls) -> "_Curve":
        """Return the height alone."""
        return _Curve(np.stack([balls.upward(term) for term in self.terms]))

    def at(self, share: Floats) -> Floats:
        return _value(list(self.terms), share)

    def slope(self, share: Floats) -> Floats:
        return _value([power * self.terms[power] for power in range(1, 6)], share)

    def bend(self, share: Floats) -> Floats:
        powers = range(2, 6)
        return _value([power * (power - 1) * self.terms[power] for power in powers], share)


def _value(terms: Sequence[Floats], share: Floats) -> Floats:
    total = terms[-1]
    for term in terms[-2::-1]:
        total = total * share + term
    return total


def _curve(path: Path, step: Steps, lasts: Floats) -> tuple[_Curve, tuple[Floats, ...]]:
    """Return each ball's place in a step of its own; its spin and what that gains at both ends."""
    groups = [(one, np.nonzero(step == one)[0]) for one in np.unique(step)]
    place, place_after = _both(path.places, groups)
    state, state_after = _both(path.states, groups)
    rate, rate_after = _both(path.rates, groups)
    gain, gain_after = lasts * state[:3], lasts * state_after[:3]
    bend, bend_after = lasts**2 * rate[:3], lasts**2 * rate_after[:3]
    goes, turns = place_after - place - gain - bend / 2, gain_after - gain - bend
    bends = bend_after - bend
    terms = [
        place,
        gain,
        bend / 2,
        10 * goes - 4 * turns + bends / 2,
        -15 * goes + 7 * turns - bends,
        6 * goes - 3 * turns + bends / 2,
    ]
    spins = (state[3], lasts * rate[3], state_after[3], lasts * rate_after[3])
    return _Curve(np.stack(terms)), spins


def _both(values: Sequence[Floats], groups: Sequence[tuple[int, Steps]]) -> tuple[Floats, Floats]:
    """Return each ball's values at the start and at the end of its own step."""
    before, after = np.empty_like(values[0]), np.empty_like(values[0])
    for step, balls in groups:
        before[:, balls] = values[step][:, balls]
        after[:, balls] = values[step + 1][:, balls]
    return before, after


def _cubic(ends: tuple[Floats, ...], share: Floats) -> Floats:
    """The cubic with the values and gains of both ends of a step, at a share of it."""
    value, gain, value_after, gain_after = ends
    rest = 1 - share
    return np.asarray(
        rest * rest * ((1 + 2 * share) * value + share * gain)
        + share * share * ((3 - 2 * share) * value_after - rest * gain_after)
    )


def _top(balls: Balls, path: Path) -> tuple[Steps, Floats, Floats]:
    """Return the step with the highest point, the share of it at which that is, and its height."""
    # It lies in the step after the highest end of a step, or in the one before.
    every = np.arange(path.height.shape[1])
    highest = path.height.argmax(axis=0)
    step = np.where(path.climb[highest, every] > 0, highest, highest - 1)
    height = _curve(path, step, path.time_s[step + 1] - path.time_s[step])[0].upward(balls)
    climb, climb_after = path.climb[step, every], path.climb[step + 1, every]
    share = climb / (climb - climb_after)
    for _ in range(NEWTON_TURNS // 2):
        bend = np.minimum(height.bend(share), -STILL_MS)
        share = np.clip(share - height.slope(share) / bend, 0.0, 1.0)
    return step, share, height.at(share)


def _share_of_landing(height: _Curve, above: Floats, landing_m: float) -> Floats:
    """The share of a step at which the height comes down to the landing.

    Between where it is above and the step's end the height only falls, so there is one. A ball that
    climbs and lands within the step begins from as long a fall as its climb.
    """
    share = np.where(above > 0, np.minimum(2 * above, 1.0), 1.0)
    for _ in range(NEWTON_TURNS):
        slope = np.minimum(height.slope(share), -STILL_MS)
        share = np.clip(share - (height.at(share) - landing_m) / slope, above, 1.0)
    return share
