"""Plans of lofts: the best, the next, and why there is none."""

from dataclasses import replace
from decimal import Decimal as D

import pytest

from sessions.maths.carry_line import LoftCarry, carry_line
from sessions.maths.errors import NotAFigure, PlanImpossible
from sessions.maths.loft_plan import (
    CandidateHead,
    KeptClub,
    PlanWeights,
    PlanWish,
    SlotWish,
    WiderSteps,
    loft_plans,
)

YARD = 0.9144
LINE = carry_line(45.0, 128 * YARD)
WISH = PlanWish(wedges=3, hand="right")


def head(loft: int | str, bend: int = 2, hand: str = "right", available: bool = True) -> object:
    return CandidateHead(
        f"head {loft} {hand}",
        D(loft),
        D(10),
        D(bend),
        D(bend),
        hand,  # type: ignore[arg-type]
        available,
    )


HEADS = [head(loft) for loft in range(44, 63, 2)]


def test_even_steps_to_the_wished_most_lofted_club() -> None:
    best = loft_plans(LINE, replace(WISH, most_lofted_deg=D(60)), HEADS)[0]
    assert best.target_lofts_deg == (D(50), D(55), D(60))
    assert [round(slot.carry_m / YARD) for slot in best.slots] == [115, 101, 88]


def test_a_bent_head_says_its_bend_its_bounce_and_why() -> None:
    slot = loft_plans(LINE, replace(WISH, most_lofted_deg=D(60)), HEADS)[0].slots[1]
    assert slot.stamped_loft_deg == D(54)
    assert slot.bend_deg == D(1)
    assert slot.bounce_after_deg == D(11)
    assert slot.why == (
        "A new head stamped 54, bent 1 weak: 5 degrees more loft than the club before it, a gap of "
        "11 % of the pitching wedge's carry. The bend leaves less offset."
    )


def test_a_measured_pitching_wedge_between_half_degrees_is_the_start() -> None:
    as_even_as_can_be = PlanWeights(bend_worth_m=0.0)
    best = loft_plans(carry_line(40.4, 143 * YARD), WISH, HEADS, weights=as_even_as_can_be)[0]
    assert best.target_lofts_deg == (D("45.5"), D("50.5"), D("55.5"))
    assert best.slots[0].step_deg == D("5.1")


def test_a_bend_that_gains_less_than_a_yard_and_a_half_is_not_planned() -> None:
    # The even plan bends all three heads by half a degree, 1.5 yards each.
    best = loft_plans(carry_line(40.4, 143 * YARD), WISH, HEADS)[0]
    assert best.target_lofts_deg == (D(46), D(51), D(56))
    assert [slot.bend_deg for slot in best.slots] == [D(0), D(1), D(0)]


def test_further_plans_are_distinct() -> None:
    plans = loft_plans(LINE, WISH, HEADS)
    assert len(plans) == 3
    for one, other in ((0, 1), (0, 2), (1, 2)):
        pairs = zip(plans[one].target_lofts_deg, plans[other].target_lofts_deg, strict=True)
        assert any(abs(a - b) >= 1 for a, b in pairs)
    assert plans[0].cost <= plans[1].cost <= plans[2].cost


def test_the_plan_is_built_round_a_club_that_stays() -> None:
    loved = KeptClub("loved", D("54.8"), D(12))
    for plan in loft_plans(LINE, WISH, HEADS, [loved]):
        assert "loved" in {slot.club_id for slot in plan.slots}
    slot = next(s for s in loft_plans(LINE, WISH, HEADS, [loved])[0].slots if s.club_id)
    assert (slot.head_id, slot.target_loft_deg, slot.bounce_after_deg) == (None, D("54.8"), D(12))
    assert slot.why.startswith("Your own club stays: ")


def test_a_club_that_stays_stands_as_it_is_in_the_plan_that_comes_first() -> None:
    """Even steps would have it 0.7 stronger; the plan is built round it as it was measured."""
    line = carry_line(44, 120.7)
    wish = PlanWish(wedges=3, hand="right", usual_end_deg=(D(56), D(60)))
    loved = KeptClub("loved", D("49.2"), None, D(2), D(2))
    best = loft_plans(line, wish, [head(loft) for loft in (54, 58)], [loved])[0]
    assert best.slots[0].club_id == "loved"
    assert best.slots[0].bend_deg == 0


def test_owned_clubs_that_step_well_make_a_plan_that_buys_nothing() -> None:
    owned = [KeptClub(f"own {loft}", D(loft), must_stay=False) for loft in (50, 55, 60)]
    best = loft_plans(LINE, WISH, HEADS, owned)[0]
    assert best.buys_nothing
    assert best.target_lofts_deg == (D(50), D(55), D(60))


def test_keeping_everything_is_a_plan_with_notes_on_what_is_odd() -> None:
    kept = [KeptClub("lob", D(60)), KeptClub("gap", D(52))]
    (only,) = loft_plans(LINE, replace(WISH, wedges=2), [], kept)
    assert only.buys_nothing
    assert only.target_lofts_deg == (D(52), D(60))
    assert only.notes[1] == (
        "From 52 to 60 is 8 degrees and 17 % of the pitching wedge's carry: "
        "4 to 6 degrees and 8 to 13 % was asked for."
    )


def test_owned_clubs_may_be_bent_a_little() -> None:
    owned = [
        KeptClub("48.2", D("48.2"), None, D(1), D(1), must_stay=False),
        KeptClub("51.0", D("51.0"), None, D(1), D(1), must_stay=False),
        KeptClub("54.8", D("54.8"), None, D(1), D(1), must_stay=False),
        KeptClub("60.4", D("60.4"), None, D(1), D(1), must_stay=False),
    ]
    best = loft_plans(carry_line(46.0, 119 * YARD), WISH, HEADS, owned)[0]
    assert best.buys_nothing
    assert [slot.club_id for slot in best.slots] == ["51.0", "54.8", "60.4"]


def test_wrong_hand_unavailable_and_left_out_heads_are_never_chosen() -> None:
    heads = [
        head(50, 0, "left"),
        head(50, 0, available=False),
        replace(head(50, 0), head_id="left out"),  # type: ignore[type-var]
        replace(head(50, 0), head_id="good"),  # type: ignore[type-var]
    ]
    wish = PlanWish(wedges=1, hand="right", leave_out=frozenset({"left out"}))
    (only,) = loft_plans(LINE, wish, heads)
    assert only.slots[0].head_id == "good"


def test_a_club_left_out_does_not_bind_the_plan() -> None:
    wish = replace(WISH, leave_out=frozenset({"old"}))
    plans = loft_plans(LINE, wish, HEADS, [KeptClub("old", D("46.0"))])
    assert all(slot.club_id is None for plan in plans for slot in plan.slots)


@pytest.mark.parametrize(
    ("wish", "heads", "kept", "binding"),
    [
        (replace(WISH, wedges=1, most_lofted_deg=D(60)), HEADS, [], "the wish for 60 degrees"),
        (WISH, [head(50, 0), head(60, 0)], [], "the heads that can be had"),
        (WISH, HEADS, [KeptClub("a", D(52)), KeptClub("b", D("52.3"))], "the clubs that are to"),
        (replace(WISH, gap_limits_percent=(20.0, 25.0)), HEADS, [], "gaps of 20 to 25 %"),
        (replace(WISH, step_limits_deg=(D(2), D(3))), HEADS, [], "steps of 2 to 3 degrees"),
    ],
)
def test_the_refusal_names_the_limit_in_the_way(
    wish: PlanWish, heads: list[CandidateHead], kept: list[KeptClub], binding: str
) -> None:
    with pytest.raises(PlanImpossible) as refused:
        loft_plans(LINE, wish, heads, kept)
    assert f"In the way: {binding}" in str(refused.value)


def test_two_limits_in_the_way_are_named_together() -> None:
    with pytest.raises(PlanImpossible) as refused:
        loft_plans(LINE, replace(WISH, step_limits_deg=(D(2), D(3))), [])
    assert str(refused.value) == (
        "No plan fits: 3 wedges were asked for with 2 to 3 degrees and 8 to 13 %. In the way: "
        "the heads that can be had, bent within their limits together with steps of 2 to 3 "
        "degrees, or the heads that can be had, bent within their limits together with gaps of "
        "8 to 13 % of the pitching wedge's carry."
    )


def test_three_limits_in_the_way_are_said_to_be_more_than_two() -> None:
    wish = replace(
        WISH,
        step_limits_deg=(D(2), D(3)),
        gap_limits_percent=(20.0, 25.0),
        most_lofted_deg=D(60),
    )
    with pytest.raises(PlanImpossible, match="More than two limits"):
        loft_plans(LINE, wish, [])


def test_more_clubs_to_stay_than_wedges_is_refused() -> None:
    kept = [KeptClub("a", D(50)), KeptClub("b", D(55))]
    with pytest.raises(PlanImpossible, match="2 clubs are to stay but 1 wedge was asked for"):
        loft_plans(LINE, replace(WISH, wedges=1), HEADS, kept)


@pytest.mark.parametrize("wedges", [0, 5])
def test_a_number_of_wedges_that_makes_no_sense_is_refused(wedges: int) -> None:
    with pytest.raises(NotAFigure, match="1 to 4 wedges"):
        loft_plans(LINE, replace(WISH, wedges=wedges), HEADS)


def test_a_head_whose_loft_is_no_number_is_refused() -> None:
    with pytest.raises(NotAFigure):
        loft_plans(LINE, WISH, [replace(head(50), stamped_loft_deg=D("NaN"))])  # type: ignore[type-var]


# --- what slots are for -----------------------------------------------------------------------


def soled(name: str, loft: int, bounce: int, *traits: str) -> CandidateHead:
    return CandidateHead(name, D(loft), D(bounce), D(2), D(2), "right", True, frozenset(traits))


def test_a_role_goes_by_loft_unless_it_is_wished() -> None:
    best = loft_plans(LINE, replace(WISH, most_lofted_deg=D(60)), HEADS)[0]
    assert [slot.role for slot in best.slots] == ["full_shot", "touch", "touch"]
    full = SlotWish(role="full_shot")
    wish = replace(WISH, most_lofted_deg=D(60), slots=(full, full, SlotWish(role="touch")))
    assert [slot.role for slot in loft_plans(LINE, wish, HEADS)[0].slots] == [
        "full_shot", "full_shot", "touch",
    ]  # fmt: skip


def test_of_two_heads_at_one_loft_the_wanted_bounce_after_bending_decides() -> None:
    low, high = soled("low", 56, 8), soled("high", 56, 12)
    one = replace(WISH, wedges=1, step_limits_deg=(D(5), D(5)))
    line = carry_line(52.0, 100.0)
    for wanted, head_id in (((D(7), D(7)), "low"), ((D(11), D(11)), "high")):
        wish = replace(one, slots=(SlotWish(bounce_deg=wanted),))
        slot = loft_plans(line, wish, [low, high])[0].slots[0]
        # 56 bent 1 weak to 57 takes a degree more of bounce: 9 and 13.
        assert slot.target_loft_deg == D(57)
        assert (slot.head_id, slot.bounce_after_deg) == (head_id, slot.bounce_after_deg)
        assert slot.bounce_after_deg in (D(9), D(13))
        assert slot.why.endswith(f"where {wanted[0]} to {wanted[1]} is wanted.")


def test_the_wanted_sole_is_chosen_and_a_missing_trait_is_said() -> None:
    wide, plain = soled("wide", 50, 10, "wide sole"), soled("a plain one", 50, 10)
    wish = replace(WISH, wedges=1, slots=(SlotWish(traits=frozenset({"wide sole"})),))
    slot = loft_plans(LINE, wish, [plain, wide])[0].slots[0]
    assert slot.head_id == "wide"
    assert slot.why.endswith("carry.")
    slot = loft_plans(LINE, wish, [plain])[0].slots[0]
    assert slot.head_id == "a plain one"
    assert slot.why.endswith(" No wide sole.")


def test_wishes_for_some_slots_only_are_refused() -> None:
    with pytest.raises(NotAFigure, match="every slot"):
        loft_plans(LINE, replace(WISH, slots=(SlotWish(),)), HEADS)


def test_the_most_lofted_club_lies_in_the_usual_range_where_nobody_wished() -> None:
    line = carry_line(47.0, 140 * YARD)
    free = loft_plans(line, WISH, HEADS)[0]
    assert free.target_lofts_deg == (D(52), D(57), D(62))
    usual = loft_plans(line, replace(WISH, usual_end_deg=(D(56), D(60))), HEADS)[0]
    assert usual.target_lofts_deg == (D(52), D(56), D(60))


# --- the player's doubt -----------------------------------------------------------------------


def test_a_gap_comes_with_its_own_doubt_which_shots_make_smaller() -> None:
    said = loft_plans(LINE, replace(WISH, most_lofted_deg=D(60)), HEADS)[0].slots[1]
    assert said.gap_low_m < said.gap_m < said.gap_high_m
    shots = [LoftCarry(45.0, 117.0), LoftCarry(55.0, 92.0)] * 6
    hit = carry_line(45.0, 128 * YARD, shots)
    seen = loft_plans(hit, replace(WISH, most_lofted_deg=D(60)), HEADS)[0].slots[1]
    assert seen.gap_high_m - seen.gap_low_m < said.gap_high_m - said.gap_low_m


def test_the_first_gap_is_from_what_the_pitching_wedge_carried() -> None:
    # It flies three metres farther than a line through the other clubs would have it.
    shots = [LoftCarry(50.0, 101.0), LoftCarry(55.0, 89.0)] * 4
    line = carry_line(45.0, 117.0, [*shots, *[LoftCarry(45.0, 117.0)] * 4])
    slot = loft_plans(line, WISH, HEADS)[0].slots[0]
    assert slot.gap_m == pytest.approx(117.0 - slot.carry_m)
    assert slot.gap_low_m < slot.gap_m < slot.gap_high_m


def test_an_own_club_that_was_hit_stands_in_a_plan_with_its_own_carry() -> None:
    shots = [LoftCarry(50.0, carry, "long one") for carry in (110.0, 111.0, 109.0, 110.0)]
    line = carry_line(45.0, 117.0, [*shots, *[LoftCarry(45.0, 117.0)] * 8])
    kept = [KeptClub("long one", D(50))]
    slot = loft_plans(line, replace(WISH, wedges=1), HEADS, kept)[0].slots[0]
    assert slot.carry_m == pytest.approx(line.at(50.0, club="long one").carry_m)
    assert slot.carry_m > line.at(50.0).carry_m + 0.3
    assert slot.gap_m == pytest.approx(117.0 - slot.carry_m)


# --- keeping, bending, wider steps ----------------------------------------------------------------


def test_keeping_everything_stands_beside_the_plans_that_buy() -> None:
    owned = [KeptClub(name, D(loft), must_stay=False) for name, loft in (("a", 52), ("b", 60))]
    plans = loft_plans(LINE, replace(WISH, wedges=2), HEADS, owned)
    assert plans[-1].kind == "kept as it is"
    assert plans[-1].target_lofts_deg == (D(52), D(60))
    assert plans[-1].buys_nothing
    assert len(plans[-1].notes) == 2
    assert [plan.kind for plan in plans[:-1]] == ["usual"] * 3


def test_clubs_that_must_stay_are_offered_as_they_are_and_then_bent() -> None:
    kept = [
        KeptClub("gap", D("51.8"), D(10), D(2), D(2)),
        KeptClub("sand", D("54.8"), D(12), D(2), D(2)),
    ]
    as_it_is, bent = loft_plans(LINE, replace(WISH, wedges=2), HEADS, kept)
    assert as_it_is.kind == "kept as it is"
    assert as_it_is.target_lofts_deg == (D("51.8"), D("54.8"))
    # From 45: the first bent 1.8 strong, the second as it is.
    assert bent.target_lofts_deg == (D("50"), D("54.8"))
    assert bent.buys_nothing
    assert bent.slots[0].bounce_after_deg == D("8.2")
    assert bent.slots[0].why.startswith("Your own club stays, bent 1.8 strong: ")


def test_the_best_of_what_is_owned_is_weighed_though_a_step_is_a_little_short() -> None:
    line = carry_line(46.0, 119 * YARD)
    owned = [
        KeptClub(name, D(loft), must_stay=False)
        for name, loft in (("a", "51.0"), ("b", "54.8"), ("c", "60.4"), ("d", "48.2"))
    ]
    best = loft_plans(line, WISH, HEADS, owned)[0]
    assert best.buys_nothing
    assert best.target_lofts_deg == (D("51.0"), D("54.8"), D("60.4"))
    assert best.notes == (
        "From 51 to 54.8 is 3.8 degrees and 8 % of the pitching wedge's carry: "
        "4 to 6 degrees and 8 to 13 % was asked for.",
    )


def test_what_is_owned_and_ends_elsewhere_says_so() -> None:
    plans = loft_plans(
        LINE, replace(WISH, wedges=1, most_lofted_deg=D(50)), HEADS, [KeptClub("a", D(54))]
    )
    assert plans[0].notes[-1] == "It ends at 54 degrees: 50 was wished for."


def test_a_club_never_measured_stands_in_a_plan_by_its_stamp_and_says_so() -> None:
    kept = [KeptClub("own", D(50), is_loft_measured=False)]
    slot = loft_plans(LINE, WISH, HEADS, kept)[0].slots[0]
    assert slot.is_loft_measured is False
    assert slot.why.startswith("Your own club stays, by its stamp, not measured: 5 degrees")


WIDER = WiderSteps(sand_from_deg=D(56), step_high_deg=D(7), gap_high_percent=15.0)


def test_two_wedges_below_a_strong_pitching_wedge_are_offered_wider_steps_too() -> None:
    line = carry_line(43.0, 78 * YARD)
    wish = replace(WISH, wedges=2, usual_end_deg=(D(56), D(60)), wider=WIDER)
    plans = loft_plans(line, wish, HEADS)
    assert [plan.kind for plan in plans] == ["usual", "usual", "usual", "wider steps"]
    assert all(8 <= slot.gap_percent <= 13 for plan in plans[:3] for slot in plan.slots)
    assert plans[3].target_lofts_deg == (D(50), D(56))
    assert plans[3].notes[0] == (
        "Wider steps than usual, up to 7 degrees, so that 2 wedges can reach a club of 56 for sand."
    )
    assert plans[3].notes[1].startswith("From 43 to 50 is 7 degrees and 15 % of the pitching")


def test_owned_clubs_of_wider_steps_stand_once_in_the_plans() -> None:
    line = carry_line(43.0, 78 * YARD)
    wish = replace(WISH, wedges=2, usual_end_deg=(D(56), D(60)), wider=WIDER)
    owned = [KeptClub("gap", D(50), must_stay=False), KeptClub("sand", D(56), must_stay=False)]
    plans = loft_plans(line, wish, (), owned)
    told = [tuple((s.target_loft_deg, s.head_id, s.club_id) for s in p.slots) for p in plans]
    assert (((D(50), None, "gap"), (D(56), None, "sand"))) in told
    assert len(set(told)) == len(told)


def test_a_wish_that_only_wider_steps_fulfil_gets_them_instead_of_a_refusal() -> None:
    line = carry_line(43.0, 78 * YARD)
    wish = replace(WISH, wedges=2, most_lofted_deg=D(57), most_lofted_within_deg=D(0), wider=WIDER)
    (only,) = loft_plans(line, wish, HEADS)
    assert only.kind == "wider steps"
    assert only.target_lofts_deg == (D(50), D(57))
    with pytest.raises(PlanImpossible, match="the wish for 57 degrees at the end"):
        loft_plans(line, replace(wish, wider=None), HEADS)


def test_steps_are_not_widened_where_usual_ones_reach_a_sand_club() -> None:
    plans = loft_plans(LINE, replace(WISH, wider=WIDER), HEADS)
    assert [plan.kind for plan in plans] == ["usual"] * 3
