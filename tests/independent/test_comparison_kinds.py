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
from sessions.maths.comparison_spread import spreads_weighed

A, B = [98.0, 103.0, 100.5, 101.2, 99.1, 104.0], [95.5, 97.0, 99.9, 96.1, 98.3, 97.2]


def from_the_median(values: list[float]) -> np.ndarray:
    n = len(values)
    return np.abs(np.array(values) - np.median(values)) * math.sqrt(n / (n - 1))


@pytest.mark.independent(
    library="scipy",
    call="quad of the noncentral t density, over the central",
    though="the function has the mixture in closed form: here a density is integrated",
)
def test_deviations_are_weighed_as_means_are() -> None:
    # The effect size is normal with variance 1: mix the noncentral t over it, by quadrature.
    t = float(stats.ttest_ind(from_the_median(A), from_the_median(B)).statistic)

    def weighed(effect: float) -> float:
        return float(stats.nct.pdf(t, 10, effect * math.sqrt(3)) * stats.norm.pdf(effect))

    mixed, _ = integrate.quad(weighed, -8, 8, limit=400)
    wanted = math.log(mixed / float(stats.t.pdf(t, 10)))
    assert spreads_weighed(A, B, margin=0.25).log_contradiction == pytest.approx(wanted, abs=1e-5)


@pytest.mark.independent(
    library="scipy",
    call="ttest_ind(a, ratio * b).pvalue at both ends",
    though="the function takes only quantiles and a root from it: here the whole test is asked for",
)
def test_the_interval_of_two_spreads_at_one_look() -> None:
    found = spreads_weighed(A, B, margin=0.25).at_this_look()
    one, other = from_the_median(A), from_the_median(B)
    assert found is not None
    for ratio, way in zip(found, (1, -1), strict=True):
        end = stats.ttest_ind(one, ratio * other)
        assert float(end.pvalue) == pytest.approx(0.10, abs=1e-4)
        assert float(end.statistic) * way > 0


@pytest.mark.independent(
    library="scipy",
    call="levene(center='median'): Brown and Forsythe",
    though="the function takes only quantiles and a root from it: here the whole test is asked for",
)
def test_equal_numbers_are_told_apart_as_brown_and_forsythe_do() -> None:
    weighed = spreads_weighed(A, B, margin=0.25)
    f = float(stats.levene(A, B, center="median").statistic)
    t, freedom = weighed._t(1.0)
    assert freedom == 10
    assert t**2 == pytest.approx(f)


@pytest.mark.independent(
    library="scipy",
    call="beta-binomial: betabinom.pmf over binom.pmf",
    though="the function takes only a root from it: here two mass functions are divided",
)
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
