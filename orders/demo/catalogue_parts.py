"""The shafts and grips of the demo shop. Makers, models and figures are invented."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

TIP_MM = {"taper": "9.017", "parallel": "9.398"}  # 0.355 and 0.370 in
BUTT_MM = "15.24"  # 0.600 in

# Key, maker, model, material, flex, tip, raw length [mm], mass uncut [g],
# balance from the butt [mm], availability. 939.8 mm is 37 in, 1041.4 mm is 41 in.
SHAFTS = (
    ("culm 130", "Wrenlock", "Culm 130", "steel", "firm", "taper", "939.8", "130", "452",
     "available"),
    ("culm 120", "Wrenlock", "Culm 120", "steel", "medium", "taper", "939.8", "120.5", "453",
     "available"),
    ("culm 110", "Wrenlock", "Culm 110", "steel", "medium", "taper", "939.8", "110", "455",
     "available"),
    ("culm 110 parallel", "Wrenlock", "Culm 110 P", "steel", "medium", "parallel", "1041.4",
     "121", "503", "available"),
    ("reed 95", "Ostermoor", "Reed 95", "steel", "soft", "taper", "939.8", "95.5", "458",
     "available"),
    ("reed 105", "Ostermoor", "Reed 105", "steel", "medium", "taper", "939.8", "105", "456",
     "discontinued"),
    ("withy 100", "Ostermoor", "Withy 100", "graphite", "firm", "taper", "939.8", "100", "449",
     "available"),
    ("withy 80", "Ostermoor", "Withy 80", "graphite", "medium", "taper", "939.8", "80.5", "455",
     "to_order"),
    ("withy 75 parallel", "Ostermoor", "Withy 75 P", "graphite", "medium", "parallel", "1041.4",
     "76", "508", "available"),
    ("withy 60 parallel", "Ostermoor", "Withy 60 P", "graphite", "soft", "parallel", "1041.4",
     "61.5", "512", "available"),
)  # fmt: skip

# Key, maker, model, size, core [mm], outside at 2 in and at 6 in under the cap [mm], ribbed,
# mass [g], length [mm], cap [mm]. Cores of 0.580, 0.600 and 0.620 in.
GRIPS = (
    ("burr small", "Brindlecot", "Burr", "small", "14.732", "22.1", "19.2", False,
     "46", "260", "3.5"),
    ("burr standard", "Brindlecot", "Burr", "standard", "15.24", "22.86", "20.07", False,
     "50", "266", "3.5"),
    ("burr standard ribbed", "Brindlecot", "Burr", "standard", "15.24", "22.86", "20.07", True,
     "51", "266", "3.5"),
    ("burr large", "Brindlecot", "Burr", "large", "15.748", "24.1", "21.3", False,
     "60", "268", "4"),
    ("teasel standard", "Brindlecot", "Teasel", "standard", "15.24", "22.9", "20.6", False,
     "52", "270", "4"),
    # Its maker states no diameters.
    ("teasel soft ribbed", "Brindlecot", "Teasel", "standard, soft", "15.748", None, None, True,
     "42", "270", "4"),
)  # fmt: skip


def shaft_rows() -> Iterator[tuple[str, dict[str, Any]]]:
    """Every shaft under its key, as Shaft's columns by name."""
    for key, maker, model, material, flex, tip, raw, mass, balance, availability in SHAFTS:
        yield (
            key,
            {
                "maker": maker,
                "model": model,
                "material": material,
                "flex": flex,
                "tip_kind": tip,
                "tip_mm": Decimal(TIP_MM[tip]),
                "butt_mm": Decimal(BUTT_MM),
                "raw_length_mm": Decimal(raw),
                "mass_g": Decimal(mass),
                "balance_mm": Decimal(balance),
                "availability": availability,
            },
        )


def grip_rows() -> Iterator[tuple[str, dict[str, Any]]]:
    """Every grip under its key, as Grip's columns by name."""
    for key, maker, model, size, core, *outside, ribbed, mass, length, cap in GRIPS:
        yield (
            key,
            {
                "maker": maker,
                "model": model,
                "size": size,
                "core_mm": Decimal(core),
                "outside_mm": None if outside[0] is None else Decimal(outside[0]),
                "lower_outside_mm": None if outside[1] is None else Decimal(outside[1]),
                "is_ribbed": ribbed,
                "mass_g": Decimal(mass),
                "length_mm": Decimal(length),
                "cap_mm": Decimal(cap),
            },
        )
