"""Which own club is played now in a slot, and what is counted against it. Cases typed by hand."""

from decimal import Decimal as D
from uuid import UUID

import pytest

from sessions.rules.club_evidence import OwnClub
from sessions.rules.likeness import Aspect, Likeness
from sessions.rules.played_now import beside_now, played_now

PITCHING, FIFTY, FIFTY_SIX, NOT_READ = (UUID(int=number) for number in (45, 50, 56, 99))
BAG = (
    OwnClub(PITCHING, "your pitching wedge", D(45)),
    OwnClub(FIFTY, "your 50", D(50)),
    OwnClub(FIFTY_SIX, "your 56", D(56)),
    OwnClub(NOT_READ, "your old one", None),
)


def now(wanted: str | None, kept: UUID | None = None, **more: UUID) -> UUID | None:
    return played_now(
        BAG,
        kept=kept,
        wanted_deg=None if wanted is None else D(wanted),
        near_enough_deg=D(4),
        **more,
    )


@pytest.mark.parametrize(
    ("wanted", "club"),
    [
        ("54", FIFTY_SIX),
        ("51.9", FIFTY),
        ("53", FIFTY),  # 3 away from either: the one named first
        ("60", FIFTY_SIX),
        ("60.1", None),
        (None, None),
    ],
)
def test_the_nearest_in_loft_that_is_near_enough(wanted, club):
    assert now(wanted) == club


def test_the_club_that_the_plan_keeps_wins_even_without_a_loft():
    assert now("54", kept=NOT_READ) == NOT_READ
    assert now("54", kept=UUID(int=7)) == FIFTY_SIX  # no longer in the bag


def test_the_baseline_has_its_own_place():
    assert now("46") == PITCHING
    assert now("46", baseline=PITCHING) == FIFTY


def test_what_was_hit_for_the_slot_is_played_now_only_where_none_is_near():
    assert now("62", hit_for_it=NOT_READ) == NOT_READ
    assert now(None, hit_for_it=NOT_READ) == NOT_READ
    assert now("54", hit_for_it=NOT_READ) == FIFTY_SIX


LOFT = Aspect("loft", "54°", "56°", is_alike=False)
SHAFT = Aspect("shaft", "Reed 105", "Reed 95", is_alike=False)
SOLE = Aspect("sole", "bounce 10°", "bounce 12°", is_alike=False)
LIE = Aspect("lie", "64°", "64°", is_alike=True)
GRIP = Aspect("grip", "Cord", "", is_alike=None)


def said(*aspects, was_last=False, off=frozenset()):
    return beside_now(Likeness("your 56", aspects, off), was_last=was_last)


def test_one_difference_is_named_and_several_are_counted_with_each_of_them():
    one = said(LOFT, LIE, GRIP)
    assert (one.against, one.found) == ("Against your 56, played now", "loft")
    assert (one.each, one.caution, one.unknown) == ((), "", "Not known: grip.")
    three = said(LOFT, SHAFT, SOLE, LIE)
    assert three.found == "3 things differ"
    assert three.each == (
        "loft 54° against 56°", "shaft Reed 105 against Reed 95",
        "sole bounce 10° against bounce 12°",
    )  # fmt: skip
    assert three.caution == "3 things differ: there is no telling which of them did it."
    assert (three.caution.rule_id, three.unknown) == ("DEC-L01", "")


def test_a_shop_that_switched_the_judgement_off_still_sees_the_number():
    two = said(LOFT, SHAFT, off=frozenset({"DEC-L01"}))
    assert (two.found, two.caution) == ("2 things differ", "")


def test_nothing_known_is_not_said_to_be_alike():
    assert said(GRIP) is None
    assert said(LIE, GRIP).found == "nothing known to differ"


def test_of_the_club_that_was_the_last_only_the_number_is_said():
    assert said(LOFT, LIE, GRIP, was_last=True) is None
    two = said(LOFT, SHAFT, was_last=True)
    assert (two.against, two.found) == ("The last club was your 56, played now", "2 things differ")
