"""Figures as people type them, into metric: one function per quantity.

Lengths, angles and masses come back as Decimal, as their columns hold them; distances and speeds
as float. A comma is a decimal mark, never a thousands mark. The factors and the believable limits
live in ``unit_factors`` and the way back in ``shown``; both are handed on from here.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from types import MappingProxyType

from sessions.maths.errors import UnitRefused
from sessions.maths.shown import (
    SWING_WEIGHT_LETTERS,
    distance_in,
    show_degrees,
    show_distance,
    show_inches,
    show_length,
    show_mass,
    show_side,
    show_speed,
    show_swing_weight,
)
from sessions.maths.unit_factors import (
    ATTACK_LIMITS_DEG,
    BEND_LIMITS_DEG,
    BOUNCE_LIMITS_DEG,
    CARRY_LIMITS_M,
    CLUB_MASS_LIMITS_G,
    COUNT_LIMITS,
    G_PER_OUNCE,
    HEAD_MASS_LIMITS_G,
    HEIGHT_LIMITS_M,
    KMH_PER_MPS,
    LAUNCH_LIMITS_DEG,
    LENGTH_LIMITS_MM,
    LIE_LIMITS_DEG,
    LOFT_LIMITS_DEG,
    M_PER_FOOT,
    M_PER_YARD,
    MM_PER_CM,
    MM_PER_INCH,
    MPS_PER_MPH,
    PART_MASS_LIMITS_G,
    SIDE_LIMITS_M,
    SPEED_LIMITS_MPS,
    SPIN_LIMITS_RPM,
    SWING_WEIGHT_LIMITS,
    BendAxis,
    DistanceUnit,
    LengthUnit,
    Limits,
    MassUnit,
    SpeedUnit,
)

__all__ = [
    "ATTACK_LIMITS_DEG", "BEND_LIMITS_DEG", "BOUNCE_LIMITS_DEG", "CARRY_LIMITS_M",
    "CLUB_MASS_LIMITS_G", "COUNT_LIMITS", "G_PER_OUNCE", "HEAD_MASS_LIMITS_G",
    "HEIGHT_LIMITS_M", "KMH_PER_MPS", "LAUNCH_LIMITS_DEG", "LENGTH_LIMITS_MM", "LIE_LIMITS_DEG",
    "LOFT_LIMITS_DEG", "MM_PER_CM", "MM_PER_INCH", "MPS_PER_MPH", "M_PER_FOOT", "M_PER_YARD",
    "PART_MASS_LIMITS_G", "SIDE_LIMITS_M", "SPEED_LIMITS_MPS", "SPIN_LIMITS_RPM",
    "SWING_WEIGHT_LIMITS", "BendAxis", "DistanceUnit", "LengthUnit", "Limits", "MassUnit",
    "SpeedUnit", "distance_in", "parse_angle", "parse_bend", "parse_bounce", "parse_count",
    "parse_distance", "parse_length", "parse_lie", "parse_loft", "parse_mass", "parse_side",
    "parse_speed", "parse_spin", "parse_swing_weight", "show_degrees", "show_distance",
    "show_inches", "show_length", "show_mass", "show_side", "show_speed", "show_swing_weight",
]  # fmt: skip

# Longer than any figure with its unit; keeps a pasted page out of the sentences.
LONGEST_FIGURE = 40

_NUMBER = r"[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+"
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_FIGURE = re.compile(rf"(?P<sign>[+-]?) ?(?P<number>{_NUMBER}) ?(?P<unit>[^\d.,+-].*)?")
_FRACTION = re.compile(
    r"(?:(?P<whole>\d{1,3})(?: |-))?(?P<top>\d{1,2}) ?/ ?(?P<bottom>2|4|8|16|32|64)"
    r" ?(?P<unit>[^\d/.,+-].*)?"
)
_SWING_WEIGHT = re.compile(rf"(?P<letter>[a-g]) ?(?P<number>{_NUMBER})")
_BEND = re.compile(rf"(?P<number>{_NUMBER}) ?(?:deg|degrees?|°)? ?(?P<way>[a-z]+)")


@dataclass(frozen=True)
class _Quantity:
    """One kind of figure: its units' factors to metric, their spellings, words and examples."""

    factors: Mapping[str, Decimal]
    spellings: Mapping[str, str]
    words: Mapping[str, str]
    examples: Mapping[str, str]


def _frozen(**items: str) -> Mapping[str, str]:
    return MappingProxyType(items)


_LENGTH = _Quantity(
    factors={"in": MM_PER_INCH, "mm": Decimal(1), "cm": MM_PER_CM},
    spellings={
        "in": "in", "in.": "in", "inch": "in", "inches": "in", '"': "in", "''": "in",
        "mm": "mm", "cm": "cm",
    },
    words=_frozen(**{"in": "inches", "mm": "millimetres", "cm": "centimetres"}),
    examples=_frozen(**{"in": "35 1/2", "mm": "902", "cm": "90.2"}),
)  # fmt: skip
_DISTANCE = _Quantity(
    factors={"yd": M_PER_YARD, "m": Decimal(1), "ft": M_PER_FOOT},
    spellings={
        "yd": "yd", "yds": "yd", "yd.": "yd", "y": "yd", "yard": "yd", "yards": "yd",
        "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
        "ft": "ft", "foot": "ft", "feet": "ft",
    },
    words=_frozen(yd="yards", m="metres", ft="feet"),
    examples=_frozen(yd="98", m="90", ft="85"),
)  # fmt: skip
_ANGLE = _Quantity(
    factors={"deg": Decimal(1)},
    spellings={"deg": "deg", "deg.": "deg", "degree": "deg", "degrees": "deg", "°": "deg"},
    words=_frozen(deg="degrees"),
    examples=_frozen(deg="54.5"),
)
_MASS = _Quantity(
    factors={"g": Decimal(1), "oz": G_PER_OUNCE},
    spellings={"g": "g", "gram": "g", "grams": "g", "oz": "oz", "ounce": "oz", "ounces": "oz"},
    words=_frozen(g="grams", oz="ounces"),
    examples=_frozen(g="302.5", oz="10.7"),
)
_SPEED = _Quantity(
    factors={"mph": MPS_PER_MPH, "m/s": Decimal(1), "km/h": 1 / KMH_PER_MPS},
    spellings={
        "mph": "mph", "mi/h": "mph", "m/s": "m/s", "mps": "m/s",
        "km/h": "km/h", "kmh": "km/h", "kph": "km/h",
    },
    words=_frozen(**{"mph": "miles per hour", "m/s": "metres per second",
                     "km/h": "kilometres per hour"}),
    examples=_frozen(**{"mph": "82", "m/s": "36.7", "km/h": "132"}),
)  # fmt: skip


# --- reading what was typed ---------------------------------------------------------------


def parse_length(
    text: str,
    *,
    unit: LengthUnit = "in",
    name: str = "length",
    limits: Limits = LENGTH_LIMITS_MM,
) -> Decimal:
    """Read a club length, `35 1/2"`, `35.5 in`, `90,2 cm` or `902`, as millimetres.

    A number alone is in ``unit``. The answer has four decimals, as the column holds it.

    Raises:
        UnitRefused: what was typed is no length, or lies outside ``limits`` [mm].
    """
    metric = _parse(_LENGTH, text, unit, name, limits)
    return metric.quantize(Decimal("0.0001"), ROUND_HALF_UP)


def parse_distance(
    text: str,
    *,
    unit: DistanceUnit = "yd",
    name: str = "carry",
    limits: Limits = CARRY_LIMITS_M,
) -> float:
    """Read a distance, `123 yd`, `112 m` or `123` in ``unit``, as metres.

    Raises:
        UnitRefused: what was typed is no distance, or lies outside ``limits`` [m].
    """
    return float(_parse(_DISTANCE, text, unit, name, limits))


def parse_side(
    text: str,
    *,
    unit: DistanceUnit = "yd",
    name: str = "distance to the side",
    limits: Limits = SIDE_LIMITS_M,
) -> float:
    """Read `4 left`, `3 yd right`, `R3` or `-4` as metres, positive to the player's right.

    Raises:
        UnitRefused: no distance, a minus sign together with a word, or outside ``limits`` [m].
    """
    tidy = _tidy(text)
    way = re.fullmatch(r"(?:(l|left|r|right) ?)?(.*?)(?: ?(l|left|r|right))?", tidy)
    before, figure, after = way.groups() if way else (None, tidy, None)
    word = before or after
    if (before and after) or (word and figure[:1] in ("-", "+")):
        raise UnitRefused(_how_to_type(_DISTANCE, unit, name, example="4 left"))
    metric = _parse(_DISTANCE, figure, unit, name, limits, example="4 left")
    return float(-metric if word in ("l", "left") else metric)


def parse_angle(text: str, *, name: str, limits: Limits, example: str = "54.5") -> Decimal:
    """Read an angle, `54`, `54.5`, `54,5` or `54.5 deg`, as degrees with two decimals.

    Raises:
        UnitRefused: what was typed is no angle, or lies outside ``limits`` [deg].
    """
    metric = _parse(_ANGLE, text, "deg", name, limits, example)
    return metric.quantize(Decimal("0.01"), ROUND_HALF_UP)


def parse_loft(text: str, *, name: str = "loft", limits: Limits = LOFT_LIMITS_DEG) -> Decimal:
    """Read a loft in degrees."""
    return parse_angle(text, name=name, limits=limits, example="54.5")


def parse_lie(text: str, *, name: str = "lie", limits: Limits = LIE_LIMITS_DEG) -> Decimal:
    """Read a lie in degrees."""
    return parse_angle(text, name=name, limits=limits, example="63.5")


def parse_bounce(text: str, *, name: str = "bounce", limits: Limits = BOUNCE_LIMITS_DEG) -> Decimal:
    """Read a bounce in degrees."""
    return parse_angle(text, name=name, limits=limits, example="10")


def parse_bend(text: str, *, axis: BendAxis = "loft", limits: Limits = BEND_LIMITS_DEG) -> Decimal:
    """Read a bend in words as degrees: weak and upright positive, strong and flat negative.

    `none` and `0` are no bend. A bare number is refused: it does not say which way.

    Raises:
        UnitRefused: no bend in words of this axis, or outside ``limits`` [deg].
    """
    plus, minus = ("weak", "strong") if axis == "loft" else ("upright", "flat")
    tidy = _tidy(text)
    if tidy in ("none", "no bend", "0"):
        return Decimal("0.00")
    found = _BEND.fullmatch(tidy[:LONGEST_FIGURE])
    if found is None or found["way"] not in (plus, minus):
        raise UnitRefused(
            f"Type a {axis} bend in degrees and which way, for example "
            f"1 {plus}, 0.5 {minus} or none."
        )
    size = _decimal(found["number"])
    bend = size if found["way"] == plus else -size
    _refuse_unbelievable(bend, " ".join(text.split()), f"{axis} bend", limits, Decimal(1))
    return bend.quantize(Decimal("0.01"), ROUND_HALF_UP)


def parse_mass(text: str, *, unit: MassUnit = "g", name: str, limits: Limits) -> Decimal:
    """Read a mass, `302.5`, `302 g` or `10.7 oz`, as grams with two decimals.

    Raises:
        UnitRefused: what was typed is no mass, or lies outside ``limits`` [g].
    """
    return _parse(_MASS, text, unit, name, limits).quantize(Decimal("0.01"), ROUND_HALF_UP)


def parse_speed(
    text: str,
    *,
    unit: SpeedUnit = "mph",
    name: str = "ball speed",
    limits: Limits = SPEED_LIMITS_MPS,
) -> float:
    """Read a speed, `82 mph`, `36.7 m/s` or `132 km/h`, as metres per second.

    Raises:
        UnitRefused: what was typed is no speed, or lies outside ``limits`` [m/s].
    """
    return float(_parse(_SPEED, text, unit, name, limits))


def parse_count(
    text: str, *, name: str, unit: str = "", limits: Limits = COUNT_LIMITS, example: str = "12"
) -> int:
    """Read a whole number of something, `12` or, with unit `rpm`, `9300 rpm`.

    Raises:
        UnitRefused: not a whole number (a comma in it included), or outside ``limits``.
    """
    tidy = _tidy(text)
    if unit:
        tidy = tidy.removesuffix(unit).rstrip()
    if not re.fullmatch(r"\d{1,9}", tidy, re.ASCII):
        of = f" in {unit}" if unit else ""
        raise UnitRefused(
            f"Type {_with_article(name)}{of} as a whole number without a comma, "
            f"for example {example}."
        )
    typed = f"{tidy} {unit}".rstrip()
    _refuse_unbelievable(Decimal(tidy), typed, name, limits, Decimal(1))
    return int(tidy)


def parse_spin(text: str, *, name: str = "spin", limits: Limits = SPIN_LIMITS_RPM) -> int:
    """Read a spin rate as whole revolutions per minute."""
    return parse_count(text, name=name, unit="rpm", limits=limits, example="9300")


def parse_swing_weight(
    text: str, *, name: str = "swing weight", limits: Limits = SWING_WEIGHT_LIMITS
) -> Decimal:
    """Read a swing weight, `D2` or `d2,5`, as points above D0 (C5 is -5).

    Raises:
        UnitRefused: not a letter A to G with 0 to 9.9, or outside ``limits`` [points].
    """
    found = _SWING_WEIGHT.fullmatch(_tidy(text)[:LONGEST_FIGURE])
    if found is None or _decimal(found["number"]) >= 10:
        raise UnitRefused(f"Type {_with_article(name)} as a letter and points, for example D2.5.")
    points = 10 * (SWING_WEIGHT_LETTERS.index(found["letter"].upper()) - 3) + _decimal(
        found["number"]
    )
    if not limits[0] <= points <= limits[1]:
        raise UnitRefused(
            f"{_with_article(name).capitalize()} of {show_swing_weight(points)} is not "
            f"believable: {show_swing_weight(limits[0])} to {show_swing_weight(limits[1])}."
        )
    return points.quantize(Decimal("0.1"), ROUND_HALF_UP)


# --- the shared machinery -----------------------------------------------------------------


def _parse(
    quantity: _Quantity, text: str, unit: str, name: str, limits: Limits, example: str = ""
) -> Decimal:
    """Return the typed figure in metric, or refuse with a sentence in the field's unit."""
    if len(text) > LONGEST_FIGURE:
        raise UnitRefused(_how_to_type(quantity, unit, name, example))
    tidy = _tidy(text)
    found = _FIGURE.fullmatch(tidy)
    fraction = _FRACTION.fullmatch(tidy) if quantity is _LENGTH else None
    match = fraction or found
    said = (match["unit"] or "").strip() if match else ""
    typed_unit = quantity.spellings.get(said) if said else unit
    if match is None or typed_unit is None or (fraction and typed_unit != "in"):
        raise UnitRefused(_how_to_type(quantity, unit, name, example))
    if fraction:
        value = Decimal(fraction["whole"] or 0) + Decimal(fraction["top"]) / int(fraction["bottom"])
    else:
        value = _decimal(match["number"]) * (-1 if match["sign"] == "-" else 1)
    metric = value * quantity.factors[typed_unit]
    shown = "" if typed_unit == "deg" else f" {typed_unit}"
    figure = tidy[: len(tidy) - len(said)].strip() if said else tidy
    _refuse_unbelievable(
        metric, f"{figure}{shown or ' degrees'}", name, limits, quantity.factors[unit],
        unit if unit != typed_unit else "",
    )  # fmt: skip
    return metric


def _refuse_unbelievable(
    metric: Decimal, typed: str, name: str, limits: Limits, factor: Decimal, unit: str = ""
) -> None:
    """Refuse a value outside the limits, said inwards in whole units of the field."""
    low, high = (limit / factor for limit in limits)
    if limits[0] <= metric <= limits[1]:
        return
    whole = Decimal(1) if high - low >= 10 else Decimal("0.01")
    said_low = low.quantize(whole, ROUND_CEILING)
    said_high = high.quantize(whole, ROUND_FLOOR)
    raise UnitRefused(
        f"{_with_article(name).capitalize()} of {typed} is not believable: "
        f"{said_low} to {said_high}{f' {unit}' if unit else ''}."
    )


def _how_to_type(quantity: _Quantity, unit: str, name: str, example: str = "") -> str:
    shown = example or quantity.examples[unit]
    return f"Type {_with_article(name)} in {quantity.words[unit]}, for example {shown}."


def _with_article(name: str) -> str:
    return f"{'an' if name[:1].lower() in 'aeio' else 'a'} {name}"


def _tidy(text: str) -> str:
    """Lower case, one kind of space, minus and inch mark, printed fractions spelled out."""
    for printed, spelled in _VULGAR.items():
        text = text.replace(printed, f" {spelled}")
    text = re.sub("[″“”]", '"', text.replace("−", "-"))
    return " ".join(text.casefold().split())


def _decimal(number: str) -> Decimal:
    """A comma is a decimal mark, never a thousands mark."""
    return Decimal(number.replace(",", "."))
