"""What can be built and what can be tried, as the parts page reads it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Literal
from uuid import UUID

from django.db.models import QuerySet

from fitshop.actor import Actor
from fitshop.selectors import settings_in_force
from sessions.maths.shown import show_length, show_mass
from sessions.models import Adapter, Grip, Head, Shaft, TrialHead, TrialShaft
from sessions.rules.sole_words import sole_words
from sessions.rules.wording import figure

Item = TrialHead | TrialShaft | Adapter
LengthUnit = Literal["in", "mm"]
KINDS: dict[str, type[Item]] = {"head": TrialHead, "shaft": TrialShaft, "adapter": Adapter}
# Lowest and highest stamped loft of each band of the filter.
LOFT_BANDS: dict[str, tuple[int, int]] = {
    "44-49": (44, 49),
    "50-53": (50, 53),
    "54-57": (54, 57),
    "58-62": (58, 62),
}
BORES = {Decimal("9.017"): "0.355 taper", Decimal("9.398"): "0.370 parallel"}


@dataclass(frozen=True, slots=True)
class EquipmentLine:
    """One thing of the shop's trial equipment, in words."""

    kind: str
    id: UUID
    item: Item
    name: str
    measured: str
    details: str
    due: str

    @property
    def is_withdrawn(self) -> bool:
        return self.item.withdrawn_at is not None


def heads_found(*, hand: str = "", band: str = "") -> QuerySet[Head]:
    """Heads of a hand and a band of lofts; an unknown word filters nothing."""
    rows = Head.objects.order_by("maker", "model", "hand", "stamped_loft_deg", "bounce_deg")
    if hand in ("right", "left"):
        rows = rows.filter(hand=hand)
    if band in LOFT_BANDS:
        low, high = LOFT_BANDS[band]
        rows = rows.filter(stamped_loft_deg__gte=low, stamped_loft_deg__lt=high + 1)
    return rows


def shafts_listed() -> QuerySet[Shaft]:
    return Shaft.objects.all()


def grips_listed() -> QuerySet[Grip]:
    return Grip.objects.all()


def equipment_item_for(actor: Actor, kind: str, item_id: UUID) -> Item | None:
    """A thing at a location where the actor works, else None."""
    model = KINDS.get(kind)
    if model is None:
        return None
    rows = model._default_manager.select_related("location")
    return rows.filter(pk=item_id, location_id__in=actor.location_ids).first()


def equipment_listed(
    actor: Actor, *, today: date, unit: LengthUnit, hand: str = "", band: str = ""
) -> list[tuple[str, list[EquipmentLine]]]:
    """Heads, shafts and adapters where the actor works; withdrawn ones come first in each."""
    heads = TrialHead.objects.filter(
        location_id__in=actor.location_ids, head__in=heads_found(hand=hand, band=band)
    ).select_related("head")
    shafts = TrialShaft.objects.filter(location_id__in=actor.location_ids).select_related(
        "shaft", "grip"
    )
    adapters = Adapter.objects.filter(location_id__in=actor.location_ids)
    oldest = today - timedelta(days=int(settings_in_force()["equipment.check_days"]))
    return [
        ("Heads", _sorted([_head_line(row, oldest, today) for row in heads])),
        ("Shafts", _sorted([_shaft_line(row, oldest, today, unit) for row in shafts])),
        ("Adapters", _sorted([_adapter_line(row, oldest, today) for row in adapters])),
    ]


def head_sole(head: Head) -> str:
    """The sole of a head in words and millimetres."""
    return sole_words(
        width_mm=head.sole_width_mm,
        camber=head.camber,
        heel=head.relief_heel,
        toe=head.relief_toe,
        leading=head.relief_leading,
        trailing=head.relief_trailing,
        leading_softened=head.leading_softened,
    )


def bore_words(bore_mm: Decimal) -> str:
    """`0.355 taper`, or the millimetres where it is neither of the two usual bores."""
    return BORES.get(bore_mm.quantize(Decimal("0.001")), f"{figure(bore_mm)} mm")


def limit_words(head: Head) -> str:
    """How far its maker lets it be bent, or that the maker does not say."""
    ways = {
        "weak": head.limit_weak_deg,
        "strong": head.limit_strong_deg,
        "upright": head.limit_upright_deg,
        "flat": head.limit_flat_deg,
    }
    said = {way: limit for way, limit in ways.items() if limit is not None}
    if not said:
        return "maker does not say"
    if set(said.values()) == {Decimal(0)}:
        return "not to be bent"
    if len(said) == 4 and len(set(said.values())) == 1:
        return f"{figure(said['weak'])} each way"
    return ", ".join(f"{figure(limit)} {way}" for way, limit in said.items())


def _sorted(lines: Sequence[EquipmentLine]) -> list[EquipmentLine]:
    return sorted(lines, key=lambda line: (not line.is_withdrawn, not line.due, line.item.mark))


def due_words(item: Item, oldest: date, today: date) -> str:
    """Why it wants a look, or nothing."""
    if isinstance(item, Adapter) and item.inspect_by is not None and item.inspect_by < today:
        return "Inspection overdue"
    if item.checked_on is None:
        return "Never checked"
    return "Check overdue" if item.checked_on < oldest else ""


def _head_line(row: TrialHead, oldest: date, today: date) -> EquipmentLine:
    head = row.head
    figures = {"loft": row.measured_loft_deg, "lie": row.measured_lie_deg}
    measured = [f"{name} {figure(value)}°" for name, value in figures.items() if value is not None]
    if row.measured_bounce_deg is not None:
        measured.append(f"bounce {figure(row.measured_bounce_deg)}°")
    if row.measured_mass_g is not None:
        measured.append(show_mass(row.measured_mass_g))
    stamped = f"stamped {figure(head.stamped_loft_deg)}°, bounce {figure(head.bounce_deg)}°"
    return EquipmentLine(
        kind="head",
        id=row.pk,
        item=row,
        name=f"{head.maker} {head.model}, {head.get_hand_display()} hand",
        measured=", ".join(measured) or "not measured",
        details=f"{stamped}; {head_sole(head)}",
        due=due_words(row, oldest, today),
    )


def _shaft_line(row: TrialShaft, oldest: date, today: date, unit: LengthUnit) -> EquipmentLine:
    measured = [f"plays {show_length(row.playing_length_mm, unit)}"]
    if row.measured_mass_g is not None:
        measured.append(f"{show_mass(row.measured_mass_g)} with its grip")
    return EquipmentLine(
        kind="shaft",
        id=row.pk,
        item=row,
        name=f"{row.shaft}, {row.shaft.flex}",
        measured=", ".join(measured),
        details=f"{row.shaft.get_material_display()}, grip {row.grip}",
        due=due_words(row, oldest, today),
    )


def _adapter_line(row: Adapter, oldest: date, today: date) -> EquipmentLine:
    return EquipmentLine(
        kind="adapter",
        id=row.pk,
        item=row,
        name="Adapter",
        measured=show_mass(row.mass_g),
        details="",
        due=due_words(row, oldest, today),
    )
