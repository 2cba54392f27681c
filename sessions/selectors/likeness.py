"""Two clubs held against each other, and what came along with a chosen change."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import Any

from sessions.maths.shown import show_length, show_mass, show_swing_weight
from sessions.models import Trial
from sessions.models.words import Grooves
from sessions.rules.likeness import Aspect, Likeness
from sessions.rules.wording import degrees, figure, is_bend
from sessions.selectors.equipment import LengthUnit, Played, bounce_figure


def also_different(
    before: Trial, now: Played, changed: Sequence[str], unit: LengthUnit
) -> list[str]:
    """What came along with the chosen changes, in small words: `mass 452 g, was 449 g`.

    What is not known of one of the two clubs is not compared, except by name; nor is a mass off the
    scale with one that was added up.
    """
    return [
        f"{aspect} {now_words}, was {then_words}"
        for aspect, is_chosen, then_words, now_words in _compared(before, now, changed, unit)
        if not is_chosen and then_words and now_words and then_words != now_words
    ]


def _compared(
    before: Trial, now: Played, changed: Sequence[str], unit: LengthUnit
) -> list[tuple[str, bool, str, str]]:
    """Each aspect with whether it was chosen, and both clubs' words for it."""

    def both(aspect: str, column: str, words: Callable[[Any], str], chosen_as: str = "") -> Any:
        then, new = (getattr(club, column) for club in (before, now))
        is_chosen = (chosen_as or aspect) in changed
        return aspect, is_chosen, _said(then, words), _said(new, words)

    is_mass_alike = before.mass_is_measured == now.mass_is_measured
    mass: Callable[[Decimal], str] = show_mass if is_mass_alike else _nothing
    length: Callable[[Decimal], str] = lambda value: show_length(value, unit)  # noqa: E731
    return [
        both("loft", "loft_deg", degrees),
        both("head", "head_name", str, "sole"),
        both("sole", "sole_words", str),
        ("bounce", "sole" in changed, *_bounces_said(before, now)),
        both("finish", "finish", str),
        both("shaft", "shaft_name", str),
        both("length", "length_mm", length),
        both("lie", "lie_deg", degrees),
        both("grip", "grip_name", str),
        both("swing weight", "swing_weight_points", show_swing_weight),
        both("mass", "mass_g", mass),
        both("grooves", "grooves", lambda word: "" if word == Grooves.UNKNOWN else str(word)),
    ]


def likeness(
    mine: Trial | Played, theirs: Trial | Played, against: str, unit: LengthUnit
) -> Likeness:
    """Hold one club against another in loft, length, shaft, lie, sole and grip.

    Angles are alike to half a degree, lengths to the step they are read in. An own club's sole is
    known by its bounce alone: with another head and a bounce alike nobody knows.
    """

    def named(aspect: str, column: str) -> Aspect:
        one, other = (str(getattr(club, column) or "") for club in (mine, theirs))
        is_alike = one.casefold() == other.casefold() if one and other else None
        return Aspect(aspect, one, other, is_alike)

    def angle(aspect: str, column: str) -> Aspect:
        one, other = getattr(mine, column), getattr(theirs, column)
        is_alike = None if one is None or other is None else not is_bend(one, other)
        return Aspect(aspect, _said(one, _angle), _said(other, _angle), is_alike)

    one_length, other_length = (
        _said(club.length_mm, lambda value: show_length(value, unit)) for club in (mine, theirs)
    )
    is_length_alike = one_length == other_length if one_length and other_length else None
    return Likeness(
        against,
        (
            angle("loft", "loft_deg"),
            Aspect("length", one_length, other_length, is_length_alike),
            named("shaft", "shaft_name"),
            angle("lie", "lie_deg"),
            _sole_alike(mine, theirs),
            named("grip", "grip_name"),
        ),
    )


def _sole_alike(mine: Trial | Played, theirs: Trial | Played) -> Aspect:
    one, other = (_bounce_said(club) for club in (mine, theirs))
    if (
        mine.bounce_deg is not None
        and theirs.bounce_deg is not None
        and is_bend(mine.bounce_deg, theirs.bounce_deg)
    ):
        return Aspect("sole", one, other, is_alike=False)
    if mine.sole_words and theirs.sole_words:
        is_alike = mine.sole_words == theirs.sole_words
        return Aspect("sole", mine.sole_words, theirs.sole_words, is_alike)
    is_same_head = mine.head_name == theirs.head_name and bool(one and other)
    return Aspect("sole", one, other, is_alike=True if is_same_head else None)


def _bounce_said(club: Trial | Played) -> str:
    said = bounce_of(club)
    return said and f"bounce {said}"


def bounce_of(club: Trial | Played) -> str:
    """`10.8°`, `about 9.5°`; "" where it isn't known."""
    if club.bounce_deg is None:
        return ""
    return bounce_figure(
        club.bounce_deg, club.stamped_bounce_deg, is_measured=club.bounce_is_measured
    )


def _angle(value: Decimal) -> str:
    return f"{figure(value)}°"


def _bounces_said(before: Trial, now: Played) -> tuple[str, str]:
    """Both clubs' bounce; the same words where only one of two like figures was measured."""
    then, new = bounce_of(before), bounce_of(now)
    is_alike = then.removeprefix("about ") == new.removeprefix("about ")
    return then, then if is_alike else new


def _nothing(value: Any) -> str:
    return ""


def _said(value: Any, words: Callable[[Any], str]) -> str:
    return "" if value is None or value == "" else words(value)
