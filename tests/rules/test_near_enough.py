"""Which own wedge is the club played now in a slot: the nearest in loft, if it is near enough."""

from decimal import Decimal as D
from uuid import UUID

import pytest

from sessions.rules.club_evidence import Margins, OwnClub
from sessions.rules.evidence import VisitEvidence
from tests.rules.test_fairness import MARGINS

WEDGE = UUID(int=1)


def played_now(loft: str, near_enough_deg: D = D(4), margins: Margins = MARGINS) -> UUID | None:
    evidence = VisitEvidence(
        clubs=(),
        margins=margins,
        planned_lofts_deg={1: D(54)},
        owned=(OwnClub(WEDGE, "the old one", D(loft)),),
        near_enough_deg=near_enough_deg,
    )
    own = evidence.slot(1).own
    return None if own is None else own.club_id


@pytest.mark.common_practice
@pytest.mark.parametrize(("loft", "is_near"), [("50", True), ("49.9", False), ("58", True)])
def test_four_degrees_are_near_enough(loft: str, is_near: bool) -> None:
    assert (played_now(loft) == WEDGE) is is_near


def test_how_near_is_the_shop_s_to_say() -> None:
    assert played_now("52", near_enough_deg=D("1.9")) is None
    assert played_now("52", near_enough_deg=D(2)) == WEDGE
