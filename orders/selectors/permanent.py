"""What can't be undone on a club, in words: on its page, on its ticket, on a revision."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from orders.models import OrderClub
from orders.models.metal import FactKind
from orders.selectors.metal import bends_at_bench, facts_of
from sessions.maths.bending import Bend, total_travel
from sessions.maths.shown import show_length
from sessions.rules.wording import figure, listed

Unit = Literal["in", "mm"]


def permanent_words(club: OrderClub, unit: Unit) -> str:
    """`Permanent: stamped I B, cut to 33 13/16 in. Bent 2.5 strong: ask before bending back.`

    Empty for a club whose head and shaft are as they came.
    """
    last = {FactKind(fact.kind): fact for fact in facts_of(club)}
    said: list[str] = []
    stamps = [fact.stamping for fact in facts_of(club) if fact.kind == FactKind.STAMPED]
    if stamps:
        said.append(f"stamped {listed(list(dict.fromkeys(stamps)))}")
    if (trimmed := last.get(FactKind.TIP_TRIMMED)) and trimmed.length_mm is not None:
        said.append(f"tip trimmed {show_length(trimmed.length_mm, unit)}")
    if cut := last.get(FactKind.BUTT_CUT):
        to = "" if cut.length_mm is None else f" to {show_length(cut.length_mm, unit)}"
        said.append(f"cut{to}")
    if FactKind.GLUED in last:
        said.append("glued")
    words = [f"Permanent: {', '.join(said)}."] if said else []
    if bent := bends_words(bends_at_bench(club)):
        words.append(f"Bent {bent}: ask before bending back.")
    return " ".join(words)


def bends_words(bends: Sequence[Bend]) -> str:
    """What the bends add up to each way: `2.5 strong and 1 flat`; empty for none."""
    travel = total_travel(bends)
    ways = (
        (travel.weak_deg, "weak"),
        (travel.strong_deg, "strong"),
        (travel.upright_deg, "upright"),
        (travel.flat_deg, "flat"),
    )
    return listed([f"{figure(degrees)} {way}" for degrees, way in ways if round(degrees, 1)])
