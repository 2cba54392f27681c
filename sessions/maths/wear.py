"""When grooves want looking at, from the rounds a club is likely to have played.

A forecast from habits, not a measurement: it says when to look, never that a club is worn. What
the player reports to have played since counts instead of what was expected up to then. The rounds
at which a check is due and at which grooves are likely worn are the shop's settings, the
multipliers for much practice, sand and mats too (common practice). The clock is not read here.
"""

import math
from calendar import monthrange
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sessions.maths.errors import NotAFigure

DAYS_A_YEAR = 365.25
# Nobody's clubs are forecast further than this.
A_LIFETIME_DAYS = 100 * DAYS_A_YEAR
ALL_YEAR = frozenset(range(1, 13))
_DAYS_OF_MONTH = (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@dataclass(frozen=True)
class WearHabits:
    """How a club is used. A multiplier of 1 adds nothing; 1.5 wears half as fast again.

    ``season`` is the months (1 to 12) in which the year's rounds are played, evenly over their
    days.
    """

    rounds_a_year: float
    practice: float = 1.0
    sand: float = 1.0
    mats: float = 1.0
    season: frozenset[int] = ALL_YEAR

    @property
    def worth_of_a_round(self) -> float:
        """How many rounds' worth of wear one round with its practice is."""
        return self.practice * self.sand * self.mats

    @property
    def worth_a_year(self) -> float:
        """Rounds' worth of wear in a year."""
        return self.rounds_a_year * self.worth_of_a_round

    @property
    def worth_a_day(self) -> float:
        """Rounds' worth of wear on a day of the season."""
        return self.worth_a_year / sum(_DAYS_OF_MONTH[month - 1] for month in self.season)


@dataclass(frozen=True)
class RoundsReported:
    """How many rounds the player says were played with the club up to a day, since it was new."""

    on: date
    rounds: float


@dataclass(frozen=True)
class GrooveForecast:
    """When a check is due and when wear is likely; None where the club is hardly played."""

    worth_a_year: float
    due_on: date | None
    likely_worn_on: date | None


def groove_forecast(
    since: date,
    habits: WearHabits,
    *,
    rounds_due: float,
    rounds_worn: float,
    reported: Sequence[RoundsReported] = (),
) -> GrooveForecast:
    """Return when the grooves want a check, counted from when they were new.

    Args:
        since: the day the grooves were new (or found fresh).
        habits: rounds a year, when they are played, and what wears faster.
        rounds_due: the shop's setting: a check is due after this many rounds' worth.
        rounds_worn: the shop's setting: likely worn after this many; not before the check.
        reported: what the player said was played since; the latest day counts, and the habits
            from there on. Where it is more than is due already, the check is due that day.

    Raises:
        NotAFigure: a figure is no number, a multiplier below 1, rounds below 0, no month in the
            season, the settings the wrong way round, or a report from before the club was new.
    """
    _refuse_habits(habits)
    if not (math.isfinite(rounds_due) and math.isfinite(rounds_worn)):
        raise NotAFigure("The groove check needs rounds that are numbers.")
    if not 0 < rounds_due <= rounds_worn:
        raise NotAFigure("A check is due before the grooves are likely worn.")
    begin, worn = _known(since, habits, reported)
    return GrooveForecast(
        worth_a_year=habits.worth_a_year,
        due_on=_day_after(begin, rounds_due - worn, habits),
        likely_worn_on=_day_after(begin, rounds_worn - worn, habits),
    )


def rounds_worth(
    since: date, on: date, habits: WearHabits, reported: Sequence[RoundsReported] = ()
) -> float:
    """Return the rounds' worth of wear from one day to another; nought before the first.

    A report after ``on`` says nothing of ``on`` and is passed over.

    Raises:
        NotAFigure: as `groove_forecast`.
    """
    _refuse_habits(habits)
    begin, worn = _known(since, habits, [one for one in reported if one.on <= on])
    if habits.season == ALL_YEAR:
        return worn + max(0.0, (on - begin).days / DAYS_A_YEAR * habits.worth_a_year)
    return worn + sum(
        days * habits.worth_a_day for _, days in _season_days(begin, habits, until=on)
    )


def _known(
    since: date, habits: WearHabits, reported: Sequence[RoundsReported]
) -> tuple[date, float]:
    """Return the day from which habits count, and the rounds' worth up to it."""
    if not all(math.isfinite(one.rounds) and one.rounds >= 0 for one in reported):
        raise NotAFigure("Rounds played since are a number, not below 0.")
    if any(one.on < since for one in reported):
        raise NotAFigure("Rounds can't be reported from before the grooves were new.")
    last = max(reported, key=lambda one: one.on, default=None)
    if last is None:
        return since, 0.0
    return last.on, last.rounds * habits.worth_of_a_round


def _day_after(begin: date, rounds: float, habits: WearHabits) -> date | None:
    """Return the first day by which so many rounds' worth are played, or None beyond a lifetime."""
    if rounds <= 0:
        return begin
    if habits.worth_a_year <= 0:
        return None
    if habits.season == ALL_YEAR:
        days = math.ceil(rounds / habits.worth_a_year * DAYS_A_YEAR - 1e-9)
        return begin + timedelta(days=days) if days < A_LIFETIME_DAYS else None
    missing = rounds / habits.worth_a_day
    until = begin + timedelta(days=int(A_LIFETIME_DAYS))
    for day, played in _season_days(begin, habits, until=until):
        if missing <= played + 1e-9:
            return day + timedelta(days=math.ceil(missing - 1e-9))
        missing -= played
    return None


def _season_days(begin: date, habits: WearHabits, *, until: date) -> Iterator[tuple[date, int]]:
    """Yield stretches of the season from one day to another, month by month: first day, length."""
    day = begin
    while day < until:
        left = monthrange(day.year, day.month)[1] - day.day + 1
        following = min(day + timedelta(days=left), until)
        if day.month in habits.season:
            yield day, (following - day).days
        day = following


def _refuse_habits(habits: WearHabits) -> None:
    figures = (habits.rounds_a_year, habits.practice, habits.sand, habits.mats)
    if not all(math.isfinite(figure) for figure in figures):
        raise NotAFigure("The groove check needs rounds that are numbers.")
    if habits.rounds_a_year < 0:
        raise NotAFigure("Rounds a year can't be below 0.")
    if min(habits.practice, habits.sand, habits.mats) < 1:
        raise NotAFigure("Practice, sand and mats never spare a groove: multipliers start at 1.")
    if not habits.season or not habits.season <= ALL_YEAR:
        raise NotAFigure("A season is one month or more, numbered 1 to 12.")
