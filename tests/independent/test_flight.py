"""Flights against SciPy's solve_ivp, with the equations written again, right-handed to the right.

Here x is to the target, y up, z to the player's right: other axes than the tested function's.
"""

import math

import numpy as np
import pytest
from scipy.integrate import RK45, solve_ivp

from sessions.maths import flight_steps
from sessions.maths.ball_forces import MODELS
from sessions.maths.flight import Launch, Wind, flights

MASS, RADIUS, GRAVITY = 0.04593, 0.021335, 9.80665

COEFFICIENTS = {
    "Smits and Smith": lambda s: (0.24 + 0.18 * s, 0.54 * s**0.4),
    "Bearman and Harvey": lambda s: (0.2106 + 0.42 * s, 0.5844 * s**0.5378),
    "Lyu and others": lambda s: (
        0.24 + 0.18 * s,
        1.99 * s - 3.25 * s * s if s < 0.30615 else 1.99**2 / (4 * 3.25),
    ),
}


def landing(model: str, shot: tuple[float, ...], density: float, wind: np.ndarray, ground: float):
    """Place, velocity, spin and time of the landing, and the apex, by solve_ivp."""
    v, up, spin, right, tilt = shot
    up, right, tilt = (math.radians(each) for each in (up, right, tilt))
    start = np.array([math.cos(up) * math.cos(right), math.sin(up), math.cos(up) * math.sin(right)])
    level = np.array([-math.sin(right), 0.0, math.cos(right)])  # to the right, across the start
    lift = math.cos(tilt) * np.cross(level, start) + math.sin(tilt) * level
    axis = np.cross(start, lift)

    def change(_, y):
        through_air = y[3:6] - wind
        speed = np.linalg.norm(through_air)
        drag, rise = COEFFICIENTS[model](RADIUS * y[6] / speed)
        force = 0.5 * density * math.pi * RADIUS**2 * speed**2 / MASS
        along = through_air / speed
        pull = force * (rise * np.cross(axis, along) - drag * along)
        pull[1] -= GRAVITY
        return [*y[3:6], *pull, -2e-5 * y[6] * speed / RADIUS]

    def down(_, y):
        return y[1] - ground

    def top(_, y):
        return y[4]

    down.terminal, down.direction, top.direction = True, -1, -1
    begin = [0, 0, 0, *(v * start), spin * 2 * math.pi / 60]
    done = solve_ivp(change, (0, 30), begin, "DOP853", rtol=1e-9, atol=1e-9, events=(down, top))
    return done.t[-1], done.y[:, -1], done.y_events[1][0][1]


@pytest.mark.independent(
    library="SciPy", call="solve_ivp(..., method='DOP853', rtol=1e-9, events=(landing, apex))"
)
@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.name)
def test_flights_in_wind_land_where_scipy_says(model) -> None:
    random = np.random.default_rng(7)
    shots = np.column_stack(
        [random.uniform(*limits, 8) for limits in
         ((18, 58), (14, 45), (2500, 12_000), (-6, 6), (-15, 15))]
    )  # fmt: skip
    for ground, to in ((0.0, 35.0), (-8.0, -120.0)):
        ours = flights(Launch(*shots.T), 1.18, wind=Wind(6, to), landing_m=ground, models=(model,))
        blows = 6 * np.array([math.cos(math.radians(to)), 0, math.sin(math.radians(to))])
        for n, shot in enumerate(shots):
            time, end, apex = landing(model.name, tuple(shot), 1.18, blows, ground)
            assert ours.carry_m[0, n] == pytest.approx(math.hypot(end[0], end[2]), abs=0.001)
            assert ours.side_m[0, n] == pytest.approx(end[2], abs=0.001)
            assert ours.apex_m[0, n] == pytest.approx(apex, abs=0.001)
            assert ours.time_s[0, n] == pytest.approx(time, abs=1e-4)
            flat, fall = math.hypot(end[3], end[5]), -end[4]
            assert ours.landing_speed_ms[0, n] == pytest.approx(math.hypot(flat, fall), abs=0.001)
            descent = math.degrees(math.atan2(fall, flat))
            assert ours.landing_deg[0, n] == pytest.approx(descent, abs=0.005)
            rpm = end[6] * 60 / (2 * math.pi)
            assert ours.landing_spin_rpm[0, n] == pytest.approx(rpm, abs=0.5)


@pytest.mark.independent(library="SciPy", call="RK45.A and RK45.B, the same method's coefficients")
def test_the_coefficients_of_the_method() -> None:
    for stage, shares in enumerate(flight_steps.STAGES, start=1):
        assert shares == pytest.approx(RK45.A[stage][:stage])
    assert pytest.approx(RK45.B) == flight_steps.WEIGHTS
