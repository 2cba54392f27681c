"""When grooves want looking at."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.errors import NotAFigure
from sessions.maths.wear import RoundsReported, WearHabits, groove_forecast, rounds_worth

NEW = date(2026, 3, 1)


def test_seventy_rounds_at_seventy_a_year_are_due_in_a_year() -> None:
    found = groove_forecast(NEW, WearHabits(70), rounds_due=70, rounds_worn=120)
    # 365.25 days: the day after.
    assert found.due_on == date(2027, 3, 2)
    # 120 / 70 of 365.25 is 626.14 days.
    assert found.likely_worn_on == NEW + timedelta(days=627)


def test_practice_and_sand_bring_the_check_forward() -> None:
    found = groove_forecast(
        NEW, WearHabits(70, practice=1.5, sand=2.0), rounds_due=70, rounds_worn=120
    )
    assert found.worth_a_year == 210
    assert found.due_on == NEW + timedelta(days=122)


def test_a_club_that_is_hardly_played_has_no_date() -> None:
    assert groove_forecast(NEW, WearHabits(0), rounds_due=70, rounds_worn=120).due_on is None
    assert groove_forecast(NEW, WearHabits(0.5), rounds_due=70, rounds_worn=120).due_on is None


def test_rounds_worth_starts_at_nought() -> None:
    assert rounds_worth(NEW, NEW, WearHabits(70)) == 0.0
    assert rounds_worth(NEW, date(2026, 1, 1), WearHabits(70)) == 0.0
    assert rounds_worth(NEW, NEW + timedelta(days=1461), WearHabits(50)) == pytest.approx(200.0)


@pytest.mark.parametrize(
    ("habits", "due", "worn"),
    [
        (WearHabits(-1), 70, 120),
        (WearHabits(math.nan), 70, 120),
        (WearHabits(40, practice=0.9), 70, 120),
        (WearHabits(40), 0, 120),
        (WearHabits(40), 120, 70),
        (WearHabits(40), 70, math.inf),
    ],
)
def test_what_makes_no_sense_is_refused(habits: WearHabits, due: float, worn: float) -> None:
    with pytest.raises(NotAFigure):
        groove_forecast(NEW, habits, rounds_due=due, rounds_worn=worn)


@given(st.floats(1, 300), st.floats(10, 200), st.floats(1, 3))
def test_on_the_day_the_check_is_due_the_rounds_are_played_and_not_the_day_before(
    rounds: float, due: float, practice: float
) -> None:
    habits = WearHabits(rounds, practice=practice)
    day = groove_forecast(NEW, habits, rounds_due=due, rounds_worn=due).due_on
    if day is not None:
        assert rounds_worth(NEW, day, habits) >= due - 1e-6
        assert rounds_worth(NEW, day - timedelta(days=1), habits) < due


def test_rounds_reported_since_count_instead_of_what_was_expected() -> None:
    # 70 a year expected; after 100 days the player says 50, not 19: 20 more at 70 a year.
    reported = [RoundsReported(NEW + timedelta(days=100), 50)]
    found = groove_forecast(NEW, WearHabits(70), rounds_due=70, rounds_worn=120, reported=reported)
    # 20 / 70 of 365.25 is 104.36 days.
    assert found.due_on == NEW + timedelta(days=205)
    assert found.likely_worn_on == NEW + timedelta(days=466)  # 70 / 70 of a year: 365.25


def test_the_latest_report_counts_and_practice_counts_with_it() -> None:
    reported = [
        RoundsReported(NEW + timedelta(days=200), 20),
        RoundsReported(NEW + timedelta(days=100), 50),
    ]
    habits = WearHabits(70, practice=1.5)
    assert rounds_worth(NEW, NEW + timedelta(days=200), habits, reported) == pytest.approx(30)
    # The one of day 200 says nothing of day 150.
    assert rounds_worth(NEW, NEW + timedelta(days=150), habits, reported) == pytest.approx(
        75 + 50 / 365.25 * 105
    )


def test_more_rounds_than_are_due_make_it_due_on_the_day_they_are_reported() -> None:
    day = NEW + timedelta(days=30)
    found = groove_forecast(
        NEW, WearHabits(70), rounds_due=70, rounds_worn=120, reported=[RoundsReported(day, 90)]
    )
    assert found.due_on == day
    assert found.likely_worn_on is not None
    assert found.likely_worn_on > day


def test_a_season_holds_the_whole_year_s_rounds() -> None:
    # April to September are 183 days: 183 rounds a year are one on each of them.
    habits = WearHabits(183, season=frozenset({4, 5, 6, 7, 8, 9}))
    found = groove_forecast(NEW, habits, rounds_due=10, rounds_worn=183)
    assert found.due_on == date(2026, 4, 11)
    assert found.likely_worn_on == date(2026, 10, 1)
    assert rounds_worth(NEW, date(2026, 4, 1), habits) == 0
    assert rounds_worth(NEW, date(2026, 5, 1), habits) == pytest.approx(30)
    assert rounds_worth(NEW, date(2027, 3, 1), habits) == pytest.approx(183)


def test_a_check_that_falls_due_in_winter_waits_for_the_season() -> None:
    habits = WearHabits(183, season=frozenset({4, 5, 6, 7, 8, 9}))
    found = groove_forecast(date(2026, 9, 21), habits, rounds_due=15, rounds_worn=20)
    # Ten days of September, then five of April.
    assert found.due_on == date(2027, 4, 6)


@pytest.mark.parametrize("season", [frozenset(), frozenset({0}), frozenset({5, 13})])
def test_a_season_of_no_months_is_refused(season: frozenset[int]) -> None:
    with pytest.raises(NotAFigure, match="season"):
        groove_forecast(NEW, WearHabits(70, season=season), rounds_due=70, rounds_worn=120)


@pytest.mark.parametrize(
    "report",
    [
        RoundsReported(NEW, -1),
        RoundsReported(NEW, math.nan),
        RoundsReported(NEW - timedelta(days=1), 5),
    ],
)
def test_a_report_that_makes_no_sense_is_refused(report: RoundsReported) -> None:
    with pytest.raises(NotAFigure):
        groove_forecast(NEW, WearHabits(70), rounds_due=70, rounds_worn=120, reported=[report])
    with pytest.raises(NotAFigure):
        rounds_worth(NEW, NEW + timedelta(days=1), WearHabits(math.nan))


@given(
    st.floats(1, 300),
    st.floats(5, 200),
    st.frozensets(st.integers(1, 12), min_size=1),
    st.integers(0, 700),
)
def test_the_check_of_any_season_falls_on_the_day_its_rounds_are_played(
    rounds: float, due: float, season: frozenset[int], start: int
) -> None:
    begin = NEW + timedelta(days=start)
    habits = WearHabits(rounds, season=season)
    day = groove_forecast(begin, habits, rounds_due=due, rounds_worn=due).due_on
    if day is not None:
        assert rounds_worth(begin, day, habits) >= due - 1e-6
        assert rounds_worth(begin, day - timedelta(days=1), habits) < due + 1e-6
