"""When grooves want looking at."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.errors import NotAFigure
from sessions.maths.wear import WearHabits, groove_forecast, rounds_worth

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
