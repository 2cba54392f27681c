"""Strengths of heads against choix, and chances against an integral over the doubt."""

import choix
import numpy as np
import pytest

from sessions.maths.head_strengths import HeadStrength, HeadStrengths, head_strengths

HEADS = ("high", "mid", "low", "softened")
TOLD = [
    ("high", "mid"), ("high", "low"), ("mid", "low"), ("softened", "low"), ("high", "softened"),
    ("mid", "softened"), ("low", "mid"), ("high", "mid"), ("softened", "mid"), ("high", "low"),
]  # fmt: skip


@pytest.mark.independent(library="choix", call="opt_pairwise(n, pairs, alpha=1 / (2 sd^2))")
@pytest.mark.parametrize("prior_sd", [0.5, 1.0, 3.0])
def test_strengths_under_a_belief(prior_sd: float) -> None:
    found = head_strengths(HEADS, TOLD, prior_sd=prior_sd)
    pairs = [(HEADS.index(a), HEADS.index(b)) for a, b in TOLD]
    # choix adds alpha times the sum of squares: a normal belief of variance 1 / (2 alpha).
    wanted = choix.opt_pairwise(4, pairs, alpha=1 / (2 * prior_sd**2), tol=1e-10)
    ours = {head.head_id: head.strength for head in found.heads}
    assert [ours[head] for head in HEADS] == pytest.approx(wanted - wanted.mean(), abs=1e-6)


@pytest.mark.independent(library="choix", call="opt.PairwiseFcts(pairs, alpha).hessian")
def test_the_doubt_is_the_curvature() -> None:
    found = head_strengths(HEADS, TOLD)
    pairs = [(HEADS.index(a), HEADS.index(b)) for a, b in TOLD]
    top = choix.opt_pairwise(4, pairs, alpha=0.5, tol=1e-10)
    inverse = np.linalg.inv(choix.opt.PairwiseFcts(pairs, 0.5).hessian(top))
    centre = np.eye(4) - 0.25
    assert np.asarray(found.covariance) == pytest.approx(centre @ inverse @ centre, abs=1e-6)


def chance_by_quadrature(apart: float, variance: float) -> float:
    """The logistic of a normal difference, integrated: 200 points of Gauss and Hermite."""
    points, weights = np.polynomial.hermite_e.hermegauss(200)
    logistic = 1 / (1 + np.exp(-(apart + np.sqrt(variance) * points)))
    return float((weights * logistic).sum() / np.sqrt(2 * np.pi))


# The approximation is a probit's slope matched at nought: it is worth two points in a hundred.
@pytest.mark.independent(
    library="numpy",
    call="polynomial.hermite_e.hermegauss(200)",
    though="the function has an approximation in closed form: here it is integrated",
)
@pytest.mark.parametrize("apart", [0.0, 0.4, 1.0, 2.0, 3.5])
@pytest.mark.parametrize("variance", [0.01, 0.3, 1.0, 2.0, 4.0])
def test_a_chance_takes_the_doubt_in(apart: float, variance: float) -> None:
    heads = (HeadStrength("a", apart, 0.0, 0, 0), HeadStrength("b", 0.0, 0.0, 0, 0))
    # Variances and a covariance that leave the wanted variance of the difference.
    covariance = np.array([[variance, 0.25 * variance], [0.25 * variance, 0.5 * variance]])
    found = HeadStrengths(heads, ("a", "b"), covariance)
    assert found.chance("a", "b") == pytest.approx(chance_by_quadrature(apart, variance), abs=0.02)
    assert found.chance("b", "a") == pytest.approx(1 - found.chance("a", "b"))


@pytest.mark.independent(
    library="numpy",
    call="polynomial.hermite_e.hermegauss(200)",
    though="the function has an approximation in closed form: here it is integrated",
)
def test_a_chance_after_six_of_six() -> None:
    found = head_strengths(("a", "b"), [("a", "b")] * 6)
    apart = found.heads[0].strength - found.heads[1].strength
    one = np.array([1.0, -1.0])
    variance = float(one @ found.covariance @ one)
    by_integral = chance_by_quadrature(apart, variance)
    assert found.chance("a", "b") == pytest.approx(by_integral, abs=0.005)
    # A point estimate would be surer than the integral by far more than that.
    assert 1 / (1 + np.exp(-apart)) - by_integral > 0.03
