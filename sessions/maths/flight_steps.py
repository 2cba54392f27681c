"""The steps of a ball's flight: the equations of motion and their integration.

What `flight` asks for is worked out here, with x to the target, y to the **left**, z up. The last
axis of every array is the ball: every shot by the first model, then by the second, and so on.
Letters in the sums: c x, y, z; f the ball's own frame; n balls.

The method is Dormand and Prince's of fifth order (key ``dormand-prince-1980``), in fixed steps.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sessions.maths.ball_forces import ForceModel
from sessions.maths.errors import FlightRefused

Floats = NDArray[np.float64]

GRAVITY_MS2 = 9.80665
# The heaviest and smallest ball that the Rules allow, which is what nearly every ball is.
BALL_MASS_KG = 0.04593
BALL_RADIUS_M = 0.04267 / 2
BALL_AREA_M2 = np.pi * BALL_RADIUS_M**2
SPIN_DECAY = 2e-5
RAD_S_PER_RPM = np.pi / 30
LONGEST_FLIGHT_S = 60.0
# No air moves past the ball: any spin factor would do, and none may divide by nothing.
STILL_MS = 1e-6
# A ball slows to half: its later steps may be longer at the same error.
STEP_GROWTH = 0.14
MOST_STEP_GROWTH = 2.6
STAGES = (
    (1 / 5,),
    (3 / 40, 9 / 40),
    (44 / 45, -56 / 15, 32 / 9),
    (19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729),
    (9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656),
)
WEIGHTS = (35 / 384, 0.0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84)


@dataclass(frozen=True)
class Shots:
    """The launches as flat arrays of one length."""

    speed_ms: Floats
    launch_deg: Floats
    spin_rpm: Floats
    side_deg: Floats
    axis_deg: Floats
    density_kg_m3: Floats

    def part(self, first: int, last: int) -> "Shots":
        return Shots(
            self.speed_ms[first:last],
            self.launch_deg[first:last],
            self.spin_rpm[first:last],
            self.side_deg[first:last],
            self.axis_deg[first:last],
            self.density_kg_m3[first:last],
        )


@dataclass(frozen=True)
class Balls:
    """Balls at the start, seen from the moving air, each in a frame of its own.

    ``frame`` holds, for each ball, the start's direction, the direction of the first lift and the
    spin axis, as x to the target, y to the left, z up. In it the spin axis is the third one, so
    the lift only turns the first two components of the velocity. Velocities are through the air;
    the wind is added to the places at the end. A state is velocity (three components) and spin.
    ``pull`` is rho A / 2m.
    """

    frame: Floats
    start: Floats
    wind: Floats
    gravity: Floats
    pull: Floats
    models: tuple[ForceModel, ...]

    @classmethod
    def leaving(cls, shots: Shots, wind: Floats, models: tuple[ForceModel, ...]) -> "Balls":
        up, right = np.radians(shots.launch_deg), np.radians(shots.side_deg)
        tilt = np.radians(shots.axis_deg)
        along = np.stack([np.cos(up) * np.cos(right), -np.cos(up) * np.sin(right), np.sin(up)])
        # At right angles to the start: the axis of plain backspin lies level and points right, the
        # other points up as the ball flies. Tilted away from that one, the lift turns to the right.
        level = np.stack([-np.sin(right), -np.cos(right), np.zeros_like(up)])
        upward = np.stack([-np.sin(up) * np.cos(right), np.sin(up) * np.sin(right), np.cos(up)])
        axis = np.cos(tilt) * level - np.sin(tilt) * upward
        lift = np.cos(tilt) * upward + np.sin(tilt) * level
        frame = np.stack([along, lift, axis])
        velocity = -np.einsum("fcn,c->fn", frame, wind)
        velocity[0] += shots.speed_ms
        start = np.concatenate([velocity, shots.spin_rpm[None] * RAD_S_PER_RPM])
        pull = shots.density_kg_m3 * BALL_AREA_M2 / (2 * BALL_MASS_KG)
        frame = np.tile(frame, len(models))
        return cls(
            frame=frame,
            start=np.tile(start, len(models)),
            wind=wind,
            gravity=-GRAVITY_MS2 * frame[:, 2],
            pull=np.tile(pull, len(models)),
            models=models,
        )

    def change(self, state: Floats) -> Floats:
        """Return the rate of change of a state."""
        velocity, spin = state[:3], state[3]
        speed = np.sqrt(np.einsum("fn,fn->n", velocity, velocity))
        np.maximum(speed, STILL_MS, out=speed)
        factor = spin / speed
        factor *= BALL_RADIUS_M
        drag, lift = self._coefficients(factor)
        push = self.pull * speed
        drag *= push
        lift *= push
        rate = np.empty_like(state)
        np.multiply(velocity, drag, out=rate[:3])
        np.subtract(self.gravity, rate[:3], out=rate[:3])
        rate[0] -= lift * velocity[1]
        rate[1] += lift * velocity[0]
        speed *= -SPIN_DECAY / BALL_RADIUS_M
        np.multiply(speed, spin, out=rate[3])
        return rate

    def _coefficients(self, factor: Floats) -> tuple[Floats, Floats]:
        if len(self.models) == 1:
            return self.models[0].drag(factor), self.models[0].lift(factor)
        drag, lift = np.empty_like(factor), np.empty_like(factor)
        shots = factor.size // len(self.models)
        for row, model in enumerate(self.models):
            those = slice(row * shots, (row + 1) * shots)
            drag[those], lift[those] = model.drag(factor[those]), model.lift(factor[those])
        return drag, lift

    def upward(self, vectors: Floats) -> Floats:
        """Return the upward component of vectors in the balls' own frames."""
        return np.asarray(np.einsum("fn,fn->n", self.frame[:, 2], vectors[:3]))

    def seen_from_the_tee(self, vectors: Floats) -> Floats:
        """Return vectors in the balls' own frames as x to the target, y to the left, z up."""
        return np.asarray(np.einsum("fcn,fn->cn", self.frame, vectors))


@dataclass(frozen=True)
class Path:
    """Every step of every ball, from the start on: time, height and climb have the step first."""

    time_s: Floats
    height: Floats
    climb: Floats
    places: tuple[Floats, ...]
    states: tuple[Floats, ...]
    rates: tuple[Floats, ...]


def flown(balls: Balls, landing_m: float, step_s: float) -> Path:
    """Step until every ball falls below the landing, in ever longer steps as the balls slow down.

    Raises:
        FlightRefused: a ball is still in the air after a minute.
    """
    times, places, states = [0.0], [np.zeros_like(balls.start[:3])], [balls.start]
    rates = [balls.change(balls.start)]
    # The wind has no part in height and climb.
    heights, climbs = [balls.upward(places[0])], [balls.upward(balls.start)]
    while not ((heights[-1] <= landing_m) & (climbs[-1] < 0)).all():
        if times[-1] > LONGEST_FLIGHT_S:
            raise FlightRefused("A ball with these figures never comes down where it should.")
        lasts = step_s * min(1 + STEP_GROWTH * (len(times) - 1), MOST_STEP_GROWTH)
        place, state = _stepped(balls, places[-1], states[-1], rates[-1], lasts)
        times.append(times[-1] + lasts)
        places.append(place)
        states.append(state)
        rates.append(balls.change(state))
        heights.append(balls.upward(place))
        climbs.append(balls.upward(state))
    return Path(
        np.array(times),
        np.stack(heights),
        np.stack(climbs),
        tuple(places),
        tuple(states),
        tuple(rates),
    )


def _stepped(
    balls: Balls, place: Floats, state: Floats, rate: Floats, lasts_s: float
) -> tuple[Floats, Floats]:
    """One step for velocity and spin, and with the same weights for the place they lead to."""
    rates = np.empty((len(WEIGHTS), *state.shape))
    velocities = np.empty((len(WEIGHTS), *place.shape))
    rates[0], velocities[0] = rate, state[:3]
    flat = rates.reshape(len(WEIGHTS), -1)
    for stage, shares in enumerate(STAGES, start=1):
        at = state + (lasts_s * np.array(shares) @ flat[:stage]).reshape(state.shape)
        rates[stage], velocities[stage] = balls.change(at), at[:3]
    weights = lasts_s * np.array(WEIGHTS)
    moved = (weights @ velocities.reshape(len(WEIGHTS), -1)).reshape(place.shape)
    return place + moved, state + (weights @ flat).reshape(state.shape)
