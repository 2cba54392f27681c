"""The heads of the demo shop. Makers, models and figures are invented.

Four sole shapes, described by width, camber and relief. A head is a line of its model's table:
loft, bounce, lie, mass, offset, sole. `None` for a bend limit: the maker does not say.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from sessions.rules.facts import Making

TAPER_BORE, PARALLEL_BORE = "9.017", "9.398"  # 0.355 and 0.370 in


@dataclass(frozen=True, slots=True)
class Sole:
    width_mm: str
    camber: str
    heel: int
    toe: int
    leading: int
    trailing: int
    softened: bool


NARROW_OPENING = Sole("17", "slight", heel=2, toe=1, leading=0, trailing=2, softened=False)
EVERYDAY = Sole("19", "medium", heel=1, toe=0, leading=0, trailing=1, softened=True)
FULL_SOLE = Sole("22", "medium", heel=0, toe=0, leading=0, trailing=0, softened=False)
WIDE_ROUND = Sole("25.5", "full", heel=1, toe=1, leading=1, trailing=3, softened=True)


@dataclass(frozen=True, slots=True)
class HeadLine:
    loft: str
    bounce: str
    lie: str
    mass: str
    offset: str
    sole: Sole
    availability: str = "available"


@dataclass(frozen=True, slots=True)
class HeadModel:
    maker: str
    model: str
    making: Making
    finish: str
    bore: str
    bore_to_ground: str
    lines: tuple[HeadLine, ...]
    left_lofts: tuple[tuple[str, str], ...] = ()
    limits: tuple[str | None, str | None, str | None, str | None] = (None, None, None, None)
    is_matched_set: bool = False
    # From the back of the shaft to where the sole touches [mm]; None: not gauged.
    sole_point: str | None = None


MODELS = (
    HeadModel(
        "Pellowick", "Marram", Making.FORGED_LOW_CARBON, "raw, darkens with use",
        TAPER_BORE, "26.5",
        (
            HeadLine("46", "8", "64", "291.5", "2.5", EVERYDAY),
            HeadLine("48", "8", "64", "293", "2.3", EVERYDAY),
            HeadLine("50", "8", "64", "295", "2", EVERYDAY),
            HeadLine("52", "8", "64", "297", "1.8", EVERYDAY),
            HeadLine("54", "10", "64", "299.5", "1.5", EVERYDAY),
            HeadLine("56", "10", "64.25", "302", "1.3", EVERYDAY),
            HeadLine("56", "13", "64.25", "303", "1.3", WIDE_ROUND),
            HeadLine("58", "5", "64.5", "304", "1", NARROW_OPENING),
            HeadLine("58", "9", "64.5", "304.5", "1", EVERYDAY),
            HeadLine("60", "4", "64.5", "306", "0.8", NARROW_OPENING),
            HeadLine("60", "8", "64.5", "306.5", "0.8", EVERYDAY, "to_order"),
        ),
        left_lofts=(("48", "8"), ("52", "8"), ("56", "10"), ("60", "4")),
        limits=("3", "2", "2", "2"),
        sole_point="33",
    ),
    HeadModel(
        "Pellowick", "Fescue", Making.FORGED_LOW_CARBON, "brushed",
        TAPER_BORE, "26.5",
        (HeadLine("53", "9", "64", "298", "1.7", EVERYDAY, "discontinued"),),
    ),
    HeadModel(
        "Dunmarrow", "Curlew", Making.CAST_SOFT_CARBON, "brushed",
        TAPER_BORE, "27",
        (
            HeadLine("50", "10", "64", "294.5", "2.2", FULL_SOLE),
            HeadLine("52", "10", "64", "296.5", "2", FULL_SOLE),
            HeadLine("54", "11", "64", "299", "1.8", FULL_SOLE),
            HeadLine("56", "12", "64.25", "301.5", "1.5", FULL_SOLE),
            HeadLine("58", "10", "64.5", "303.5", "1.2", FULL_SOLE),
            HeadLine("60", "9", "64.5", "306", "1", FULL_SOLE),
            HeadLine("62", "8", "64.5", "308.5", "0.8", NARROW_OPENING),
        ),
        left_lofts=(("50", "10"), ("54", "11"), ("58", "10")),
    ),
    HeadModel(
        "Dunmarrow", "Bittern", Making.CAST_STAINLESS, "blasted",
        PARALLEL_BORE, "28",
        (
            HeadLine("52", "11", "63.75", "297.5", "2.4", WIDE_ROUND),
            HeadLine("54", "12", "63.75", "300", "2.2", WIDE_ROUND),
            HeadLine("56", "14", "64", "303", "2", WIDE_ROUND),
            HeadLine("58", "12", "64", "305", "1.8", WIDE_ROUND),
            HeadLine("60", "11", "64.25", "307.5", "1.5", WIDE_ROUND),
        ),
        left_lofts=(("56", "14"),),
        limits=("2", "2", "2", "2"),
    ),
    HeadModel(
        "Dunmarrow", "Redshank", Making.INSERT, "blasted",
        PARALLEL_BORE, "28",
        # Its maker lets nobody bend it, at a loft that few plans ask for as it stands.
        (HeadLine("57", "10", "64", "303", "1.6", FULL_SOLE),),
        limits=("0", "0", "0", "0"),
    ),
    HeadModel(
        "Skerrow", "Tern", Making.CAST_STAINLESS, "as the irons of the set",
        PARALLEL_BORE, "28.5",
        (
            HeadLine("44", "6", "63.5", "290", "3.2", FULL_SOLE),
            HeadLine("48", "7", "63.5", "292.5", "2.9", FULL_SOLE),
            HeadLine("52", "9", "63.5", "296", "2.6", FULL_SOLE),
        ),
        is_matched_set=True,
    ),
    HeadModel(
        "Skerrow", "Dipper", Making.HOLLOW, "blasted",
        PARALLEL_BORE, "28.5",
        (HeadLine("51", "9", "63.75", "295.5", "2.8", WIDE_ROUND),),
        limits=("0", "0", "0", "0"),
    ),
    HeadModel(
        "Skerrow", "Linnet", Making.CAST_17_4, "brushed",
        PARALLEL_BORE, "28",
        (HeadLine("55", "11", "64", "300.5", "1.9", FULL_SOLE),),
    ),
)  # fmt: skip


def head_rows() -> Iterator[dict[str, Any]]:
    """Every head as Head's columns by name: the right-handed ones, then the left-handed."""
    for model in MODELS:
        for line in model.lines:
            yield _columns(model, line, "right")
    for model in MODELS:
        for line in model.lines:
            if (line.loft, line.bounce) in model.left_lofts:
                yield _columns(model, line, "left")


def head_name(maker: str, model: str, hand: str, loft: str, bounce: str) -> str:
    """What names one head in the demo's tables."""
    return "/".join((maker, model, hand, loft, bounce))


def row_name(values: Mapping[str, Any]) -> str:
    """The name of a head from its columns."""
    return head_name(
        values["maker"],
        values["model"],
        values["hand"],
        f"{values['stamped_loft_deg']}",
        f"{values['bounce_deg']}",
    )


def _columns(model: HeadModel, line: HeadLine, hand: str) -> dict[str, Any]:
    weak, strong, upright, flat = (
        None if limit is None else Decimal(limit) for limit in model.limits
    )
    sole = line.sole
    return {
        "maker": model.maker,
        "model": model.model,
        "hand": hand,
        "stamped_loft_deg": Decimal(line.loft),
        "bounce_deg": Decimal(line.bounce),
        "lie_deg": Decimal(line.lie),
        "mass_g": Decimal(line.mass),
        "making": model.making.label,
        "finish": model.finish,
        "limit_weak_deg": weak,
        "limit_strong_deg": strong,
        "limit_upright_deg": upright,
        "limit_flat_deg": flat,
        "sole_width_mm": Decimal(sole.width_mm),
        "camber": sole.camber,
        "relief_heel": sole.heel,
        "relief_toe": sole.toe,
        "relief_leading": sole.leading,
        "relief_trailing": sole.trailing,
        "leading_softened": sole.softened,
        "bore_mm": Decimal(model.bore),
        "bore_to_ground_mm": Decimal(model.bore_to_ground),
        "sole_point_mm": None if model.sole_point is None else Decimal(model.sole_point),
        "offset_mm": Decimal(line.offset),
        "grooves_conform": True,
        "is_matched_set": model.is_matched_set,
        "availability": line.availability,
    }
