"""What the carries of a visit would be where the player plays: as bands, or what is missing.

A home figure is worked out and never shown as measured. It waits until the player's home and its
altitude are known, the air of the visit is noted, and every block that counts says that its
figures are as flown.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from sessions.maths.air import Air, air_elsewhere, air_of, standard_altitude_m
from sessions.maths.errors import AirRefused, CarryNotBrought, NotAFigure
from sessions.maths.other_air import (
    UNANSWERED,
    CarryBand,
    FlownCarry,
    carries_in_other_air,
    gap_in_other_air,
)
from sessions.maths.shown import show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.air_noted import pressure_doubt

AS_FLOWN: Final = "as flown"
NO_HOME = "Write on the player's page where he or she plays and how high it lies."
NO_AIR = "Note the air of the visit: its temperature, and the pressure or the altitude."
NORMALISED = (
    "The device normalised figures of this visit: taking them home would correct them twice."
)
NOT_HIT = "The carry is what the player says, not measured here: there is nothing to take home."
# A wind that is worth a word.
SAID_WIND_MS = 2.0


@dataclass(frozen=True)
class HomeFacts:
    """What home figures need. `figures` are the blocks' answers, None where there is none.

    `answered_later` is what was said afterwards of the blocks that have no answer of their own.
    """

    home_place: str = ""
    home_altitude_m: float | None = None
    temperature_c: float | None = None
    pressure_hpa: float | None = None
    altitude_m: float | None = None
    humidity_pct: float | None = None
    wind_ms: float | None = None
    figures: Collection[str | None] = ()
    answered_later: str | None = None

    @property
    def answers(self) -> set[str | None]:
        """What the blocks' figures are, with the later answer in the place of none."""
        return {self.answered_later if each is None else each for each in self.figures}


@dataclass(frozen=True)
class HomeAir:
    """The air here and at home, and its name; or the sentences that say what is missing.

    Wanted are home figures where anything is known of the player's home. Where blocks have no
    answer of their own (`has_unanswered`) it may be given afterwards.
    """

    here: Air | None = None
    there: Air | None = None
    place: str = ""
    has_wind: bool = False
    missing: tuple[str, ...] = ()
    is_wanted: bool = True
    has_unanswered: bool = False
    answered_later: str | None = None


def home_air(facts: HomeFacts) -> HomeAir:
    """The two airs, or what they wait for: every missing thing in a sentence of its own."""
    if facts.home_altitude_m is None and not facts.home_place:
        return HomeAir(missing=(NO_HOME,), is_wanted=False)
    missing = [*_missing_answers(facts), *_missing_places(facts)]
    if missing or facts.home_altitude_m is None:
        return HomeAir(
            missing=tuple(missing),
            has_unanswered=None in facts.figures,
            answered_later=facts.answered_later,
        )
    try:
        here = air_of(
            facts.temperature_c,
            pressure_hpa=facts.pressure_hpa,
            altitude_m=facts.altitude_m,
            humidity_pct=facts.humidity_pct,
        )
        up = facts.altitude_m
        height = standard_altitude_m(here.pressure_hpa) if up is None else up
        there = air_elsewhere(here, facts.home_altitude_m - height, facts.home_altitude_m)
    except AirRefused as refused:
        return HomeAir(missing=(str(refused),))
    altitude = f"{facts.home_altitude_m:,.0f} m"
    return HomeAir(
        here=here,
        there=there,
        place=f"{facts.home_place}, {altitude}" if facts.home_place else altitude,
        has_wind=facts.wind_ms is not None and facts.wind_ms >= SAID_WIND_MS,
        has_unanswered=None in facts.figures,
        answered_later=facts.answered_later,
    )


def _missing_answers(facts: HomeFacts) -> Iterable[str]:
    answers = facts.answers
    if not answers:
        yield NOT_HIT
    if None in answers:
        yield UNANSWERED
    if answers - {None, AS_FLOWN}:
        yield NORMALISED


def _missing_places(facts: HomeFacts) -> Iterable[str]:
    if facts.home_altitude_m is None:
        yield f"Write on the player's page how high {facts.home_place} lies."
    if facts.pressure_hpa is not None:
        doubt = pressure_doubt(facts.pressure_hpa, facts.altitude_m)
        if doubt:
            yield f"Note the air again: {doubt}"
    if facts.temperature_c is None or (facts.pressure_hpa is None and facts.altitude_m is None):
        yield NO_AIR


def home_carries(air: HomeAir, flown: Sequence[FlownCarry]) -> dict[FlownCarry, CarryBand]:
    """Each carry's band at home. One that no plausible launch fits is left out."""
    if air.here is None or air.there is None or not flown:
        return {}
    try:
        bands = carries_in_other_air(flown, air.here, air.there, figures=AS_FLOWN)
    except (CarryNotBrought, NotAFigure):
        if len(flown) == 1:
            return {}
        alone = [home_carries(air, [each]) for each in flown]
        return {each: band for found in alone for each, band in found.items()}
    return dict(zip(flown, bands, strict=True))


def home_words(band: CarryBand, unit: DistanceUnit) -> str:
    """`about 153 to 157 yd`: always a band, never a figure that could pass for a measured one."""
    return _about(band.low_m, band.high_m, unit)


def home_gap_words(longer: CarryBand, shorter: CarryBand, unit: DistanceUnit) -> str:
    """`about 14 to 15 yd`, model by model."""
    return _about(*gap_in_other_air(longer, shorter), unit)


def air_sentences(air: HomeAir) -> tuple[str, ...]:
    """What the bands rest on, in words."""
    if air.here is None or air.there is None:
        return ()
    share = (air.there.density_kg_m3 / air.here.density_kg_m3 - 1) * 100
    way = "thinner" if share < 0 else "denser"
    said = [
        "Worked out from the air, not measured: the spread of three models of a ball's flight. "
        "The doubt of the balls comes on top.",
        f"Air {abs(share):.0f} % {way} than here, on a day like this: {_degrees(air.here)} here, "
        f"{_degrees(air.there)} there.",
    ]
    if air.has_unanswered:
        said.append("That the figures are as flown was said afterwards of some blocks.")
    if air.has_wind:
        said.append("Today's wind is in the measured carries, and so in these.")
    return tuple(said)


def _degrees(air: Air) -> str:
    return f"{air.temperature_c:.0f} °C".replace("-", "\N{MINUS SIGN}")


def _about(low_m: float, high_m: float, unit: DistanceUnit) -> str:
    low, high = (show_distance(each, unit).split()[0] for each in (low_m, high_m))
    return f"about {low} {unit}" if low == high else f"about {low} to {high} {unit}"
