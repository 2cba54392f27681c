"""When grooves want looking at, from the rounds a club is likely to have played.

A forecast from habits, not a measurement: it says when to look, never that a club is worn. The
rounds at which a check is due and at which grooves are likely worn are the shop's settings, the
multipliers for much practice, sand and mats too (common practice). The clock is not read here.
"""

import math
from dataclasses import dataclass
from datetime import date, timedelta

from sessions.maths.errors import NotAFigure

DAYS_A_YEAR = 365.25


@dataclass(frozen=True)
class WearHabits:
    """How a club is used. A multiplier of 1 adds nothing; 1.5 wears half as fast again."""

    rounds_a_year: float
    practice: float = 1.0
    sand: float = 1.0
    mats: float = 1.0

    @property
    def worth_a_year(self) -> float:
        """Rounds' worth of wear in a year."""
        return self.rounds_a_year * self.practice * self.sand * self.mats


@dataclass(frozen=True)
class GrooveForecast:
    """When a check is due and when wear is likely; None where the club is hardly played."""

    worth_a_year: float
    due_on: date | None
    likely_worn_on: date | None


def groove_forecast(
    since: date, habits: WearHabits, *, rounds_due: float, rounds_worn: float
) -> GrooveForecast:
    """Return when the grooves want a check, counted from when they were new.

    Args:
        since: the day the grooves were new (or found fresh).
        habits: rounds a year and what wears faster.
        rounds_due: the shop's setting: a check is due after this many rounds' worth.
        rounds_worn: the shop's setting: likely worn after this many; not before the check.

    Raises:
        NotAFigure: a figure is no number, a multiplier below 1, rounds below 0, or the settings
            the wrong way round.
    """
    figures = (habits.rounds_a_year, habits.practice, habits.sand, habits.mats)
    if not all(math.isfinite(figure) for figure in (*figures, rounds_due, rounds_worn)):
        raise NotAFigure("The groove check needs rounds that are numbers.")
    if habits.rounds_a_year < 0:
        raise NotAFigure("Rounds a year can't be below 0.")
    if min(habits.practice, habits.sand, habits.mats) < 1:
        raise NotAFigure("Practice, sand and mats never spare a groove: multipliers start at 1.")
    if not 0 < rounds_due <= rounds_worn:
        raise NotAFigure("A check is due before the grooves are likely worn.")
    worth = habits.worth_a_year
    return GrooveForecast(
        worth_a_year=worth,
        due_on=_day_after(since, rounds_due, worth),
        likely_worn_on=_day_after(since, rounds_worn, worth),
    )


def rounds_worth(since: date, on: date, habits: WearHabits) -> float:
    """Return the rounds' worth of wear from one day to another; nought before the first."""
    return max(0.0, (on - since).days / DAYS_A_YEAR * habits.worth_a_year)


def _day_after(since: date, rounds: float, worth_a_year: float) -> date | None:
    """Return the first day by which so many rounds' worth are played, or None beyond a lifetime."""
    if worth_a_year <= 0:
        return None
    days = math.ceil(rounds / worth_a_year * DAYS_A_YEAR - 1e-9)
    return since + timedelta(days=days) if days < 100 * DAYS_A_YEAR else None
