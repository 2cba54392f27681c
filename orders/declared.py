"""What a shop may set about building: tolerances, what a resin is entered with, lead time, grooves.

Defaults are common practice unless a source says otherwise. A gauge's repeatability belongs to
the gauge, a resin's sheet and a head maker's limit come before anything here.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from fitshop.setting import Setting


def _decimal(
    key: str,
    default: str,
    sentence: str,
    *,
    unit: str,
    low: str,
    high: str,
    source: str = "common practice",
) -> Setting:
    return Setting(
        key=key,
        kind="decimal",
        default=Decimal(default),
        sentence=sentence,
        unit=unit,
        low=Decimal(low),
        high=Decimal(high),
        source=source,
    )


def _whole(key: str, default: int, sentence: str, *, unit: str, low: int, high: int) -> Setting:
    return Setting(
        key=key,
        kind="whole",
        default=default,
        sentence=sentence,
        unit=unit,
        low=Decimal(low),
        high=Decimal(high),
    )


_TOLERANCES = (
    _decimal(
        "tolerance.loft_deg",
        "0.5",
        "How far loft as built may be from its target.",
        unit="degrees",
        low="0.1",
        high="2",
    ),
    _decimal(
        "tolerance.lie_deg",
        "0.5",
        "How far lie as built may be from its target.",
        unit="degrees",
        low="0.1",
        high="2",
    ),
    replace(
        _decimal(
            "tolerance.length_mm",
            "1.5875",  # 1/16 in
            "How far length as built may be from its target (1/16 in is 1.5875 mm).",
            unit="mm",
            low="0.25",
            high="13",
        ),
        quantity="length",
    ),
    _decimal(
        "tolerance.loft_step_deg",
        "0.75",
        "How far the step in loft between two neighbours of a set may be from the planned one.",
        unit="degrees",
        low="0.1",
        high="4",
        source="from memory",
    ),
    replace(
        _decimal(
            "tolerance.length_step_mm",
            "2.4",
            "How far the step in length between two neighbours may be from the planned one "
            "(3/32 in is 2.38 mm).",
            unit="mm",
            low="0.25",
            high="26",
            source="from memory",
        ),
        quantity="length",
    ),
    _decimal(
        "tolerance.swing_weight_points",
        "1",
        "How far swing weight as built may be from its target.",
        unit="points",
        low="0.25",
        high="5",
    ),
    _decimal(
        "tolerance.grip_diameter_mm",
        "0.3969",  # 1/64 in
        "How far the grip's diameter may be from its target (1/64 in is 0.3969).",
        unit="mm",
        low="0.1",
        high="3",
    ),
    _decimal(
        "tolerance.head_mass_g",
        "3",
        "How far a head as received may be from its stated mass.",
        unit="g",
        low="0.2",
        high="10",
    ),
    _decimal(
        "tolerance.head_send_back_g",
        "5",
        "A head further than this from its stated mass goes back; nearer, it is swapped.",
        unit="g",
        low="0.2",
        high="20",
    ),
    _decimal(
        "tolerance.total_mass_g",
        "5",
        "How far the finished club's mass may be from its target.",
        unit="g",
        low="0.5",
        high="20",
    ),
)

_CURE = (
    _decimal(
        "cure.hours",
        "24",
        "What a new resin is offered: how long it cures at the full-speed temperature.",
        unit="hours",
        low="0.5",
        high="168",
    ),
    _decimal(
        "cure.full_speed_c",
        "20",
        "What a new resin is offered: from this temperature on it cures in that time.",
        unit="°C",
        low="10",
        high="30",
    ),
    _decimal(
        "cure.double_at_c",
        "15",
        "What a new resin is offered: at this temperature it takes twice as long.",
        unit="°C",
        low="0",
        high="25",
    ),
    _decimal(
        "cure.least_c",
        "10",
        "What a new resin is offered: below this temperature it doesn't cure.",
        unit="°C",
        low="0",
        high="20",
    ),
)

_ORDERS = (
    _whole(
        "order.lead_days",
        10,
        "So many days after its release an order is due, unless another day is chosen.",
        unit="days",
        low=0,
        high=180,
    ),
)

_GROOVES = (
    _whole(
        "grooves.check_due_rounds",
        70,
        "After so many rounds a groove check is due; earlier with much practice.",
        unit="rounds",
        low=10,
        high=500,
    ),
    _whole(
        "grooves.likely_worn_rounds",
        120,
        "After so many rounds the grooves are likely worn.",
        unit="rounds",
        low=10,
        high=500,
    ),
)

_BUILD = (
    _decimal(
        "build.most_added_g",
        "9",
        "The most weight that goes into a hosel; beyond it a part or the target changes.",
        unit="g",
        low="0",
        high="12",
    ),
    _decimal(
        "build.bare_bend_deg",
        "1",
        "Bends over this are made on the bare head; up to it, after the cure.",
        unit="degrees",
        low="0",
        high="4",
    ),
    _decimal(
        "build.insertion_mm",
        "28.575",  # 1 1/8 in, from memory
        "How deep a shaft usually stands in a wedge's hosel; the gauged bore wins.",
        unit="mm",
        low="15",
        high="50",
    ),
    _decimal(
        "build.least_insertion_mm",
        "25.4",  # 1 in, common practice
        "A shaft that would stand less deep than this in its hosel is not cut for.",
        unit="mm",
        low="15",
        high="50",
    ),
    _decimal(
        "build.tape_mm",
        "0.127",  # 0.005 in
        "How thick one layer of grip tape is: each adds twice as much to the butt's diameter.",
        unit="mm",
        low="0.05",
        high="0.5",
    ),
    _whole(
        "build.base_layers",
        1,
        "How many layers of tape hold the grip before any extra is counted.",
        unit="layers",
        low=0,
        high=4,
    ),
    # What the project's worked clubs count, 3 g of epoxy and ferrule together and 2 g of tape;
    # how the 3 g divide is from memory.
    _decimal(
        "build.epoxy_g",
        "2",
        "How much epoxy stays in a glued joint: counted into every swing weight that is reckoned "
        "from parts.",
        unit="g",
        low="0",
        high="10",
        source="from memory",
    ),
    _decimal(
        "build.ferrule_g",
        "1",
        "What a ferrule weighs: counted in likewise, unless a club is to have none.",
        unit="g",
        low="0",
        high="6",
        source="from memory",
    ),
    _decimal(
        "build.tape_g",
        "2",
        "What one layer of tape over the whole grip weighs: counted in likewise, layer by layer.",
        unit="g",
        low="0",
        high="10",
        source="from memory",
    ),
)

_CHECK = (
    Setting(
        key="check.same_person",
        kind="choice",
        default="follow the number",
        choices=("follow the number", "written down", "refused"),
        sentence="When the one who built a club also checks it, it is written down, or refused; "
        "by the number: refused wherever the location has two active builders or more.",
    ),
)

_WEAR = (
    _whole(
        "grooves.much_practice_balls",
        150,
        "From so many balls a week with wedges on, practice counts as much.",
        unit="balls",
        low=10,
        high=5000,
    ),
    _decimal(
        "grooves.practice_times",
        "1.5",
        "Much practice wears grooves so many times as fast.",
        unit="times",
        low="1",
        high="4",
    ),
    _decimal(
        "grooves.sand_times",
        "1.25",
        "Practising in sand often wears grooves so many times as fast.",
        unit="times",
        low="1",
        high="4",
    ),
    _decimal(
        "grooves.mats_times",
        "1.25",
        "Practising mostly on mats wears grooves so many times as fast.",
        unit="times",
        low="1",
        high="4",
    ),
)

SETTINGS: tuple[Setting, ...] = (
    *_TOLERANCES,
    *_CURE,
    *_ORDERS,
    *_GROOVES,
    *_WEAR,
    *_BUILD,
    *_CHECK,
)
