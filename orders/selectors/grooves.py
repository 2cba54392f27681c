"""How much an order's clubs are played, and when their grooves want a look."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from fitshop.setting import Value
from orders.models import BuildOrder, RoundsReport
from sessions.maths.wear import (
    ALL_YEAR,
    GrooveForecast,
    RoundsReported,
    WearHabits,
    groove_forecast,
)
from sessions.models import Answer
from sessions.rules.interview import answer_words, number_from
from sessions.rules.interview_questions import BY_KEY

SEASONS = {
    "april_to_october": frozenset(range(4, 11)),
    "october_to_april": frozenset({10, 11, 12, 1, 2, 3, 4}),
}


@dataclass(frozen=True)
class Grooves:
    """What the order page says: the forecast, what it rests on, and what was reported."""

    forecast: GrooveForecast | None
    rests_on: str
    reports: tuple[RoundsReport, ...]


def grooves_of(order: BuildOrder, settings: Mapping[str, Value]) -> Grooves:
    """The forecast in sight with its reasons; why there is none where there is none."""
    reports = tuple(order.rounds_reports.all())
    answers = _last_answers(order)
    habits = _habits(answers, settings)
    if habits is None:
        return Grooves(None, "Nobody was asked how many rounds a year are played.", reports)
    said = [f"{habits.rounds_a_year:g} rounds a year"]
    if habits.season != ALL_YEAR:
        said.append(answer_words(BY_KEY["season"], answers["season"]))
    said += [
        words
        for words, times in (
            ("much practice", habits.practice),
            ("much sand", habits.sand),
            ("mostly on mats", habits.mats),
        )
        if times > 1
    ]
    rests_on = f"From {', '.join(said)}, as told in the interview."
    return Grooves(_forecast(order, habits, reports, settings), rests_on, reports)


def forecast_of(order: BuildOrder, settings: Mapping[str, Value]) -> GrooveForecast | None:
    """When the grooves want a look, from habits and reports; None where it can't be said."""
    habits = _habits(_last_answers(order), settings)
    if habits is None:
        return None
    return _forecast(order, habits, tuple(order.rounds_reports.all()), settings)


def handed_over_on(order: BuildOrder) -> date | None:
    """The day of the hand-over at the shop's place."""
    if order.handed_over_at is None:
        return None
    day: date = order.handed_over_at.astimezone(order.location.zone_info).date()
    return day


def _forecast(
    order: BuildOrder,
    habits: WearHabits,
    reports: Sequence[RoundsReport],
    settings: Mapping[str, Value],
) -> GrooveForecast | None:
    since = handed_over_on(order)
    if since is None:
        return None
    due = float(settings["grooves.check_due_rounds"])
    return groove_forecast(
        since,
        habits,
        rounds_due=due,
        rounds_worn=max(float(settings["grooves.likely_worn_rounds"]), due),
        # Last told comes last: the later word for one day is the one that counts.
        reported=[
            RoundsReported(report.played_until, report.rounds)
            for report in sorted(reports, key=lambda row: row.reported_at, reverse=True)
        ],
    )


def _habits(answers: Mapping[str, object], settings: Mapping[str, Value]) -> WearHabits | None:
    """How much the clubs are used, from the last answers; None without rounds a year."""
    rounds = number_from(answers.get("rounds_a_year"))
    if rounds is None:
        return None
    balls = number_from(answers.get("balls_a_week"))
    is_much = balls is not None and balls >= Decimal(str(settings["grooves.much_practice_balls"]))

    def times(key: str, applies: bool) -> float:
        return float(settings[f"grooves.{key}_times"]) if applies else 1.0

    return WearHabits(
        rounds_a_year=float(rounds),
        practice=times("practice", is_much),
        sand=times("sand", answers.get("sand_practice") == "often"),
        mats=times("mats", answers.get("mats") == "mostly_on_mats"),
        season=SEASONS.get(str(answers.get("season")), ALL_YEAR),
    )


def _last_answers(order: BuildOrder) -> dict[str, object]:
    rows = Answer.objects.filter(interview__visit=order.visit_id, value__isnull=False).order_by(
        "sequence"
    )
    return {row.question: _alone(row.value) for row in rows}


def _alone(value: object) -> object:
    """A chip answer may be a list of one."""
    return value[0] if isinstance(value, list) and len(value) == 1 else value
