"""Shares of the balls against the published conditions of the allocation, solved by SciPy."""

import numpy as np
import pytest
from scipy import optimize, special, stats

from sessions.maths.next_trial import Tried, next_trial

HIT = {
    "a": [100.0, 103.0, 97.0, 101.0],
    "b": [98.0, 101.5, 95.0, 99.0],
    "c": [93.0, 96.0, 90.0, 94.5],
}


@pytest.mark.independent(
    library="scipy",
    call="t.cdf of the distance behind, with pooled spread",
    though="both come to the distribution of t: special.stdtr there, stats.t here",
)
def test_the_chance_that_another_club_is_better() -> None:
    found = next_trial([Tried(k, v) for k, v in HIT.items()], margin=1.0, balls_left=9)
    values = np.array(list(HIT.values()))
    spread = np.sqrt(values.var(axis=1, ddof=1).mean())
    behind = values.mean(axis=1)[0] - values.mean(axis=1)[1:] + 1.0
    chance = stats.t.cdf(-behind / (spread * np.sqrt(2 / 4)), 9).sum()
    assert found.chance_of_better == pytest.approx(chance)


@pytest.mark.independent(
    library="scipy",
    call="minimize, logsumexp(-T d^2 / 2(1/a + 1/b))",
    though="the function has a rule in closed form: here a bound is minimised outright",
)
def test_the_next_balls_go_to_whom_the_best_shares_leave_short() -> None:
    # The bound that the allocation makes small, minimised outright over shares of many balls.
    behind = np.array([1.6, 6.6])
    start = np.array([0.4, 0.2])

    def bound(shares: np.ndarray) -> float:
        lead = 1 - shares.sum()
        if lead <= 0 or (shares <= 0).any():
            return 1e9
        return float(special.logsumexp(-400 * behind**2 / 2 / (1 / shares + 1 / lead)))

    best = optimize.minimize(bound, start, method="Nelder-Mead").x
    # The second is hit far more than the third, about as often as the leader.
    assert best[0] > 5 * best[1]
    clubs = [Tried("a", HIT["a"] * 2), Tried("b", HIT["b"]), Tried("c", HIT["c"])]
    assert next_trial(clubs, margin=1.0, balls_left=9, sure_enough=0.999).key == "b"
