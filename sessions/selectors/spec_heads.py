"""Heads as the spec's rules take them, and those that can be had."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from sessions.maths.bending import Bend
from sessions.models import Club, Head, SpecClub
from sessions.models.words import Availability, ClubSource
from sessions.rules.facts import Hand, HeadLimits, MakerLimits, Making, Sole, StampedHead, Tip

# Where a bore lies within this of a tip's nominal size, it is a bore for that tip.
BORE_SLACK_MM = Decimal("0.19")
BORES = ((Tip.TAPER, Decimal("9.017")), (Tip.PARALLEL, Decimal("9.398")))


def sole_of(head: Head) -> Sole:
    return Sole(
        width_mm=head.sole_width_mm,
        heel=head.relief_heel,
        trailing=head.relief_trailing,
        is_softened=head.leading_softened,
    )


def head_limits(head: Head | None, own: Club | None) -> HeadLimits:
    """Making, the maker's word, and what an own club was bent before."""
    made = head or (own.head if own else None)
    making = made.making if made is not None else (own.making if own else "")
    maker = MakerLimits() if made is None else _maker_limits(made)
    earlier = () if own is None else earlier_bends(own)
    return HeadLimits(making=making_of(making), maker=maker, earlier=earlier)


def _maker_limits(head: Head) -> MakerLimits:
    return MakerLimits(
        weak_deg=head.limit_weak_deg,
        strong_deg=head.limit_strong_deg,
        up_deg=head.limit_upright_deg,
        flat_deg=head.limit_flat_deg,
    )


def heads_to_be_had(clubs: Iterable[SpecClub]) -> tuple[StampedHead, ...]:
    """Every stamped head in the hands of the clubs that are built new; neither discontinued ones
    nor those of a matched set."""
    hands = {club.hand for club in clubs if club.source == ClubSource.NEW}
    if not hands:
        return ()
    rows = Head.objects.filter(hand__in=hands, is_matched_set=False).exclude(
        availability=Availability.DISCONTINUED
    )
    return tuple(
        StampedHead(
            model=f"{head.maker} {head.model}",
            hand=Hand(head.hand),
            loft_deg=head.stamped_loft_deg,
            bounce_deg=head.bounce_deg,
            limits=HeadLimits(making=making_of(head.making), maker=_maker_limits(head)),
        )
        for head in rows
    )


def earlier_bends(own: Club) -> tuple[Bend, ...]:
    return tuple(Bend(Decimal(str(loft)), Decimal(str(lie))) for loft, lie in own.bends)


def making_of(label: str) -> Making:
    """The making whose words are stored; what nobody knows is unknown."""
    return next((m for m in Making if label in (m.label, m.value)), Making.UNKNOWN)


def bore_of(head: Head) -> Tip | None:
    """Which tip the bore takes; None where its size fits neither."""
    return next((tip for tip, mm in BORES if abs(head.bore_mm - mm) <= BORE_SLACK_MM), None)
