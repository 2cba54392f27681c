"""How a verdict is said: what was measured, which of three it is, and the numbers with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sessions.maths.comparison import Difference
from sessions.maths.shown import show_rounded
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.measures import MEAN_OF, SPREAD, STRIKES, Kind, in_unit, unit_words, what_of
from sessions.rules.verdicts import RATING, Judged, Pair, VerdictKind, is_better
from sessions.rules.wording import listed

_KINDS: Mapping[str, VerdictKind] = {
    "real difference": "real",
    "no difference you could use": "none",
    "too few balls": "few",
}
# These stand as boxes whatever they say; the others once they say something.
ALWAYS_SAID = ("carry", "side")
MOST_TIMES = 5
LEAST_TO_SAY = 2
PROMISE = (
    "The range in brackets is where the difference lies. For a real difference it holds after "
    "every ball, however often you look: of the clubs shown here, in one measure and one "
    "situation, at most one visit in ten calls any difference real that is none. For “no "
    "difference you could use” it is the 90 % range of this moment."
)


@dataclass(frozen=True)
class VerdictBox:
    """One verdict as it is read: what was measured, which of three kinds, and the numbers."""

    what: str
    kind: VerdictKind
    sentence: str


def verdict_boxes(pair: Pair, unit: DistanceUnit) -> tuple[VerdictBox, ...]:
    """The verdicts of a pair in words. Nothing where the comparison would be unfair.

    A measure that neither club has a figure for is not spoken of; what is undecided beside carry
    and direction stands together in `undecided`.
    """
    return tuple(
        VerdictBox(what_of(each.key), kind_of(each.found), verdict_sentence(each, pair, unit))
        for each in pair.judged
        if each.key in ALWAYS_SAID or each.found.verdict != "too few balls"
    )


def undecided(pair: Pair, unit: DistanceUnit) -> str:
    """The measures beside carry and direction that too few balls speak of, in one line."""
    soon: list[str] = []
    later: list[str] = []
    for each in pair.judged:
        if each.key in ALWAYS_SAID or each.found.verdict != "too few balls":
            continue
        what = what_of(each.key)
        what = what[:1].lower() + what[1:]
        seen = _seen(each, unit)
        more = each.found.more_balls
        if more is None:
            later.append(f"{what}{seen}")
        else:
            soon.append(f"{what}{seen}, about {more} more {'ball' if more == 1 else 'balls'} each")
    said = [f"{listed(soon)}."] if soon else []
    said += [f"{listed(later)}: not today."] if later else []
    return "Too few balls to tell: " + " ".join(said) if said else ""


def difference_sentence(
    found: Difference,
    words: tuple[str, str, str],
    against: str,
    unit: DistanceUnit,
    kind: Kind = "distance",
) -> str:
    """`6 yd longer than Own 56 (3 to 9), 5 and 6 balls.`

    `words` are for more, for less and for the same to the unit. What was not measured is said,
    and that a real difference may still be smaller than what is of use.
    """
    balls = f"{found.balls_a} and {found.balls_b} balls"
    if found.difference is None or not is_seen(found):
        return f"{balls}: nothing to compare yet. {found.advice}"
    size = _rounded(abs(in_unit(found.difference, kind, unit)), kind)
    more, less, same = words
    is_more = found.difference > 0
    said = f"{size} {unit_words(kind, unit)} {more if is_more else less}"
    said = said if size != "0" else same.capitalize()
    between = ""
    if found.low is not None and found.high is not None:
        ends = (found.low, found.high) if is_more else (-found.high, -found.low)
        low, high = (_rounded(in_unit(end, kind, unit), kind) for end in ends)
        between = f" ({low} to {high})"
    return f"{said} {against}{between}, {balls}.{_advice(found)}"


def is_seen(found: Difference) -> bool:
    """Two balls a side at least: a single one has no spread, so its way and size say nothing."""
    return min(found.balls_a, found.balls_b) >= LEAST_TO_SAY


def kind_of(found: Difference) -> VerdictKind:
    return _KINDS[found.verdict]


def verdict_sentence(each: Judged, pair: Pair, unit: DistanceUnit) -> str:
    """One verdict of a pair in words, with its numbers, whatever the measure."""
    found, against = each.found, pair.against.name
    measure = MEAN_OF.get(each.key)
    if measure is not None:
        return difference_sentence(found, measure.words, against, unit, measure.kind)
    if each.key == SPREAD:
        return _spread_sentence(found, against, unit)
    if each.key == STRIKES:
        bad, shots = pair.one.bad_strikes, pair.one.figures.shots
        theirs, hit = pair.other.bad_strikes, pair.other.figures.shots
        return (
            f"{bad} of {shots} struck badly, {theirs} of {hit} with {against}"
            f"{_percents(found)}.{_advice(found)}"
        )
    return f"Rated higher than {against}{_seen(each, unit)}.{_advice(found)}"


def verdict_short(each: Judged, pair: Pair, unit: DistanceUnit) -> str:
    """A real difference's way and size in a few words: `9 yd longer`, `better, 0.5 times as wide`.

    Nothing for the other two verdicts: what is not called has no way.
    """
    found = each.found
    if kind_of(found) != "real" or found.difference is None:
        return ""
    side = is_better(each)
    good = {True: "better", False: "worse", None: ""}[side]
    measure = MEAN_OF.get(each.key)
    if measure is not None:
        size = _rounded(abs(in_unit(found.difference, measure.kind, unit)), measure.kind)
        more, less, _ = measure.words
        way = (more if found.difference > 0 else less).removesuffix(" than").removesuffix(" of")
        said = f"{size} {unit_words(measure.kind, unit)} {way}"
        return f"{good}, {said}" if each.key == "side" and good else said
    if each.key == SPREAD:
        return f"{good}, {_times(found.difference)} times as wide"
    if each.key == STRIKES:
        one, other = pair.one, pair.other
        return (
            f"{good}, {one.bad_strikes} of {one.figures.shots} bad against "
            f"{other.bad_strikes} of {other.figures.shots}"
        )
    return good


def _spread_sentence(found: Difference, against: str, unit: DistanceUnit) -> str:
    if found.mean_a is None or found.mean_b is None or found.difference is None:
        return f"{found.balls_a} and {found.balls_b} balls: nothing to compare yet."
    # Widths are told apart by how far balls end from their middle one, so that a single wild ball
    # does not decide; in yards they would stand beside spreads that count such a ball.
    times = f"{_times(found.difference)} times as wide as with {against}"
    if found.low is not None and found.high is not None:
        times += f" ({_times(found.low)} to {_times(found.high)})"
    said = f"{times}, {found.balls_a} and {found.balls_b} balls.{_advice(found)}"
    return said[:1].upper() + said[1:]


def _times(ratio: float) -> str:
    """`1.7`; what is past all use is not told to the tenth."""
    if ratio > MOST_TIMES:
        return f"more than {MOST_TIMES}"
    return "less than 0.1" if ratio < 0.1 else f"{ratio:.1f}"


def _percents(found: Difference) -> str:
    """`: 33 % against 17 %, a difference of −63 to 83 points`."""
    if found.mean_a is None or found.mean_b is None or found.low is None or found.high is None:
        return ""
    low, high = (_rounded(100 * end, "distance") for end in (found.low, found.high))
    return (
        f": {round(100 * found.mean_a)} % against {round(100 * found.mean_b)} %, "
        f"a difference of {low} to {high} points"
    )


def _seen(each: Judged, unit: DistanceUnit) -> str:
    """What is seen so far, in brackets: never as a finding."""
    found = each.found
    if (
        found.mean_a is None
        or found.mean_b is None
        or not (is_seen(found) or each.key.startswith(RATING))
    ):
        return ""
    if each.key == SPREAD:
        return "" if found.difference is None else f" ({_times(found.difference)} times as wide)"
    if each.key == STRIKES:
        return f" ({round(100 * found.mean_a)} % against {round(100 * found.mean_b)} % bad)"
    measure = MEAN_OF.get(each.key)
    if measure is None:
        return f" (higher in {round(100 * found.mean_a)} % of the rounds that told)"
    one, other = (
        _rounded(in_unit(value, measure.kind, unit), measure.kind)
        for value in (found.mean_a, found.mean_b)
    )
    return f" ({one} against {other} {unit_words(measure.kind, unit)})"


def _advice(found: Difference) -> str:
    """What to do about it; a real difference needs no advice unless it may be too small."""
    if found.verdict != "real difference":
        return f" {found.advice}"
    if found.neutral == 0 and found.low is not None and found.high is not None:
        nearest = min(abs(found.low), abs(found.high))
        if nearest < found.margin:
            return " Real, but it may be too small to use."
    return ""


def _rounded(value: float, kind: Kind) -> str:
    """Whole, or to the half degree's tenth; a minus sign that reads as one."""
    if kind == "degrees":
        text = show_rounded(abs(value), 1).removesuffix(".0")
    else:
        text = f"{int(show_rounded(abs(value))):,}"
    return f"\N{MINUS SIGN}{text}" if value < 0 and text != "0" else text
