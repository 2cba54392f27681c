"""The always-valid interval against numerical integration and against pooled spreads elsewhere."""

import math

import numpy as np
import pytest
from scipy import integrate, stats
from statsmodels.stats.power import TTestIndPower
from statsmodels.stats.weightstats import CompareMeans, DescrStatsW

from sessions.maths.comparison import (
    difference_of_clubs,
    means_weighed,
)
from sessions.maths.comparison_boundary import (
    always_valid_t,
    balls_to_call,
    balls_to_see,
    contradiction_needed,
)
from sessions.maths.comparison_error import NO_OTHERS, OtherBlocks


@pytest.mark.independent(
    library="scipy",
    call="quad of the noncentral t density, over the central",
    though="the function has the mixture in closed form: here a density is integrated",
)
@pytest.mark.parametrize(("n_a", "n_b"), [(5, 5), (8, 12), (30, 30)])
def test_at_the_boundary_the_mixture_weighs_as_much_as_is_needed(n_a: int, n_b: int) -> None:
    # The effect size is normal with variance 6: mix the noncentral t over it, by quadrature.
    t, freedom = always_valid_t(n_a, n_b, 0.10), n_a + n_b - 2
    root = math.sqrt(n_a * n_b / (n_a + n_b))

    def weighed(effect: float) -> float:
        return float(
            stats.nct.pdf(t, freedom, effect * root) * stats.norm.pdf(effect, scale=math.sqrt(6))
        )

    mixed, _ = integrate.quad(weighed, -15, 15, limit=400)
    assert mixed / stats.t.pdf(t, freedom) == pytest.approx(contradiction_needed(0.10), rel=1e-4)


@pytest.mark.independent(library="numpy", call="a random walk watched from the fifth ball a side")
def test_a_difference_of_known_spread_is_left_out_as_rarely_as_is_claimed() -> None:
    rng = np.random.default_rng(20261124)
    # Sums of 1,000 balls' differences: standard deviation of the mean difference is sqrt(2/n).
    balls = np.arange(1, 1001)
    z = rng.normal(0, 1, (4000, 1000)).cumsum(axis=1) / np.sqrt(balls)
    r = 1 / (1 + 6.0 * balls / 2)
    weight = np.sqrt(r) * np.exp(z**2 / 2 * (1 - r))
    ever = (weight[:, 4:] >= contradiction_needed(0.10)).any(axis=1).mean()
    # At most 10 %, and a good part of it by a thousand balls: the bound is not idle.
    assert 0.05 <= ever <= 0.10


@pytest.mark.independent(library="statsmodels", call="TTestIndPower().solve_power(d, 0.05, 0.8)")
@pytest.mark.parametrize("spreads", [0.3, 0.5, 0.75, 1.0, 1.5, 2.0])
def test_the_balls_that_show_one_margin(spreads: float) -> None:
    wanted = TTestIndPower().solve_power(effect_size=spreads, alpha=0.05, power=0.8)
    assert balls_to_see(spreads * 4.0, 4.0) == pytest.approx(wanted, abs=1.0)


@pytest.mark.independent(library="numpy", call="simulation: clubs a margin apart, watched")
@pytest.mark.parametrize("spreads", [1.0, 1.5, 2.0, 3.0])
def test_so_many_balls_call_a_difference_of_one_margin_in_four_of_five_cases(
    spreads: float,
) -> None:
    rng = np.random.default_rng(20261125)
    tries, called, balls = 300, 0, balls_to_call(spreads, 0.10)
    for _ in range(tries):
        a, b = rng.normal(spreads, 1, balls).tolist(), rng.normal(0, 1, balls).tolist()
        called += any(
            difference_of_clubs(a[:n], b[:n], margin=1e-6).verdict == "real difference"
            for n in range(5, balls + 1)
        )
    # 0.80 with a standard error of 0.023, and some are called before; never far from it.
    assert 0.73 <= called / tries <= 0.97


@pytest.mark.independent(
    library="scipy",
    call="ttest_ind(equal_var=False).df, .statistic",
    though="the function takes only quantiles of t from it: here the whole test is asked for",
)
def test_where_the_club_hit_less_scatters_more_its_own_few_balls_say_how_sure() -> None:
    a = [98.0, 103.0, 100.5, 101.2, 99.1, 104.0, 100.0, 101.0, 99.5, 102.5, 100.9, 98.7]
    b = [85.0, 104.0, 96.0, 110.0, 91.0]
    welch = stats.ttest_ind(a, b, equal_var=False)
    # Other blocks don't help: one club was hit twice as often as the other.
    for others in (NO_OTHERS, OtherBlocks(squares=400.0, freedom=25)):
        found = means_weighed(a, b, margin=2.0, others=others)
        assert found.difference is not None
        assert found.error == pytest.approx(found.difference / welch.statistic)
        assert found.freedom == math.floor(welch.df)


@pytest.mark.independent(
    library="scipy",
    call="ttest_ind(equal_var=True).df, .statistic",
    though="the function takes only quantiles of t from it: here the whole test is asked for",
)
def test_where_the_club_hit_more_scatters_more_the_spread_is_pooled() -> None:
    a = [85.0, 104.0, 96.0, 110.0, 91.0, 99.0, 107.0, 88.0]
    b = [98.0, 103.0, 100.5, 101.2, 99.1]
    student = stats.ttest_ind(a, b)
    found = means_weighed(a, b, margin=2.0)
    assert found.difference is not None
    assert found.error == pytest.approx(found.difference / student.statistic)
    assert found.freedom == student.df == 11


@pytest.mark.independent(library="statsmodels", call="CompareMeans.std_meandiff_pooledvar")
def test_the_half_width_is_the_pooled_standard_error_times_the_boundary() -> None:
    # Equal numbers: pooled and unpooled standard error are the same.
    a = [98.0, 103.0, 100.5, 101.2, 99.1, 104.0]
    b = [95.5, 97.0, 99.9, 96.1, 98.3, 94.2]
    found = difference_of_clubs(a, b, margin=2.0)
    compared = CompareMeans(DescrStatsW(a), DescrStatsW(b))
    assert found.high is not None
    assert found.difference == pytest.approx(np.mean(a) - np.mean(b))
    assert found.high - (np.mean(a) - np.mean(b)) == pytest.approx(
        always_valid_t(6, 6) * compared.std_meandiff_pooledvar
    )


@pytest.mark.independent(library="statsmodels", call="CompareMeans.std_meandiff_separatevar")
def test_few_wild_shots_against_many_tame_ones_widen_the_interval() -> None:
    wild = [80.0, 120.0, 95.0, 110.0, 90.0]
    tame = [100.0 + 0.1 * (i % 5) for i in range(25)]
    compared = CompareMeans(DescrStatsW(wild), DescrStatsW(tame))
    assert compared.std_meandiff_separatevar > compared.std_meandiff_pooledvar
    found = difference_of_clubs(wild, tame, margin=2.0)
    assert found.high is not None
    assert found.difference is not None
    assert found.high - found.difference == pytest.approx(
        always_valid_t(5, 25, freedom=math.floor(compared.dof_satt()))
        * compared.std_meandiff_separatevar
    )
