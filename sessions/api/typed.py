"""What a tablet typed, into metric values: figures as text with a unit, words, flags and ids.

One function per kind of command. Nothing is refused here: what doesn't fit becomes a sentence
beside its field, and the service is never asked.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, TypeVar, cast
from uuid import UUID

from sessions.api.figures import (
    AXIS_DEG,
    BALL_SPEED_MS,
    CLUB_CARRY_M,
    HUMIDITY_PCT,
    LANDING_DEG,
    LAUNCH_DEG,
    LEAN_DEG,
    PRESSURE_HPA,
    SHOT_CARRY_M,
    WIND_MS,
    WIND_TO_DEG,
    altitude_of,
    carry_of,
    count_of,
    degrees_of,
    plain_of,
    slot_of,
    temperature_of,
)
from sessions.maths.errors import UnitRefused
from sessions.maths.units import (
    ATTACK_LIMITS_DEG,
    CLUB_MASS_LIMITS_G,
    HEIGHT_LIMITS_M,
    LENGTH_LIMITS_MM,
    DistanceUnit,
    LengthUnit,
    SpeedUnit,
    parse_bounce,
    parse_count,
    parse_length,
    parse_lie,
    parse_loft,
    parse_mass,
    parse_side,
    parse_speed,
    parse_spin,
    parse_swing_weight,
)

T = TypeVar("T")

NOT_TEXT = "Send this as it was typed, as text."
LONGEST_WORDS = 300
# Behind a pressure: it is a weather report's, brought to sea level.
SEA_LEVEL = "sea level"


@dataclass(frozen=True, slots=True)
class Units:
    """What a bare figure is in, where the entry doesn't say: the player's and the shop's units."""

    carry: DistanceUnit = "yd"
    length: LengthUnit = "in"


@dataclass(slots=True)
class Typed:
    """An entry being read: its values so far, sentences beside its fields, what was typed."""

    body: Mapping[str, Any]
    units: Units
    values: dict[str, Any] = field(default_factory=dict)
    errors: dict[str, str] = field(default_factory=dict)
    as_typed: dict[str, str] = field(default_factory=dict)

    def text(self, name: str, column: str = "", longest: int = LONGEST_WORDS) -> str:
        """A text of at most `longest` letters; "" where nothing was typed."""
        typed = self.body.get(name)
        words = typed.strip() if isinstance(typed, str) else ""
        if typed is not None and not isinstance(typed, str):
            self.errors[name] = NOT_TEXT
        elif len(words) > longest:
            self.errors[name] = f"That is {len(words)} letters; at most {longest} fit."
        self.values[column or name] = words
        return words

    def figure(self, name: str, column: str, parse: Callable[[str], Any]) -> None:
        """A figure in metric; None where nothing was typed. What was typed is kept beside it."""
        typed = self.body.get(name)
        self.values[column] = None
        if typed is not None and not isinstance(typed, str):
            self.errors[name] = NOT_TEXT
        elif typed is not None and typed.strip():
            self.as_typed[name] = typed.strip()
            try:
                self.values[column] = parse(typed)
            except UnitRefused as refused:
                self.errors[name] = str(refused)

    def id(self, name: str, column: str = "", *, is_needed: bool = True) -> None:
        typed = self.body.get(name)
        self.values[column or name] = None
        if typed in (None, "") and not is_needed:
            return
        try:
            self.values[column or name] = UUID(cast("str", typed))
        except (ValueError, TypeError, AttributeError):
            self.errors[name] = "This entry has lost what it belongs to."

    def ids(self, name: str) -> None:
        typed = self.body.get(name)
        try:
            self.values[name] = [UUID(one) for one in cast("list[str]", typed)]
        except (ValueError, TypeError, AttributeError):
            self.values[name] = []
            self.errors[name] = "This entry has lost what it belongs to."

    def flag(self, name: str, *, otherwise: bool = False) -> None:
        typed = self.body.get(name, otherwise)
        self.values[name] = typed if isinstance(typed, bool) else otherwise
        if not isinstance(typed, bool):
            self.errors[name] = "Choose yes or no."

    def maybe(self, name: str) -> None:
        """Yes, no, or not said."""
        typed = self.body.get(name)
        self.values[name] = typed if isinstance(typed, bool) else None
        if typed not in (None, "", True, False):
            self.errors[name] = "Choose yes or no."

    def unit(self, name: str, known: Mapping[str, T], otherwise: T) -> T:
        """The unit that the entry names, or the one that holds where it names none."""
        typed = self.body.get(name) or ""
        if typed == "":
            return otherwise
        if not isinstance(typed, str) or typed not in known:
            self.errors[name] = f"Choose one of: {', '.join(known)}."
            return otherwise
        self.as_typed[name] = typed
        return known[typed]

    def carry_unit(self) -> DistanceUnit:
        known: dict[str, DistanceUnit] = {"yd": "yd", "m": "m"}
        return self.unit("unit", known, self.units.carry)

    def speed_unit(self) -> SpeedUnit:
        known: dict[str, SpeedUnit] = {"mph": "mph", "m/s": "m/s", "km/h": "km/h"}
        return self.unit("speed_unit", known, "mph")

    def taken(self) -> Typed:
        self.values["as_typed"] = self.as_typed
        return self


def _interview_answer(it: Typed) -> None:
    it.id("id")
    it.text("question", longest=60)
    it.values["value"] = it.body.get("value")
    it.flag("ask_later")
    it.text("said_by", longest=10)
    it.text("said_where", longest=10)


def _bag_club(it: Typed) -> None:
    it.id("id")
    it.id("club_id")
    for name, longest in (
        ("kind", 16), ("label", 40), ("maker", 60), ("model", 60), ("making", 40),
        ("shaft", 120), ("grooves", 8), ("shots", 120), ("note", 300),
    ):  # fmt: skip
        it.text(name, longest=longest)
    unit = it.carry_unit()
    it.figure("stamped_loft", "stamped_loft_deg", parse_loft)
    it.figure("stamped_bounce", "stamped_bounce_deg", parse_bounce)
    it.figure("loft", "loft_deg", parse_loft)
    it.figure("lie", "lie_deg", parse_lie)
    it.figure("bounce", "bounce_deg", parse_bounce)
    it.figure(
        "length",
        "length_mm",
        lambda typed: parse_length(typed, unit=it.units.length, limits=LENGTH_LIMITS_MM),
    )
    it.figure("swing_weight", "swing_weight_points", parse_swing_weight)
    for name in ("stock_carry", "flat_out_carry"):
        it.figure(name, f"{name}_m", carry_of(unit, CLUB_CARRY_M))
    it.maybe("has_crack")
    it.maybe("is_kept")
    it.maybe("is_loved")


def _bag_others(it: Typed) -> None:
    counts, unused = it.body.get("counts"), it.body.get("unused") or {}
    it.values["counts"] = {}
    if not isinstance(counts, dict) or not isinstance(unused, dict):
        it.errors["counts"] = "Type how many there are of each kind."
        return
    for kind in counts:
        try:
            it.values["counts"][kind] = (count_of(counts[kind]), count_of(unused.get(kind, "")))
        except UnitRefused as refused:
            it.errors[kind] = str(refused)


def _conditions_record(it: Typed) -> None:
    it.id("id")
    it.figure("temperature", "temperature_c", temperature_of)
    it.figure(
        "pressure",
        "pressure_hpa",
        plain_of("pressure", PRESSURE_HPA, (SEA_LEVEL, "at", "hpa", "mbar"), "1013", "hPa"),
    )
    it.values["is_sea_level"] = it.as_typed.get("pressure", "").casefold().endswith(SEA_LEVEL)
    it.figure("altitude", "altitude_m", altitude_of)
    it.figure(
        "humidity", "humidity_pct", plain_of("humidity", HUMIDITY_PCT, ("%",), "60", "per cent")
    )
    it.figure(
        "wind", "wind_ms", lambda typed: parse_speed(typed, unit="m/s", name="wind", limits=WIND_MS)
    )
    it.figure("wind_to", "wind_to_deg", degrees_of("wind direction", WIND_TO_DEG, "90"))


def _trial_start(it: Typed) -> None:
    it.id("id")
    it.text("purpose", longest=10)
    for name in ("club_id", "trial_head_id", "trial_shaft_id", "adapter_id"):
        it.id(name, is_needed=False)
    it.figure("slot", "slot", slot_of)
    it.text("role", longest=10)
    it.figure("loft", "loft_deg", parse_loft)
    it.figure("lie", "lie_deg", parse_lie)
    it.figure("swing_weight", "swing_weight_points", parse_swing_weight)
    it.figure(
        "mass", "mass_g", lambda typed: parse_mass(typed, name="mass", limits=CLUB_MASS_LIMITS_G)
    )
    changed = it.body.get("changed") or []
    it.values["changed"] = changed if isinstance(changed, list) else []
    it.flag("head_tight")


def _trial_finish(it: Typed) -> None:
    it.id("trial_id")


def _block_start(it: Typed) -> None:
    it.id("id")
    it.id("trial_id")
    for name in (
        "swing", "hit_from", "ground", "wetness", "face", "ball", "carry_got", "spin_got",
        "as_flown",
    ):  # fmt: skip
        it.text(name, longest=14)
    it.id("device_id", is_needed=False)
    it.figure("target", "target_m", carry_of(it.carry_unit(), SHOT_CARRY_M, "target"))
    it.flag("is_warm_up")


def _shot_record(it: Typed) -> None:
    it.id("id")
    it.id("block_id")
    unit, speed = it.carry_unit(), it.speed_unit()
    it.figure("carry", "carry_m", carry_of(unit, SHOT_CARRY_M))
    it.figure("side", "side_m", lambda typed: parse_side(typed, unit=unit))
    it.figure("total", "total_m", carry_of(unit, SHOT_CARRY_M, "total"))
    it.figure("apex", "apex_m", carry_of(unit, HEIGHT_LIMITS_M, "height"))
    it.figure(
        "ball_speed",
        "ball_speed_ms",
        lambda typed: parse_speed(typed, unit=speed, limits=BALL_SPEED_MS),
    )
    it.figure(
        "club_speed",
        "club_speed_ms",
        lambda typed: parse_speed(typed, unit=speed, name="club speed"),
    )
    it.figure("spin", "spin_rpm", lambda typed: float(parse_spin(typed)))
    for name, words, limits, example in (
        ("launch", "launch angle", LAUNCH_DEG, "28"),
        ("spin_axis", "spin axis", AXIS_DEG, "-3"),
        ("landing", "landing angle", LANDING_DEG, "48"),
        ("attack", "angle of attack", ATTACK_LIMITS_DEG, "-5"),
        ("lean", "shaft lean", LEAN_DEG, "4"),
    ):
        it.figure(name, f"{name}_deg", degrees_of(words, limits, example))
    for name in ("strike", "turf", "divot", "flight"):
        it.text(name, longest=8)
    it.flag("in_mean", otherwise=True)


def _shot_exclude(it: Typed) -> None:
    it.id("id")
    it.id("shot_id")
    it.text("reason", longest=10)


def _shot_mend(it: Typed) -> None:
    """Only what is sent is said otherwise."""
    for name in ("id", "exclusion_id", "shot_id"):
        it.id(name)
    it.id("block_id", is_needed=False)
    unit = it.carry_unit()
    if "carry" in it.body:
        it.figure("carry", "carry_m", carry_of(unit, SHOT_CARRY_M))
    if "side" in it.body:
        it.figure("side", "side_m", lambda typed: parse_side(typed, unit=unit))
    for name in ("strike", "turf", "divot", "flight"):
        if name in it.body:
            it.text(name, longest=8)
    if "in_mean" in it.body:
        it.flag("in_mean", otherwise=True)


def _act_take_back(it: Typed) -> None:
    it.id("id")
    it.id("of_id")
    if it.text("what", longest=10) not in ("exclusion", "rating", "hand_over"):
        it.errors["what"] = "Choose one of: exclusion, rating, hand_over."


def _rating_record(it: Typed) -> None:
    it.id("id")
    it.id("trial_id")
    it.text("about", longest=8)
    _score(it)
    _rated_in(it)


def _equipment_withdraw(it: Typed) -> None:
    what = it.text("what", longest=10)
    if what not in ("head", "shaft", "adapter"):
        it.errors["what"] = "Choose one of: head, shaft, adapter."
    it.id("item_id")
    it.text("why", longest=200)


def _comparison_open(it: Typed) -> None:
    it.id("id")
    it.figure("slot", "slot", slot_of)
    it.ids("trial_ids")
    it.flag("covered")
    it.flag("knowingly")
    # A tablet that was loaded before there was a choice sends none.
    it.values["kind"] = it.text("kind", longest=15) or "all_against_all"
    # Drawn here, at the door: a service is given everything it decides by.
    it.values["seed"] = secrets.randbelow(2**31)


def _comparison_rate(it: Typed) -> None:
    it.id("id")
    it.id("comparison_id")
    _code(it)
    it.text("about", longest=8)
    _score(it)
    it.figure(
        "turn",
        "turn",
        lambda text: parse_count(text, name="turn", limits=(Decimal(0), Decimal(8))),
    )
    _rated_in(it)


def _rated_in(it: Typed) -> None:
    """Where a rating was given; a tablet that was loaded earlier sends none of it."""
    for name in ("swing", "hit_from", "ground", "wetness", "face"):
        it.text(name, longest=14)
    it.figure("target", "target_m", carry_of(it.carry_unit(), SHOT_CARRY_M, "target"))


def _comparison_reveal(it: Typed) -> None:
    it.id("comparison_id")


def _comparison_peek(it: Typed) -> None:
    it.id("id", is_needed=False)
    it.id("comparison_id")
    _code(it)


READERS: Mapping[str, Callable[[Typed], None]] = {
    "interview.answer": _interview_answer,
    "interview.close": lambda it: None,
    "bag.club": _bag_club,
    "bag.others": _bag_others,
    "conditions.record": _conditions_record,
    "trial.start": _trial_start,
    "trial.finish": _trial_finish,
    "block.start": _block_start,
    "shot.record": _shot_record,
    "shot.exclude": _shot_exclude,
    "shot.mend": _shot_mend,
    "act.take_back": _act_take_back,
    "rating.record": _rating_record,
    "equipment.withdraw": _equipment_withdraw,
    "comparison.open": _comparison_open,
    "comparison.rate": _comparison_rate,
    "comparison.reveal": _comparison_reveal,
    "comparison.peek": _comparison_peek,
}


def typed(kind: str, body: Mapping[str, Any], units: Units) -> Typed:
    """Read one entry; an unknown kind has a sentence of its own under `kind`."""
    it = Typed(body=body, units=units)
    reader = READERS.get(kind)
    if reader is None:
        it.errors["kind"] = f"This shop's server does not know “{kind[:40]}”. Load the page anew."
    else:
        reader(it)
    return it.taken()


def _code(it: Typed) -> None:
    it.figure(
        "code",
        "code",
        lambda text: parse_count(text, name="number", limits=(Decimal(10), Decimal(99))),
    )
    if it.values["code"] is None:
        it.errors.setdefault("code", "Say which number.")


def _score(it: Typed) -> None:
    it.figure(
        "score",
        "score",
        lambda text: parse_count(text, name="score", limits=(Decimal(1), Decimal(5)), example="4"),
    )
    if it.values["score"] is None:
        it.errors.setdefault("score", "Choose 1 to 5.")
