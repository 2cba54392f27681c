"""Invented players and the loft plans that a good fitter would expect for them.

Bands and carries were written down before there was a rule (common practice). A plan is right in
its bands, either end, or with gaps of 8 to 13 % and a sound why.
"""

from decimal import Decimal as D

import pytest

from sessions.maths.loft_plan import KeptClub
from sessions.rules.plan_notes import BagCount, OwnLoft, bag_notes, matched_set_note
from tests.rules.players.plan_room import (
    HEAD_BY_ID,
    Wanted,
    has_sound_gaps,
    is_in_its_bands,
    lofts_of,
    plans_for,
)

pytestmark = pytest.mark.common_practice


# --- A.S.: shallow, but fluffy sand; plays 52, 56, 60, opened often ------------------------------

A_S = {
    "attack_deg": "-2.5",
    "ground_summer": "normal",
    "ground_winter": "normal",
    "sand": ["fluffy"],
    "face_opened": "often",
}


def test_a_s_gets_50_54_to_55_and_59_to_60() -> None:
    wanted = Wanted(((50, 50), (54, 55), (59, 60)), (115, 102, 88))
    best = plans_for(45, 128, wedges=3, answers=A_S, most_deg=60)[0]
    assert is_in_its_bands(best, wanted)
    assert has_sound_gaps(best)


def test_a_s_gets_two_soles_for_two_jobs() -> None:
    best = plans_for(45, 128, wedges=3, answers=A_S, most_deg=60)[0]
    full, sand, opened = (HEAD_BY_ID[str(slot.head_id)] for slot in best.slots)
    bounces = [slot.bounce_after_deg for slot in best.slots]
    assert 7 <= bounces[0] <= 10
    # Wide and much for the sand; little, relieved at heel and trailing edge, for the 60.
    assert bounces[1] >= 10
    assert sand.sole_width_mm > 24
    assert 4 <= bounces[2] <= 8
    assert min(opened.relief_heel, opened.relief_trailing) >= 2
    assert full.sole_width_mm < sand.sole_width_mm


# --- M.O.: 43 degrees and 78 yards; two wedges ---------------------------------------------------

M_O = {
    "attack_deg": "-1.5",
    "ground_summer": "soft",
    "ground_winter": "soft",
    "sand": ["soft"],
    "face_opened": "never",
}


def test_m_o_gets_two_wedges_with_gaps_in_proportion_first() -> None:
    best, *_ = plans_for(43, 78, wedges=2, answers=M_O)
    assert lofts_of(best) == (48, 54)
    assert has_sound_gaps(best)
    assert best.kind == "usual"


def test_m_o_is_offered_50_and_56_to_57_too_as_wider_steps() -> None:
    wanted = Wanted(((50, 50), (56, 57)), (67, 56))
    plans = plans_for(43, 78, wedges=2, answers=M_O)
    (wider,) = [plan for plan in plans if plan.kind == "wider steps"]
    assert is_in_its_bands(wider, wanted)
    # 7 and 6 degrees, 11.5 and 9.8 yards: the first gap is wider than 13 %, and that is said.
    assert [round(float(slot.step_deg)) for slot in wider.slots] == [7, 6]
    assert [round(slot.gap_percent, 1) for slot in wider.slots] == [14.7, 12.6]
    assert wider.notes == (
        "Wider steps than usual, up to 7 degrees, so that 2 wedges can reach a club of 56 for "
        "sand.",
        "From 43 to 50 is 7 degrees and 15 % of the pitching wedge's carry: "
        "4 to 6 degrees and 8 to 13 % was asked for.",
    )
    sand = HEAD_BY_ID[str(wider.slots[1].head_id)]
    assert sand.sole_width_mm > 24
    assert wider.slots[1].bounce_after_deg >= 10


def test_m_o_may_have_three_where_a_long_club_leaves() -> None:
    wanted = Wanted(((49, 49), (54, 54), (59, 59)), (68, 60, 52))
    plans = plans_for(43, 78, wedges=3, answers=M_O)
    assert all(has_sound_gaps(plan) for plan in plans)
    assert any(
        all(abs(a - b) <= 1 for a, b in zip(lofts_of(plan), (49, 54, 59), strict=True))
        or is_in_its_bands(plan, wanted)
        for plan in plans
    )
    # Her bag is full: the page says who has to go.
    words = BagCount(others=11, below=1, wedges=2, unused=("1 of the hybrids",)).words(3)
    assert "15 clubs" in words
    assert "1 must come out. Hardly ever hit: 1 of the hybrids." in words


# --- B.T.: a child, 46 degrees and 72 yards ------------------------------------------------------

B_T = {"attack_deg": "-4", "ground_summer": "normal", "ground_winter": "normal"}


def test_b_t_gets_two_wedges_and_no_60() -> None:
    wanted = Wanted(((52, 52), (57, 58)), (63, 54))
    for plan in plans_for(46, 72, wedges=2, answers=B_T):
        assert is_in_its_bands(plan, wanted) or has_sound_gaps(plan)
        assert lofts_of(plan)[-1] < 59


# --- C.W.: stamped 41, measured 40.4; the next club is a 56 --------------------------------------


def test_c_w_hears_of_the_hole_of_15_6_degrees() -> None:
    (note,) = bag_notes(
        [
            OwnLoft("pitching wedge", D("40.4"), is_measured=True),
            OwnLoft("56", D(56), is_measured=True),
        ],
        same_deg=D(1),
        hole_deg=D(6),
    )
    assert note == (
        "From pitching wedge (40.4° measured) to 56 (56° measured) is a hole of 15.6 degrees."
    )


def test_c_w_gets_45_to_46_and_50_to_51_above_the_56_that_is_there() -> None:
    wanted = Wanted(((45, 46), (50, 51), (55, 56)), (127, 112, 96))
    owned = KeptClub("the 56", D(56), D(10), must_stay=False)
    best = plans_for(40.4, 143, wedges=3, owned=[owned])[0]
    assert is_in_its_bands(best, wanted)
    assert best.slots[2].club_id == "the 56"
    assert has_sound_gaps(best)


def test_c_w_is_offered_the_set_s_own_wedge_for_the_gap() -> None:
    assert matched_set_note(["Skerrow Tern 44"]) == (
        "The set's own wedge may be the gap club, with the irons' shaft and lie: "
        "Skerrow Tern 44, if the irons are of that set.",
    )
    assert matched_set_note([]) == ()


def test_c_w_never_gets_fifteen_in_silence() -> None:
    # Twelve others and the pitching wedge, the 56, and two more.
    words = BagCount(others=12, below=1, wedges=1, unused=("1 of the irons above the 9",)).words(3)
    assert words == (
        "With this plan 16 clubs are in the bag; 14 is the limit (Rule 4.1b): 2 must come out. "
        "Hardly ever hit: 1 of the irons above the 9."
    )


# --- T.E.: 47 degrees and 140 yards, firm and thin -----------------------------------------------

T_E = {
    "attack_deg": "-5.5",
    "ground_summer": "firm",
    "ground_winter": "firm",
    "face_opened": "often",
}


def test_t_e_gets_51_to_52_then_55_to_56_then_60() -> None:
    wanted = Wanted(((51, 52), (55, 56), (60, 60)), (127, 115, 102))
    best = plans_for(47, 140, wedges=3, answers=T_E)[0]
    assert is_in_its_bands(best, wanted)
    assert has_sound_gaps(best)
    assert 4 <= best.slots[2].bounce_after_deg <= 8


# --- S.G.: six wedges of his own -----------------------------------------------------------------

MEASURED = {
    "48": "48.2", "50": "51.0", "52": "51.3", "54": "54.8", "58": "57.9", "60": "60.4",
}  # fmt: skip


def owned_by_s_g(bends: int) -> list[KeptClub]:
    return [
        KeptClub(stamp, D(loft), None, D(bends), D(bends), must_stay=False)
        for stamp, loft in MEASURED.items()
    ]


@pytest.mark.parametrize("bends", [0, 1, 2])
def test_s_g_buys_nothing(bends: int) -> None:
    best = plans_for(46, 119, wedges=3, owned=owned_by_s_g(bends))[0]
    assert best.buys_nothing
    kept = [slot.club_id for slot in best.slots]
    assert kept[0] in ("50", "52")
    assert kept[1] == "54"
    assert kept[2] in ("58", "60")
    # Bent a little at most, and only where it may be.
    assert all(abs(slot.bend_deg) <= min(bends, 1) for slot in best.slots)


# Must: two clubs carry the same, fifteen clubs, worn ones by a look at the grooves.
def test_s_g_hears_that_two_of_his_clubs_carry_the_same() -> None:
    owned = [OwnLoft(name, D(loft), is_measured=True) for name, loft in MEASURED.items()]
    notes = bag_notes(
        [OwnLoft("pitching wedge", D(46), is_measured=True), *owned], same_deg=D(1), hole_deg=D(6)
    )
    assert notes == (
        "50 and 52 are 0.3 degrees apart (51° measured and 51.3° measured): they carry the same. "
        "Check the lofts first, then look at the grooves: of two alike the less worn one stays.",
    )
    # Nine others and six wedges are fifteen.
    assert BagCount(others=8, below=1, wedges=6).words(6).endswith("1 must come out.")
