"""Rules on what runs through the set: lie against the irons and the hands, length, swing weight."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise
from typing import Literal

from sessions.maths.delivery import MOST_LIE_ERROR_DEG
from sessions.maths.errors import NotAFigure
from sessions.maths.shown import show_length, show_mass, show_swing_weight
from sessions.rules.delivered import face_of_lie_words
from sessions.rules.dry_weight import DryWeight, dry_weight
from sessions.rules.facts import ClubFacts, ClubSource, Hand, Hands, Role, SpecFacts, SpecLimits
from sessions.rules.findings import Hit, Severity, number_text
from sessions.rules.spec_book import COMMON_PRACTICE, SPEC_BOOK
from sessions.rules.spec_soles import opened_club
from sessions.rules.wording import bend_text, club_words, figure

PITCHING_WEDGE = "the pitching wedge"


def points_text(points: Decimal | float) -> str:
    """A swing weight as the scale shows it; in points from D0 where no scale goes."""
    try:
        return show_swing_weight(points)
    except NotAFigure:
        return f"{number_text(points)} points from D0"


def _lie_text(offset: Decimal) -> str:
    return "as made" if offset == 0 else bend_text(offset, "lie")


def _lie_points(player: Hand | None, loft: Decimal | None, apart: Decimal) -> str:
    """Where a face points whose lie is not right, for this hand at this loft: more with loft."""
    if player is None:
        return "the face points off line, more with loft"
    if loft is None or not 0 < loft < 90 or abs(apart) > MOST_LIE_ERROR_DEG:
        is_left = (apart > 0) == (player is Hand.RIGHT)
        return f"the face points {'left' if is_left else 'right'}, more with loft"
    hand: Literal["right", "left"] = "right" if player is Hand.RIGHT else "left"
    return f"the face points {face_of_lie_words(loft, apart, hand)}"


@SPEC_BOOK.rule(
    "SPEC-W060",
    Severity.LOOK,
    about="A lie far from the irons': a full-shot club follows them, a touch club is the same or "
    "flatter, or more upright where the player chips on the toe. Against stock, and where the "
    "pitching wedge's lie was measured, against that too.",
    source=COMMON_PRACTICE,
    thresholds=("lie_full_apart_deg", "lie_touch_flatter_deg"),
)
def lie_against_the_irons(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    irons = facts.player.iron_lie_deg
    if irons is None:
        return
    for club in facts.clubs:
        offset = club.lie_offset_deg
        if offset is None or not club.is_built or club.role is None:
            continue
        apart = offset - irons
        most, least = limits.lie_full_apart_deg, -limits.lie_full_apart_deg
        if club.role is Role.TOUCH:
            most = limits.lie_full_apart_deg if facts.player.chips_on_the_toe else Decimal(0)
            least = -limits.lie_touch_flatter_deg
        if least <= apart <= most or _is_as_measured(facts, club, least, most):
            continue
        yield Hit(
            fields=(club.field("target_lie_deg"),),
            sentence=f"{club_words(club)}: its lie is {_lie_text(offset)}, the irons are "
            f"{_lie_text(irons)}. If the irons are right, "
            f"{_lie_points(facts.player.hand, club.played_loft_deg, apart)}.",
            hint="Right where the strike on the lie board or in the turf says so: say it.",
            numbers=(("lie", offset), ("irons", irons)),
        )


def _is_as_measured(facts: SpecFacts, club: ClubFacts, least: Decimal, most: Decimal) -> bool:
    """True where the lie itself is right beside the pitching wedge's, whatever stock is: heads
    are made with more than one stock lie."""
    pitching, target = facts.baseline_lie_deg, club.target_lie_deg
    if pitching is None or target is None:
        return False
    return least <= target - pitching <= most


@SPEC_BOOK.rule(
    "SPEC-W061",
    Severity.LOOK,
    about="Hands held low in sand and the most lofted touch club is not flatter than the irons; "
    "or held high and it is.",
    source=COMMON_PRACTICE,
    thresholds=("lie_hands_deg",),
)
def lie_against_the_hands(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    hands, club = facts.player.hands_in_sand, opened_club(facts)
    if club is None or not club.is_built or club.lie_offset_deg is None:
        return
    offset, irons = club.lie_offset_deg, facts.player.iron_lie_deg or Decimal(0)
    apart = offset - irons
    is_wrong = (hands is Hands.LOW and apart > -limits.lie_hands_deg) or (
        hands is Hands.HIGH and apart < -limits.lie_hands_deg
    )
    if hands is not None and is_wrong:
        wanted = (
            f"{figure(limits.lie_hands_deg)} flatter than the irons at least"
            if hands is Hands.LOW
            else f"at most {figure(limits.lie_hands_deg)} flatter than the irons"
        )
        yield Hit(
            fields=(club.field("target_lie_deg"),),
            sentence=f"{club_words(club)}: the hands are held {hands.value} in sand, and its lie "
            f"is {_lie_text(offset)}; {wanted} is usual then.",
            hint="Look at the club at address in sand, as it is opened.",
            numbers=(("lie", offset), ("irons", irons)),
        )


# (words, field, figure) of the pitching wedge or a club of the spec, strongest first.
Run = list[tuple[str, str, Decimal]]


def _by_loft(facts: SpecFacts) -> list[ClubFacts]:
    return sorted(
        (club for club in facts.clubs if club.played_loft_deg is not None),
        key=lambda club: (club.played_loft_deg or Decimal(0), club.slot),
    )


def _lengths(facts: SpecFacts) -> Run:
    run: Run = []
    if facts.baseline_length_mm is not None:
        run.append((PITCHING_WEDGE, "baseline.length_mm", facts.baseline_length_mm))
    run += [
        (club_words(club), club.field("length_mm"), club.length_mm)
        for club in _by_loft(facts)
        if club.length_mm is not None
    ]
    return run


def _is_of_a_built_club(facts: SpecFacts, *fields: str) -> bool:
    """True where one of the fields is a club's with work to do: what is kept needs no look."""
    built = {f"club.{club.slot}." for club in facts.clubs if club.is_built}
    return any(field.startswith(start) for field in fields for start in built)


@SPEC_BOOK.rule(
    "SPEC-W063",
    Severity.LOOK,
    about="Lengths don't run through the set: a more lofted club is longer, or far shorter, than "
    "the one before it.",
    source=COMMON_PRACTICE,
    thresholds=("length_run_longer_mm", "length_run_shorter_mm"),
)
def lengths_do_not_run(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for (first, before, length), (second, field, next_length) in pairwise(_lengths(facts)):
        longer = next_length - length
        if -limits.length_run_shorter_mm <= longer <= limits.length_run_longer_mm:
            continue
        if _is_of_a_built_club(facts, before, field):
            yield Hit(
                fields=(field if _is_of_a_built_club(facts, field) else before,),
                sentence=f"{second} is {show_length(abs(longer), 'in')} "
                f"{'longer' if longer > 0 else 'shorter'} than {first}.",
                hint="Lengths usually stay or go down a quarter inch from club to club.",
                numbers=(("first", length), ("second", next_length)),
                besides=(before, field),
            )


def _swing_weights(facts: SpecFacts) -> Run:
    return [
        (club_words(club), club.field("swing_weight_points"), club.swing_weight_points)
        for club in _by_loft(facts)
        if club.swing_weight_points is not None
    ]


@SPEC_BOOK.rule(
    "SPEC-W064",
    Severity.LOOK,
    about="Swing weights don't run through the set: a more lofted club is lighter in the head "
    "than the one before it.",
    source=COMMON_PRACTICE,
    thresholds=("swing_weight_run_lighter",),
)
def swing_weights_do_not_run(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for (first, before, points), (second, field, next_points) in pairwise(_swing_weights(facts)):
        if points - next_points <= limits.swing_weight_run_lighter:
            continue
        if _is_of_a_built_club(facts, before, field):
            yield Hit(
                fields=(field if _is_of_a_built_club(facts, field) else before,),
                sentence=f"{second} is {points_text(next_points)}, lighter than "
                f"{first} with {points_text(points)}.",
                hint="Each wedge usually has the same or a point or two more.",
                numbers=(("first", points), ("second", next_points)),
                besides=(before, field),
            )


@SPEC_BOOK.rule(
    "SPEC-W065",
    Severity.LOOK,
    about="A swing weight below the pitching wedge's, or further above it than wedges usually are; "
    "a lob club may sit higher.",
    source=COMMON_PRACTICE,
    thresholds=("swing_weight_above_irons", "swing_weight_above_irons_lob", "lob_from_deg"),
)
def swing_weight_against_the_irons(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    irons = facts.baseline_swing_weight_points
    if irons is None:
        return
    for club in facts.clubs:
        points, loft = club.swing_weight_points, club.played_loft_deg
        if points is None or loft is None or not club.is_built:
            continue
        is_lob = loft >= limits.lob_from_deg
        most = limits.swing_weight_above_irons_lob if is_lob else limits.swing_weight_above_irons
        above = points - irons
        if not 0 <= above <= most:
            yield Hit(
                fields=(club.field("swing_weight_points"),),
                sentence=f"{club_words(club)}: {points_text(points)} is "
                f"{figure(abs(above))} {'above' if above > 0 else 'below'} the pitching wedge's "
                f"{points_text(irons)}; usual are 0 to {figure(most)} above.",
                hint="If targets fight, length comes before swing weight.",
                numbers=(("points", points), ("irons", irons)),
            )


def forecast(club: ClubFacts, limits: SpecLimits) -> DryWeight | None:
    """What the parts come to and what is to be added; None where it can't be told."""
    if club.dry is None or club.source is not ClubSource.NEW:
        return None
    return dry_weight(
        club.dry,
        limits.fixings(),
        target_points=club.swing_weight_points,
        most_added_g=limits.most_added_g,
    )


@SPEC_BOOK.rule(
    "SPEC-W066",
    Severity.LOOK,
    about="A swing weight that these parts don't reach within the bench's tolerance, with as much "
    "weight as a hosel takes; or that they are above by more than that and the forecast's doubt.",
    source="swing-weight-text",
    thresholds=(
        "most_added_g",
        "swing_weight_tolerance",
        "swing_weight_doubt",
        "epoxy_g",
        "ferrule_g",
        "tape_g",
        "base_layers",
        "insertion_mm",
    ),
)
def swing_weight_not_reached(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        found, wanted = forecast(club, limits), club.swing_weight_points
        if found is None or found.added is None or wanted is None:
            continue
        added = found.added
        # The forecast is high rather than low: a head's centre is taken at the club's full length.
        slack = limits.swing_weight_tolerance
        if added.mass_g < 0:
            slack += limits.swing_weight_doubt
        if abs(added.reached_points - float(wanted)) <= slack:
            continue
        reached = Decimal(str(round(added.reached_points, 1)))
        why = (
            f"with nothing added the parts come to {points_text(reached)}"
            if added.mass_g < 0
            else f"it would take {show_mass(added.mass_g)} in the hosel, "
            f"{show_mass(added.most_allowed_g)} is the most and gives {points_text(reached)}"
        )
        yield Hit(
            fields=(club.field("swing_weight_points"),),
            sentence=f"{club_words(club)}: {points_text(wanted)} is not reached; {why}.",
            hint="A lighter head or shaft, a heavier grip, or ask for what is reached; keep the "
            "length."
            if added.mass_g < 0
            else "A heavier head, a lighter grip, or ask for what is reached; keep the length.",
            numbers=(("wanted", wanted), ("reached", reached)),
        )


@SPEC_BOOK.rule(
    "SPEC-N060",
    Severity.NOTE,
    about="Whether a swing weight can be reached can't be foretold: a part's figure is missing.",
    source="swing-weight-text",
)
def swing_weight_not_foretold(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    for club in facts.clubs:
        is_asked = club.swing_weight_points is not None and club.source is ClubSource.NEW
        if is_asked and club.has_head and club.has_shaft and club.has_grip and club.dry is None:
            yield Hit(
                fields=(club.field("swing_weight_points"),),
                sentence=f"{club_words(club)}: whether its swing weight is reached can't be "
                "foretold; a mass, a balance point or a depth of its parts is not recorded.",
                hint="The dry fit at the bench will tell.",
            )


@SPEC_BOOK.rule(
    "SPEC-N061",
    Severity.NOTE,
    about="A light shaft for a junior, a senior, hands that hurt or light irons: C5 to D0 is "
    "normal, and weight is not added for its own sake.",
    source=COMMON_PRACTICE,
    thresholds=("light_shaft_g",),
)
def light_swing_weight_is_normal(facts: SpecFacts, limits: SpecLimits) -> Iterator[Hit]:
    irons = facts.player.iron_shaft_g
    # Beside heavy irons a light shaft is SPEC-W070's.
    if not facts.player.is_spared and (irons is None or irons > limits.light_shaft_g):
        return
    light = [
        club
        for club in facts.clubs
        if club.source is ClubSource.NEW
        and club.shaft.mass_g is not None
        and club.shaft.mass_g <= limits.light_shaft_g
    ]
    if light:
        heaviest = max(club.shaft.mass_g for club in light if club.shaft.mass_g is not None)
        yield Hit(
            fields=(light[0].field("swing_weight_points"),),
            sentence=f"With shafts of {figure(heaviest)} g a swing weight of C5 to D0 is normal: "
            "nothing is added for its own sake.",
            numbers=(("shaft", heaviest),),
        )
