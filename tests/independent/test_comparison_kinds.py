"""Spreads, strikes and ratings watched after every ball, against quadrature and other libraries."""

import math

import numpy as np
import pytest
from scipy import integrate, stats
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

from sessions.maths.comparison_counts import (
    log_even_contradiction,
    log_share_contradiction,
    ratings_weighed,
    shares_weighed,
)
from sessions.maths.comparison_spread import log_f_contradiction, spreads_weighed


@pytest.mark.independent(library="scipy", call="quad of f.pdf(F / rho) / rho over a log-normal rho")
@pytest.mark.parametrize(("f", "n_a", "n_b"), [(4.0, 5, 5), (0.3, 9, 7), (2.5, 20, 12)])
def test_the_mixture_over_variance_ratios(f: float, n_a: int, n_b: int) -> None:
    def weighed(log_ratio: float) -> float:
        ratio = math.exp(log_ratio)
        return float(stats.f.pdf(f / ratio, n_a, n_b) / ratio * stats.norm.pdf(log_ratio))

    mixed, _ = integrate.quad(weighed, -9, 9, limit=400)
    wanted = math.log(mixed / float(stats.f.pdf(f, n_a, n_b)))
    assert log_f_contradiction(f, n_a, n_b) == pytest.approx(wanted, abs=1e-6)


@pytest.mark.independent(library="scipy", call="f.ppf for the interval of a variance ratio")
def test_the_interval_of_two_spreads_at_one_look() -> None:
    a, b = [98.0, 103.0, 100.5, 101.2, 99.1, 104.0], [95.5, 97.0, 99.9, 96.1, 98.3]
    found = spreads_weighed(a, b, margin=0.25).at_this_look()
    ratio = np.var(a, ddof=1) / np.var(b, ddof=1)
    assert found is not None
    assert found[0] == pytest.approx(math.sqrt(ratio / stats.f.isf(0.05, 5, 4)))
    assert found[1] == pytest.approx(math.sqrt(ratio / stats.f.isf(0.95, 5, 4)))


@pytest.mark.independent(library="scipy", call="beta-binomial: betabinom.pmf over binom.pmf")
def test_mixed_chances_are_beta_binomial() -> None:
    # One order of many: the counts' number of orders stands above and below, and falls out.
    mixed = stats.betabinom.logpmf(3, 8, 0.5, 0.5) + stats.betabinom.logpmf(1, 10, 0.5, 0.5)
    alike = stats.binom.logpmf(3, 8, 4 / 18) + stats.binom.logpmf(1, 10, 4 / 18)
    assert log_share_contradiction((3, 1), (8, 10), 0.0) == pytest.approx(mixed - alike)
    even = stats.betabinom.logpmf(5, 6, 0.5, 0.5) - stats.binom.logpmf(5, 6, 0.5)
    assert log_even_contradiction(5, 1, 0.5) == pytest.approx(even)


@pytest.mark.independent(library="statsmodels", call="confint_proportions_2indep(newcomb)")
def test_the_interval_of_two_shares_at_one_look() -> None:
    found = shares_weighed((3, 1), (8, 10), margin=0.1).at_this_look()
    wanted = confint_proportions_2indep(3, 8, 1, 10, method="newcomb", alpha=0.10)
    assert found == pytest.approx(wanted, abs=1e-6)


@pytest.mark.independent(library="statsmodels", call="proportion_confint(method='wilson')")
def test_the_interval_of_a_share_of_rounds_at_one_look() -> None:
    found = ratings_weighed([5, 4, 4, 3, 2], [3, 3, 2, 4, 2], margin=0.2).at_this_look()
    wanted = proportion_confint(3, 4, alpha=0.10, method="wilson")
    assert found == pytest.approx(wanted)
