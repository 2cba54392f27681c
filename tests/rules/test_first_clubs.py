"""What is tried first, from the interview, for players that were written down before the rules.

The bands are what a good fitter would expect of each player; a suggestion agrees with a band
when its own range meets it and the middle of a closed range lies within it.
"""

from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.declared import SETTINGS
from sessions.rules.facts import PlayerKind, Role
from sessions.rules.first_clubs import FirstClubs, first_clubs
from sessions.rules.interview_questions import QUESTIONS
from sessions.rules.slot_suggestions import (
    FirstClubLimits,
    PlannedSlot,
    PlayerHeard,
    Suggestion,
    Topic,
    Weight,
    first_club_limits_from,
)

pytestmark = pytest.mark.common_practice

LIMITS = first_club_limits_from({setting.key: setting.default for setting in SETTINGS})
YARD_M = 0.9144

FULL, TOUCH = Role.FULL_SHOT, Role.TOUCH


def slots(*lofts: tuple[str, Role]) -> tuple[PlannedSlot, ...]:
    return tuple(
        PlannedSlot(number, D(loft), role) for number, (loft, role) in enumerate(lofts, start=1)
    )


def player(kind: PlayerKind, loft: str, carry_yd: float) -> PlayerHeard:
    return PlayerHeard(kind=kind, carry_m=carry_yd * YARD_M, baseline_loft_deg=D(loft))


def bounce(found: FirstClubs, slot: int) -> Suggestion:
    return found.slots[slot - 1].of(Topic.SOLE)


def lie(found: FirstClubs, slot: int) -> Suggestion:
    return found.slots[slot - 1].of(Topic.LIE)


def shaft(found: FirstClubs, slot: int) -> Suggestion:
    return found.slots[slot - 1].of(Topic.SHAFT)


def agrees(one: Suggestion, low: str, high: str) -> bool:
    assert one.low is not None
    if one.high is None:
        return one.low <= D(high)
    return D(low) <= (one.low + one.high) / 2 <= D(high)


def says(sentences: tuple[str, ...], start: str) -> bool:
    return any(sentence.startswith(start) for sentence in sentences)


def test_as_shallow_with_very_soft_sand_gets_two_soles_and_no_high_bounce_on_the_60() -> None:
    found = first_clubs(
        {
            "attack_deg": "-2.5",
            "ground_summer": "normal",
            "ground_winter": "normal",
            "sand": ["fluffy", "soft"],
            "face_opened": "often",
            "keep": ["flop"],
            "fix": ["sand"],
            "iron_lie_deg": "-1",
            "iron_shaft_g": "120",
            "iron_shaft_material": "steel",
        },
        player(PlayerKind.MAN, "45", 128),
        slots(("50", FULL), ("54.5", TOUCH), ("59.5", TOUCH)),
        LIMITS,
    )
    assert found.wedges == 3
    assert agrees(bounce(found, 1), "8", "9")
    assert bounce(found, 2).low == D(11)
    assert "wide sole" in bounce(found, 2).words
    assert agrees(bounce(found, 3), "4", "8")
    assert "heel and trailing-edge relief" in bounce(found, 3).words
    assert agrees(lie(found, 1), "-1", "-1")
    assert agrees(lie(found, 2), "-1.5", "-1")
    assert (lie(found, 3).low, lie(found, 3).high) == (D("-2"), D("-1.5"))
    assert all(agrees(shaft(found, slot), "120", "130") for slot in (1, 2, 3))
    assert says(found.conflicts, "Shallow from turf but soft or fluffy sand")
    assert says(found.keep, "Flop works already")
    assert says(found.try_first, "To mend sand shots: slot 2, 54.5°, out of sand")
    assert found.missing == ()


def test_mo_is_told_that_a_light_club_is_normal_and_is_given_no_heavier_shaft_than_75() -> None:
    found = first_clubs(
        {
            "attack_deg": "-1.5",
            "ground_summer": "soft",
            "ground_winter": "soft",
            "sand": ["soft"],
            "keep": ["chip"],
            "iron_lie_deg": "0",
            "iron_shaft_g": "60",
            "iron_shaft_material": "graphite",
        },
        player(PlayerKind.WOMAN, "43", 78),
        slots(("50", FULL), ("56.5", TOUCH)),
        LIMITS,
    )
    assert found.wedges == 2
    assert agrees(bounce(found, 1), "8", "10")
    assert "wide sole" in bounce(found, 2).words
    assert agrees(lie(found, 1), "0", "0")
    assert lie(found, 2).high == D(0)
    assert all(agrees(shaft(found, slot), "60", "75") for slot in (1, 2))
    assert shaft(found, 1).words.startswith("graphite")
    assert says(found.normal_here, "With a light shaft a swing weight of C5 to D0 is normal")
    assert says(found.normal_here, "Gaps are judged in proportion")


def test_bt_a_growing_child_gets_two_wedges_and_no_heavier_shaft() -> None:
    found = first_clubs(
        {
            "attack_deg": "-4",
            "ground_summer": "normal",
            "ground_winter": "normal",
            "sand": ["soft"],
            "iron_lie_deg": "0",
            "iron_shaft_g": "50",
            "iron_shaft_material": "graphite",
        },
        player(PlayerKind.JUNIOR, "46", 72),
        slots(("52", FULL), ("57.5", TOUCH)),
        LIMITS,
    )
    assert found.wedges == 2
    assert agrees(bounce(found, 1), "8", "10")
    assert shaft(found, 1).high == D(50)
    assert shaft(found, 2).high == D(50)
    assert "never heavier" in shaft(found, 2).words
    assert "Check again after 6 months or 5 cm." in " ".join(found.not_today)


def test_cw_with_a_strong_set_is_offered_the_matched_wedge() -> None:
    found = first_clubs(
        {
            "attack": "medium",
            "ground_summer": "normal",
            "ground_winter": "normal",
            "sand": ["soft"],
            "face_opened": "never",
            "iron_lie_deg": "0",
        },
        player(PlayerKind.MAN, "40.4", 143),
        slots(("45.5", FULL), ("50.5", FULL), ("55.5", TOUCH)),
        LIMITS,
    )
    assert found.wedges in (3, 4)
    assert agrees(bounce(found, 1), "8", "10")
    assert bounce(found, 3).low == D(11)
    assert agrees(lie(found, 1), "0", "0")
    assert agrees(lie(found, 2), "0", "0")
    assert (lie(found, 3).low, lie(found, 3).high) == (D("-0.5"), D(0))
    assert says(found.try_first, "Slot 1, 45.5°, is a full-shot club: the irons' own matched")
    # How heavy the irons' shafts are was not asked: said, not guessed.
    assert shaft(found, 1).weight is Weight.OPEN
    assert "Weight of the shaft in your irons" in found.missing


def test_te_on_firm_thin_turf_gets_low_bounce_on_the_60_and_mid_above() -> None:
    found = first_clubs(
        {
            "attack_deg": "-5.5",
            "ground_summer": "firm",
            "ground_winter": "firm",
            "sand": ["firm"],
            "face_opened": "often",
            "iron_lie_deg": "0",
            "iron_shaft_g": "120",
            "iron_shaft_material": "steel",
        },
        player(PlayerKind.MAN, "47", 140),
        slots(("51.5", FULL), ("55.5", TOUCH), ("60", TOUCH)),
        LIMITS,
    )
    assert found.wedges == 3
    assert agrees(bounce(found, 1), "8", "10")
    assert agrees(bounce(found, 3), "4", "8")
    assert agrees(lie(found, 1), "0", "0")
    assert lie(found, 2).high == D(0)
    assert lie(found, 3).low == D(-1)
    assert all(agrees(shaft(found, slot), "125", "130") for slot in (1, 2, 3))


def test_sg_whose_irons_may_change_can_not_have_the_lie_settled_today() -> None:
    found = first_clubs(
        {"irons_changing": "perhaps"}, player(PlayerKind.MAN, "46", 119), (), LIMITS
    )
    assert says(found.not_today, "Length, lie and shaft of the full-shot clubs")


# Six more, written from the trade's rules alone.


def test_a_steep_player_on_firm_ground_gets_a_softened_edge_and_not_high_bounce() -> None:
    found = first_clubs(
        {"attack_deg": "-8", "ground_summer": "firm", "ground_winter": "firm"},
        PlayerHeard(),
        slots(
            ("50", FULL),
        ),
        LIMITS,
    )
    assert bounce(found, 1).words == "mid bounce (7 to 10), softened leading edge"
    assert bounce(found, 1).weight is Weight.LEANING
    assert says(found.conflicts, "Steep on firm ground")


def test_a_senior_with_steel_irons_is_never_given_more_weight() -> None:
    found = first_clubs(
        {"iron_shaft_g": "95", "iron_shaft_material": "steel"},
        PlayerHeard(kind=PlayerKind.SENIOR),
        slots(("52", FULL), ("58", TOUCH)),
        LIMITS,
    )
    assert [shaft(found, slot).high for slot in (1, 2)] == [D(95), D(95)]


def test_hands_that_hurt_a_little_count_as_arthritic() -> None:
    found = first_clubs(
        {"iron_shaft_g": "110", "hands": "a_little"},
        PlayerHeard(kind=PlayerKind.MAN),
        slots(("52", FULL)),
        LIMITS,
    )
    assert shaft(found, 1).high == D(110)
    healthy = first_clubs(
        {"iron_shaft_g": "110", "hands": "no"},
        PlayerHeard(kind=PlayerKind.MAN),
        slots(("52", FULL)),
        LIMITS,
    )
    assert shaft(healthy, 1).high == D(120)


def test_one_touch_club_for_soft_sand_and_an_opened_face_is_a_conflict_of_two_jobs() -> None:
    found = first_clubs(
        {"sand": ["fluffy"], "face_opened": "often"},
        PlayerHeard(),
        slots(("50", FULL), ("56", TOUCH)),
        LIMITS,
    )
    assert says(found.conflicts, "Slot 2, 56°, has two jobs")


def test_low_hands_in_sand_make_the_lob_club_the_flattest() -> None:
    wedges = slots(("50", FULL), ("54", TOUCH), ("60", TOUCH))
    low = first_clubs({"iron_lie_deg": "1", "hands_in_sand": "low"}, PlayerHeard(), wedges, LIMITS)
    assert (lie(low, 3).low, lie(low, 3).high) == (D(0), D(0))
    assert (lie(low, 2).low, lie(low, 2).high) == (D("0.5"), D(1))
    toe = first_clubs(
        {"iron_lie_deg": "1", "chips_on": "on_the_toe"}, PlayerHeard(), wedges, LIMITS
    )
    assert lie(toe, 3).words == "1 upright"


def test_the_sand_club_is_the_one_the_player_names() -> None:
    wedges = slots(("50", FULL), ("54", TOUCH), ("58", TOUCH))
    answers: dict[str, object] = {"sand": ["fluffy"], "face_opened": "often"}
    by_loft = first_clubs(answers, PlayerHeard(), wedges, LIMITS)
    assert "wide sole" in bounce(by_loft, 2).words
    named = first_clubs(answers | {"club_sand": "my old 58"}, PlayerHeard(), wedges, LIMITS)
    assert "wide sole" in bounce(named, 3).words
    assert "heel and trailing-edge relief" in bounce(named, 2).words


def test_nothing_asked_is_said_and_nothing_is_guessed() -> None:
    found = first_clubs({}, PlayerHeard(), slots(("50", FULL), ("56", TOUCH)), LIMITS)
    assert {one.weight for slot in found.slots for one in slot.suggestions} == {Weight.OPEN}
    assert all(one.low is None for slot in found.slots for one in slot.suggestions)
    assert found.wedges is None
    assert len(found.missing) == 10


def test_balls_from_a_mat_alone_settle_no_sole() -> None:
    on_mats = first_clubs({}, PlayerHeard(), (), LIMITS, surfaces=frozenset({"mat"}))
    assert says(on_mats.not_today, "The sole: everything so far was hit from a mat")
    on_both = first_clubs({}, PlayerHeard(), (), LIMITS, surfaces=frozenset({"mat", "fairway"}))
    assert on_both.not_today == ()


VALUES = st.one_of(
    st.none(),
    st.text(max_size=8),
    st.integers(-400, 400),
    st.sampled_from(sorted({c.value for q in QUESTIONS for c in q.choices})),
    st.lists(st.sampled_from(sorted({c.value for q in QUESTIONS for c in q.choices})), max_size=3),
)


@given(
    answers=st.dictionaries(st.sampled_from([q.key for q in QUESTIONS]), VALUES),
    kind=st.sampled_from(list(PlayerKind)),
    lofts=st.lists(st.decimals("44", "64", places=1), max_size=4),
)
def test_odd_answers_never_raise_and_weight_is_never_pushed_on_the_spared(
    answers: dict[str, object], kind: PlayerKind, lofts: list[D]
) -> None:
    planned = tuple(
        PlannedSlot(n, loft, TOUCH if loft >= 54 else FULL)
        for n, loft in enumerate(sorted(lofts), start=1)
    )
    found = first_clubs(answers, PlayerHeard(kind=kind), planned, LIMITS)
    if kind in {PlayerKind.JUNIOR, PlayerKind.SENIOR}:
        assert all(one.of(Topic.SHAFT).high == one.of(Topic.SHAFT).low for one in found.slots)


def test_every_threshold_is_the_shops() -> None:
    flatter = FirstClubLimits(
        **{name: getattr(LIMITS, name) for name in FirstClubLimits.__dataclass_fields__}
        | {"lob_flatter_deg": D("1.5")}
    )
    found = first_clubs(
        {"iron_lie_deg": "0", "hands_in_sand": "low"},
        PlayerHeard(),
        slots(("50", FULL), ("60", TOUCH)),
        flatter,
    )
    assert lie(found, 2).low == D("-1.5")


@pytest.mark.parametrize(
    ("irons", "said"),
    [
        ("-3", ""),
        ("3", ""),
        ("-3.5", "A head that is made flatter, or ask its maker."),
        ("3.5", "A head that is made more upright, or ask its maker."),
    ],
)
def test_a_lie_that_no_head_is_bent_to_is_said(irons: str, said: str) -> None:
    found = first_clubs({"iron_lie_deg": irons}, PlayerHeard(), slots(("54", TOUCH)), LIMITS)
    assert [one for one in found.conflicts if "out of reach" in one][:1] == (
        [
            f"The irons' lie, 3.5 {'flat' if irons < '0' else 'upright'}, is out of reach: even a "
            f"forged head of a stock lie bends 3 at most. {said}"
        ]
        if said
        else []
    )
