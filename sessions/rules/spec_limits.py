"""Every threshold that the spec's rules judge by, made from the shop's settings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from decimal import Decimal

from fitshop.setting import Value
from sessions.maths.bending import BendLimits
from sessions.rules.dry_weight import Fixings
from sessions.rules.head_limits import HeadLimits
from sessions.rules.trade_words import Making


@dataclass(frozen=True, slots=True)
class SpecLimits:
    """Every threshold of the spec's rules, as the shop has set it.

    A field `x` is the setting `spec.x` of `sessions.declared`, but for those that other rooms
    judge by too: `SETTING_ELSEWHERE` names theirs.
    """

    bend_forged_low_carbon_deg: Decimal
    bend_cast_soft_carbon_deg: Decimal
    bend_cast_stainless_deg: Decimal
    bend_cast_17_4_deg: Decimal
    bend_look_deg: Decimal
    bounce_low_deg: Decimal
    loft_step_low_deg: Decimal
    loft_step_high_deg: Decimal
    same_loft_deg: Decimal
    gap_low_pct: Decimal
    gap_high_pct: Decimal
    sand_from_deg: Decimal
    wider_step_high_deg: Decimal
    wider_gap_high_pct: Decimal
    length_man_low_mm: Decimal
    length_man_high_mm: Decimal
    length_woman_low_mm: Decimal
    length_woman_high_mm: Decimal
    length_senior_low_mm: Decimal
    length_senior_high_mm: Decimal
    length_tall_high_mm: Decimal
    tall_from_mm: Decimal
    length_junior_low_mm: Decimal
    length_junior_high_mm: Decimal
    junior_height_low_mm: Decimal
    junior_height_high_mm: Decimal
    length_junior_slack_mm: Decimal
    junior_check_months: int
    junior_check_growth_mm: Decimal
    shots_for_a_build: int
    stamping_most_characters: int
    overlap_look_pct: Decimal
    steep_deg: Decimal
    shallow_deg: Decimal
    bounce_low_to_deg: Decimal
    bounce_mid_to_deg: Decimal
    bounce_high_from_deg: Decimal
    sole_wide_mm: Decimal
    lie_full_apart_deg: Decimal
    lie_touch_flatter_deg: Decimal
    lie_hands_deg: Decimal
    length_run_longer_mm: Decimal
    length_run_shorter_mm: Decimal
    swing_weight_run_lighter: Decimal
    swing_weight_above_irons: Decimal
    swing_weight_above_irons_lob: Decimal
    lob_from_deg: Decimal
    most_added_g: Decimal
    swing_weight_tolerance: Decimal
    swing_weight_doubt: Decimal
    epoxy_g: Decimal
    ferrule_g: Decimal
    tape_g: Decimal
    base_layers: int
    insertion_mm: Decimal
    light_shaft_g: Decimal
    shaft_lighter_g: Decimal
    shaft_heavier_full_g: Decimal
    shaft_heavier_touch_g: Decimal
    shaft_heavier_spared_g: Decimal
    shaft_heavier_child_g: Decimal
    grip_core_apart_mm: Decimal
    check_days: int

    def default_bend_deg(self, making: Making) -> Decimal:
        """How far a head of this making may be bent where its maker is silent.

        Nothing for the makings that break or that nobody knows: no setting loosens that.
        """
        match making:
            case Making.FORGED_LOW_CARBON:
                return self.bend_forged_low_carbon_deg
            case Making.CAST_SOFT_CARBON:
                return self.bend_cast_soft_carbon_deg
            case Making.CAST_STAINLESS:
                return self.bend_cast_stainless_deg
            case Making.CAST_17_4:
                return self.bend_cast_17_4_deg
            case _:
                return Decimal(0)

    def fixings(self) -> Fixings:
        """What a forecast counts beside head, shaft and grip."""
        return Fixings(
            epoxy_g=self.epoxy_g,
            ferrule_g=self.ferrule_g,
            tape_g=self.tape_g,
            base_layers=self.base_layers,
            insertion_mm=self.insertion_mm,
        )

    def bend_limits(self, head: HeadLimits) -> BendLimits:
        """How far this head may be bent each way: the maker's word, else its making's default.

        `said_by` is the maker only where the maker spoke of all four ways.
        """
        default = self.default_bend_deg(head.making)
        ways = (head.maker.weak_deg, head.maker.strong_deg, head.maker.up_deg, head.maker.flat_deg)
        weak, strong, upright, flat = (
            default if way is None else max(way, Decimal(0)) for way in ways
        )
        return BendLimits(
            weak_deg=weak,
            strong_deg=strong,
            upright_deg=upright,
            flat_deg=flat,
            said_by="common practice" if None in ways else "the maker",
        )


# Limits that other rooms judge by too keep those rooms' settings.
SETTING_ELSEWHERE: Mapping[str, str] = {
    "steep_deg": "interview.steep_deg",
    "shallow_deg": "interview.shallow_deg",
    "bounce_low_to_deg": "interview.bounce_low_to_deg",
    "bounce_mid_to_deg": "interview.bounce_mid_to_deg",
    "bounce_high_from_deg": "interview.bounce_high_from_deg",
    "lob_from_deg": "interview.lob_from_deg",
    "light_shaft_g": "interview.light_shaft_g",
    "most_added_g": "build.most_added_g",
    "swing_weight_tolerance": "tolerance.swing_weight_points",
    "epoxy_g": "build.epoxy_g",
    "ferrule_g": "build.ferrule_g",
    "tape_g": "build.tape_g",
    "base_layers": "build.base_layers",
    "insertion_mm": "build.insertion_mm",
    "check_days": "equipment.check_days",
    "sand_from_deg": "plan.sand_from_deg",
    "wider_step_high_deg": "plan.wider_step_high_deg",
    "wider_gap_high_pct": "plan.wider_gap_high_pct",
}


def setting_of(limit: str) -> str:
    """The key of the setting that a limit is.

    >>> setting_of("gap_low_pct"), setting_of("check_days")
    ('spec.gap_low_pct', 'equipment.check_days')
    """
    return SETTING_ELSEWHERE.get(limit, f"spec.{limit}")


def limits_from(settings: Mapping[str, Value]) -> SpecLimits:
    """Build the limits from the shop's settings by key.

    Raises KeyError for a setting that is missing and TypeError for one of the wrong kind:
    both are mistakes of the program, since the store fills in every default.
    """
    values: dict[str, Decimal | int] = {}
    for limit in fields(SpecLimits):
        key = setting_of(limit.name)
        value = settings[key]
        whole = limit.type == "int"
        if isinstance(value, bool) or not isinstance(value, (int if whole else (int, Decimal))):
            raise TypeError(f"{key} should be a {'whole ' if whole else ''}number, not {value!r}.")
        values[limit.name] = int(value) if whole else Decimal(value)
    return SpecLimits(**values)  # type: ignore[arg-type]  # kinds were checked one by one above
