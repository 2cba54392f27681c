"""Six more players and the loft plans that a good fitter would expect: see `six_more.md`.

Written from the trade's facts alone before the rules were seen. Bands, carries and counts are
typed as they stand on the page; above each test what it expects in words.
"""

from collections.abc import Sequence
from decimal import Decimal as D

import pytest

from sessions.maths.loft_plan import KeptClub, LoftPlan
from sessions.rules.plan_notes import BagCount, OwnLoft, bag_notes
from tests.rules.players.plan_room import (
    HEAD_BY_ID,
    Wanted,
    has_sound_gaps,
    is_in_its_bands,
    plans_for,
)

pytestmark = pytest.mark.common_practice


def stays(name: str, loft: str, bounce: str, bends: int = 2) -> KeptClub:
    """A club of the player's that is to stay, with how far its head may be bent either way."""
    return KeptClub(name, D(loft), D(bounce), D(bends), D(bends))


def in_the_bag(*clubs: tuple[str, str]) -> tuple[str, ...]:
    """What is said of measured lofts: twins and holes."""
    owned = [OwnLoft(name, D(loft), is_measured=True) for name, loft in clubs]
    return bag_notes(owned, same_deg=D(1), hole_deg=D(6))


def counted(others: int, wedges_now: int, wedges_then: int) -> str:
    """The others without the pitching wedge, the wedges now and in the plan."""
    return BagCount(others=others, below=1, wedges=wedges_now).words(wedges_then)


HOLDS = "With this plan {} clubs are in the bag; 14 is the limit."


def one_in_its_bands(plans: Sequence[LoftPlan], wanted: Wanted) -> LoftPlan:
    """Any plan with gaps of 8 to 13 % will do; one of those that are offered is the page's own."""
    assert all(has_sound_gaps(plan) for plan in plans if plan.kind != "wider steps")
    return next(plan for plan in plans if is_in_its_bands(plan, wanted))


# --- R.K.: left-handed, steep, firm, thin sand; the 50 that measures 49.2 stays -------------------

R_K = {
    "attack_deg": "-7.5",
    "divot": "deep",
    "ground_summer": "firm",
    "ground_winter": "firm",
    "grass": "coarse",
    "sand": ["thin_over_base"],
    "face_opened": "sometimes",
}


def r_k_s_plans() -> tuple[LoftPlan, ...]:
    fifty = stays("50", "49.2", "9.2")
    return plans_for(44, 132, wedges=3, answers=R_K, owned=[fifty], hand="left")


# 49.2 kept, 53.5 to 54.5, 58.5 to 59.5 (118, 104, 90): the plan is built round 49.2, not 50.
def test_r_k_s_plan_is_built_round_the_50_as_it_measures() -> None:
    wanted = Wanted(((49.2, 49.2), (53.5, 54.5), (58.5, 59.5)), (118, 104, 90))
    plan = one_in_its_bands(r_k_s_plans(), wanted)
    assert plan.slots[0].club_id == "50"
    # 10.9, 10.1 and 10.5 % of 132 yards.
    assert [slot.gap_percent for slot in plan.slots] == pytest.approx([10.9, 10.1, 10.5], abs=0.05)


# Must not: bend the 50 to 50, nor anywhere else; a right-handed head.
def test_r_k_s_50_is_not_bent_and_no_head_is_of_the_other_hand() -> None:
    best, *_ = plans = r_k_s_plans()
    assert best.slots[0].bend_deg == 0
    for plan in plans:
        built = [slot.head_id for slot in plan.slots if slot.head_id is not None]
        assert {HEAD_BY_ID[head].hand for head in built} == {"left"}


# Mid bounce, 7 to 10 for both new ones, never "you are steep: 12 or more".
def test_r_k_gets_no_high_bounce_for_being_steep() -> None:
    wanted = Wanted(((49.2, 49.2), (53.5, 54.5), (58, 59.5)), (118, 104, 90))
    best = one_in_its_bands(r_k_s_plans(), wanted)
    assert all(7 <= slot.bounce_after_deg <= 10 for slot in best.slots[1:])


# 14 clubs now and then; no hole, no two of one carry, nothing to come out.
def test_r_k_s_fourteen_hold_and_his_gaps_have_no_fault() -> None:
    assert in_the_bag(("PW", "44.0"), ("50", "49.2"), ("54", "53.1"), ("58", "58.6")) == ()
    assert counted(10, 3, 3) == HOLDS.format(14)


# --- J.V.: tall, strong, too much spin; the heads are right, the shafts are not ------------------

J_V = {
    "attack_deg": "-5",
    "divot": "thin",
    "ground_summer": "normal",
    "ground_winter": "soft",
    "grass": "fine",
    "sand": ["soft"],
    "face_opened": "often",
}


# All three heads kept as they are: 49.6, 54.0, 58.3 (112, 101, 89), gaps 9.7, 9.2, 9.0 %.
def test_j_v_buys_no_head_and_her_gaps_are_good() -> None:
    owned = [stays("50", "49.6", "9.6"), stays("54", "54.0", "12", 0), stays("58", "58.3", "8.3")]
    best, *_ = plans_for(45, 124, wedges=3, answers=J_V, owned=owned)
    assert (best.kind, best.buys_nothing, best.notes) == ("kept as it is", True, ())
    wanted = Wanted(((49.6, 49.6), (54, 54), (58.3, 58.3)), (112, 101, 89))
    assert is_in_its_bands(best, wanted)
    assert has_sound_gaps(best)
    assert [slot.gap_percent for slot in best.slots] == pytest.approx([9.7, 9.2, 9.0], abs=0.05)


# 13 clubs, one place free; no hole, no two clubs of one carry (her 124 yards with the 50 are flat
# out and play no part).
def test_j_v_s_bag_needs_nothing() -> None:
    assert in_the_bag(("PW", "45.0"), ("50", "49.6"), ("54", "54.0"), ("58", "58.3")) == ()
    assert counted(9, 3, 3) == HOLDS.format(13)


# --- H.B.: 74, arthritic hands; a hollow gap wedge that stays -------------------------------------

H_B = {
    "divot": "none",
    "ground_summer": "normal",
    "ground_winter": "soft",
    "grass": "fine",
    "sand": ["soft"],
    "face_opened": "never",
}


def h_b_s_plans() -> tuple[LoftPlan, ...]:
    hollow = stays("the hollow one", "49.0", "10", bends=0)
    return plans_for(44, 90, wedges=2, answers=H_B, owned=[hollow])


# 49.0 kept, 53.5 to 54.5 (81, 71), no 60; the sand club wide, 11 to 13 of bounce.
def test_h_b_gets_one_light_sand_club_below_his_hollow_one() -> None:
    wanted = Wanted(((49, 49), (53.5, 54.5)), (81, 71))
    plan = one_in_its_bands(h_b_s_plans(), wanted)
    assert [slot.gap_percent for slot in plan.slots] == pytest.approx([10.5, 10.5], abs=0.05)
    assert HEAD_BY_ID[str(plan.slots[1].head_id)].sole_width_mm > 24
    assert 11 <= plan.slots[1].bounce_after_deg <= 13


# Must not: bend the hollow wedge, by any amount.
def test_h_b_s_hollow_head_is_never_bent() -> None:
    for plan in h_b_s_plans():
        assert plan.slots[0].club_id == "the hollow one"
        assert plan.slots[0].bend_deg == 0


# Must: the 49.0 and the 49.3 carry the same; a hole of 6.9 degrees now; 13 after.
def test_h_b_hears_of_two_clubs_alike_of_the_hole_and_of_thirteen() -> None:
    said = in_the_bag(("PW", "44.0"), ("Hollow", "49.0"), ("Steel 50", "49.3"), ("56", "56.2"))
    assert said == (
        "Hollow and Steel 50 are 0.3 degrees apart (49° measured and 49.3° measured): "
        "they carry the same. Check the lofts first, then look at the grooves: of two alike the "
        "less worn one stays.",
        "From Steel 50 (49.3° measured) to 56 (56.2° measured) is a hole of 6.9 degrees.",
    )
    assert counted(10, 3, 2) == HOLDS.format(13)


# --- D.N.: seated, mats all winter, a pitching wedge of 48 ---------------------------------------

D_N = {"ground_summer": "normal", "mats": "mostly_on_mats", "face_opened": "never"}


# 53 to 54 and 58 to 59 (81, 72): two are enough, and wider steps are not needed.
def test_d_n_gets_two_wedges_from_48() -> None:
    plans = plans_for(48, 92, wedges=2, answers=D_N)
    one_in_its_bands(plans, Wanted(((53, 54), (58, 59)), (81, 72)))
    assert {plan.kind for plan in plans} == {"usual"}
    # Must not: 50 and 54, as if the pitching wedge were 44 to 46.
    assert all(plan.target_lofts_deg[0] >= 52 for plan in plans)
    # 11 clubs become 13.
    assert counted(10, 0, 2) == HOLDS.format(13)


# --- W.O.: the irons change in eight weeks; hard summer, wet winter ------------------------------

W_O = {
    "attack_deg": "-2",
    "divot": "thin",
    "ground_summer": "firm",
    "ground_winter": "soft",
    "sand": ["firm", "wet"],
}


# Now: 52.4 kept, 57 to 58 (119, 105), 13 clubs. 8 to 10 of bounce: neither low for the summer nor
# high for the winter.
def test_w_o_gets_a_longer_sand_club_now() -> None:
    plans = plans_for(47, 134, wedges=2, answers=W_O, owned=[stays("52", "52.4", "10.4")])
    best = one_in_its_bands(plans[:1], Wanted(((52.4, 52.4), (57, 58)), (119, 105)))
    assert best.slots[0].club_id == "52"
    assert 8 <= best.slots[1].bounce_after_deg <= 10
    assert in_the_bag(("PW", "47.0"), ("52", "52.4"), ("58", "57.4")) == ()
    assert counted(10, 2, 2) == HOLDS.format(13)


# Later: 47.5 to 48 under the announced 43 (131, 117, 101); a hole of 9.4 degrees without it; 14
# clubs, fifteen if the new set brings a gap wedge of its own as well.
def test_w_o_s_gap_club_is_for_the_new_irons_only() -> None:
    own = [stays("52", "52.4", "10.4"), stays("57.5", "57.5", "9.5")]
    plans = plans_for(43, 145, wedges=3, answers=W_O, owned=own)
    wanted = Wanted(((47.5, 48), (52.4, 52.4), (57.5, 57.5)), (131, 117, 101))
    one_in_its_bands(plans[:1], wanted)
    assert in_the_bag(("PW", "43.0"), ("52", "52.4"), ("Sand", "57.5")) == (
        "From PW (43° measured) to 52 (52.4° measured) is a hole of 9.4 degrees.",
    )
    # A 47.5 beside the 47 that is there until then: the same club twice.
    (twins,) = in_the_bag(("PW", "47.0"), ("Gap", "47.5"), ("52", "52.4"))
    assert "0.5 degrees apart" in twins
    assert counted(10, 2, 3) == HOLDS.format(14)
    assert "15 clubs" in counted(10, 2, 4)


# --- G.P.: events under the groove rule, wedges of more than twenty years ------------------------

G_P = {
    "attack_deg": "-7.5",
    "divot": "deep",
    "ground_summer": "soft",
    "ground_winter": "soft",
    "grass": "coarse",
    "sand": ["soft"],
    "face_opened": "sometimes",
}


# 50 to 50.5, 54.5 to 55.5, 59.5 to 60.5 (115, 102, 89): the old ones as measured are the target.
def test_g_p_s_event_set_steps_as_his_old_set_measures() -> None:
    wanted = Wanted(((50, 50.5), (54.5, 55.5), (59.5, 60.5)), (115, 102, 89))
    plan = one_in_its_bands(plans_for(46, 126, wedges=3, answers=G_P), wanted)
    sand = HEAD_BY_ID[str(plan.slots[1].head_id)]
    assert 12 <= plan.slots[1].bounce_after_deg <= 14
    assert sand.sole_width_mm > 24


# Stamps 52, 56, 60 measure 50.4, 55.0, 60.4: no hole and no twins, and 46 to 52 by the stamps is
# no gap of his. Three for three: 14 hold.
def test_g_p_s_gaps_are_good_as_they_measure() -> None:
    assert in_the_bag(("PW", "46.0"), ("52", "50.4"), ("56", "55.0"), ("60", "60.4")) == ()
    assert counted(10, 3, 3) == HOLDS.format(14)


# What the copper head may be bent is nothing: it stays at 55.0 or is left out.
def test_g_p_s_copper_head_is_never_bent() -> None:
    owned = [
        KeptClub("52", D("50.4"), D("6.4"), D(2), D(2), must_stay=False),
        KeptClub("copper", D("55.0"), D("7.0"), must_stay=False),
        KeptClub("60", D("60.4"), D("9.4"), D(2), D(2), must_stay=False),
    ]
    slots = [
        slot
        for plan in plans_for(46, 126, wedges=3, answers=G_P, owned=owned)
        for slot in plan.slots
        if slot.club_id == "copper"
    ]
    assert slots
    assert all(slot.bend_deg == 0 for slot in slots)
