"""What six more players are to try first, as a good fitter would say it: see `six_more.md`.

Written from the trade's facts alone before the rules were seen. Answers and bands are typed as
they stand on the page; above each test what it expects in words. A suggestion meets a band where
the two ranges have a figure in common, either end included.
"""

from decimal import Decimal as D

import pytest

from sessions.declared import SETTINGS
from sessions.rules.facts import PlayerKind, Role
from sessions.rules.first_clubs import FirstClubs, first_clubs
from sessions.rules.slot_suggestions import (
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


def begin(
    answers: dict[str, object],
    kind: PlayerKind,
    pitching: tuple[str, float],
    *slots: tuple[str, Role],
    hit_from: frozenset[str] = frozenset(),
) -> FirstClubs:
    loft, carry_yd = pitching
    planned = [PlannedSlot(n, D(deg), role) for n, (deg, role) in enumerate(slots, start=1)]
    heard = PlayerHeard(kind=kind, carry_m=carry_yd * YARD_M, baseline_loft_deg=D(loft))
    return first_clubs(answers, heard, planned, LIMITS, surfaces=hit_from)


def of(found: FirstClubs, topic: Topic) -> list[Suggestion]:
    return [slot.of(topic) for slot in found.slots]


def meets(one: Suggestion, low: str, high: str) -> bool:
    """Whether its range and the page's have a figure in common."""
    assert one.low is not None
    return one.low <= D(high) and (one.high is None or D(low) <= one.high)


def all_meet(found: FirstClubs, topic: Topic, *bands: tuple[str, str]) -> bool:
    return all(meets(one, *band) for one, band in zip(of(found, topic), bands, strict=True))


def all_said(found: FirstClubs) -> str:
    """Every sentence of the page, for what must not be in it."""
    slots = [
        part for slot in found.slots for one in slot.suggestions for part in (one.words, one.why)
    ]
    return "\n".join(
        (*slots, found.wedges_why, *found.keep, *found.try_first, *found.not_today,
         *found.normal_here, *found.conflicts)
    )  # fmt: skip


# --- R.K.: left-handed, steep, firm, thin sand ---------------------------------------------------

R_K: dict[str, object] = {
    "attack_deg": "-7.5",
    "divot": "deep",
    "ground_summer": "firm",
    "ground_winter": "firm",
    "grass": "coarse",
    "sand": ["thin_over_base"],
    "face_opened": "sometimes",
    "keep": ["full"],
    "fix": ["sand"],
    "iron_lie_deg": "-1.5",
    "iron_shaft_g": "120",
    "iron_shaft_material": "steel",
    "irons_changing": "no",
    "pain": "none",
    "posture": "standing",
}


def r_k_s() -> FirstClubs:
    slots = (("49.2", FULL), ("54", TOUCH), ("59", TOUCH))
    return begin(R_K, PlayerKind.MAN, ("44", 132), *slots)


# The conflict is shown: steep and deep against firm and thin: mid with a softened leading edge.
def test_r_k_s_conflict_is_shown_and_answered_by_mid_bounce_and_a_softened_edge() -> None:
    found = r_k_s()
    (conflict,) = found.conflicts
    assert conflict.startswith("Steep on firm ground")
    assert "Mid bounce with a softened leading edge, not high." in conflict
    assert all_meet(found, Topic.SOLE, ("9", "9.5"), ("7", "10"), ("7", "10"))
    gap, sand, lob = of(found, Topic.SOLE)
    assert "softened leading edge" in gap.words
    assert "softened leading edge" in sand.words
    # In the 59 relief, since the face is opened sometimes.
    assert "heel and trailing-edge relief" in lob.words


# Lie -1.5 to -2 in the 54 and the 59; steel of 120 to 130 g; 54 and 59 are touch clubs.
def test_r_k_s_lie_and_shaft_follow_his_irons() -> None:
    found = r_k_s()
    assert all_meet(found, Topic.LIE, ("-1.5", "-1.5"), ("-2", "-1.5"), ("-2", "-1.5"))
    assert all_meet(found, Topic.SHAFT, *[("120", "130")] * 3)
    assert all(one.words.startswith("steel") for one in of(found, Topic.SHAFT))


# Must not: "you are steep: 12 or more", "shallow", a wide sole for thin sand.
def test_r_k_never_hears_of_high_bounce_as_the_answer() -> None:
    said = all_said(r_k_s())
    assert all(one.high is not None and one.high <= D(10) for one in of(r_k_s(), Topic.SOLE))
    assert "shallow" not in said.lower()
    assert "wide" not in said.lower()


# --- J.V.: tall, strong, spins it too much -------------------------------------------------------

J_V: dict[str, object] = {
    "attack_deg": "-5",
    "divot": "thin",
    "ground_summer": "normal",
    "ground_winter": "soft",
    "grass": "fine",
    "sand": ["soft"],
    "face_opened": "often",
    "keep": ["sand", "flop"],
    "fix": ["full", "half"],
    "iron_lie_deg": "1",
    "iron_shaft_g": "105",
    "iron_shaft_material": "steel",
    "irons_changing": "no",
    "pain": "none",
    "posture": "standing",
}


# Bounce 8-10, 10-12 and wider, 6-10 with relief; lie 0.5 to 1, and -0.5 to 0.5 in the 58; steel of
# 105 to 115 g in the full-shot club, to 120 g in the others. Conflicts: either way.
def test_j_v_s_shaft_is_the_irons_and_her_soles_are_as_she_has_them() -> None:
    slots = (("49.6", FULL), ("54", TOUCH), ("58.3", TOUCH))
    found = begin(J_V, PlayerKind.WOMAN, ("45", 124), *slots)
    assert all_meet(found, Topic.SOLE, ("8", "10"), ("10", "12"), ("6", "10"))
    _, sand, lob = of(found, Topic.SOLE)
    assert "wide" in sand.words
    assert "heel and trailing-edge relief" in lob.words
    assert all_meet(found, Topic.LIE, ("0.5", "1"), ("0.5", "1"), ("-0.5", "0.5"))
    assert all_meet(found, Topic.SHAFT, ("105", "115"), ("105", "120"), ("105", "120"))
    assert found.wedges == 3
    # Must: on part swings a light, soft shaft is hard to control. Must not: lighter for a woman.
    assert all("part swings" in one.why for one in of(found, Topic.SHAFT))
    assert found.normal_here == ()


# --- H.B.: 74, arthritic hands, attack not asked -------------------------------------------------

H_B: dict[str, object] = {
    "divot": "none",
    "ground_summer": "normal",
    "ground_winter": "soft",
    "grass": "fine",
    "sand": ["soft"],
    "face_opened": "never",
    "keep": ["chip"],
    "fix": ["sand"],
    "iron_lie_deg": "0",
    "iron_shaft_g": "58",
    "iron_shaft_material": "graphite",
    "irons_changing": "no",
    "hands": "yes",
    "pain": "thumbs and left wrist, after about 25 balls",
    "glove": "both_hands",
    "posture": "standing",
}


def h_b_s() -> FirstClubs:
    return begin(H_B, PlayerKind.SENIOR, ("44", 90), ("49", FULL), ("54", TOUCH))


# Bounce 9-10.5 and 11-13, the sand club wide; lie 0 and -0.5 to 0; graphite of 58 to 75 g; two.
def test_h_b_begins_with_a_wide_sole_on_light_graphite() -> None:
    found = h_b_s()
    assert found.wedges == 2
    assert all_meet(found, Topic.SOLE, ("9", "10.5"), ("11", "13"))
    assert "wide sole" in of(found, Topic.SOLE)[1].words
    assert all_meet(found, Topic.LIE, ("0", "0"), ("-0.5", "0"))
    assert all_meet(found, Topic.SHAFT, ("58", "75"), ("58", "75"))
    assert all(one.words.startswith("graphite") for one in of(found, Topic.SHAFT))


# Must: pain stops it and a doctor decides; C5 to D0 is normal; gaps in proportion.
# Must not: a shaft as heavy as or heavier than, "too light", "attack medium", ten to fifteen yards.
def test_h_b_is_stopped_by_pain_and_pushed_to_no_weight() -> None:
    found = h_b_s()
    assert any("stop there. A doctor or physiotherapist decides." in one for one in found.not_today)
    assert any("C5 to D0 is normal" in one for one in found.normal_here)
    assert any("in proportion" in one for one in found.normal_here)
    assert all("never heavier" in one.words for one in of(found, Topic.SHAFT))
    assert "attack medium" not in all_said(found).lower()
    assert "10 to 15" not in all_said(found)


# No conflict: what nobody asked (his attack) can't pull against the sand, divot or no divot.
def test_h_b_has_no_conflict() -> None:
    assert h_b_s().conflicts == ()


# --- D.N.: seated, mats, many questions left -----------------------------------------------------

D_N: dict[str, object] = {
    "ground_summer": "normal",
    "grass": "fine",
    "mats": "mostly_on_mats",
    "face_opened": "never",
    "keep": ["half"],
    "fix": ["pitch"],
    "iron_lie_deg": "-3.5",
    "iron_shaft_g": "75",
    "iron_shaft_material": "graphite",
    "irons_changing": "no",
    "hands": "no",
    "pain": "none",
    "posture": "seated",
}


def d_n_s() -> FirstClubs:
    slots = (("53.5", FULL), ("58.5", TOUCH))
    return begin(D_N, PlayerKind.WOMAN, ("48", 92), *slots, hit_from=frozenset({"mat"}))


# The lie she needs is out of reach of a head of a stock lie: a flatter head, or its maker.
def test_d_n_s_lie_is_out_of_reach_of_a_stock_head() -> None:
    assert d_n_s().conflicts == (
        "The irons' lie, 3.5 flat, is out of reach: even a forged head of a stock lie bends 3 at "
        "most. A head that is made flatter, or ask its maker.",
    )


# Not settled: any sole (not tested on turf); attack and sand not asked. What isn't known is said
# and not guessed: the page's bands of 7 to 12 are "a starting guess only".
def test_no_sole_of_d_n_s_is_settled_on_a_mat_and_nothing_is_guessed() -> None:
    found = d_n_s()
    assert any(one.startswith("The sole: everything so far was hit from a mat") for one in
               found.not_today)  # fmt: skip
    assert [one.weight for one in of(found, Topic.SOLE)] == [Weight.OPEN, Weight.OPEN]
    missing = "\n".join(found.missing)
    assert "Angle of attack" in missing
    assert "Sand" in missing
    for word in ("shallow", "the wide sole", "low bounce", "too light"):
        assert word not in all_said(found).lower()


# Two wedges; graphite of 70 to 85 g.
def test_d_n_s_two_wedges_have_her_irons_shaft() -> None:
    found = d_n_s()
    assert found.wedges == 2
    assert all_meet(found, Topic.SHAFT, ("70", "85"), ("70", "85"))
    assert all(one.words.startswith("graphite") for one in of(found, Topic.SHAFT))


# --- W.O.: shallow, hard summer, wet winter, irons about to change -------------------------------

W_O: dict[str, object] = {
    "attack_deg": "-2",
    "divot": "thin",
    "ground_summer": "firm",
    "ground_winter": "soft",
    "sand": ["firm", "wet"],
    "keep": ["full"],
    "fix": ["pitch"],
    "iron_lie_deg": "2",
    "iron_shaft_g": "120",
    "iron_shaft_material": "steel",
    "irons_changing": "yes",
    "glove": "one",
    "pain": "lower back, mild, when stooping",
    "posture": "standing",
}


def w_o_s() -> FirstClubs:
    slots = (("47.75", FULL), ("52.4", FULL), ("57.5", TOUCH))
    return begin(W_O, PlayerKind.MAN, ("47", 134), *slots)


# Mid for all (7-10, 10, 8-10), whatever the season; lie 1 to 2 up; steel of 120 to 130 g.
def test_w_o_s_soles_are_mid_for_two_seasons() -> None:
    found = w_o_s()
    assert any(one.startswith("Firm in one season and soft in the other") for one in
               found.conflicts)  # fmt: skip
    assert all_meet(found, Topic.SOLE, ("7", "10"), ("10", "10.5"), ("8", "10"))
    # Must not: high bounce because winter, low bounce because summer.
    assert all((one.low, one.high) == (D(7), D(10)) for one in of(found, Topic.SOLE))
    assert all_meet(found, Topic.LIE, ("2", "2"), ("2", "2"), ("1", "2"))
    assert all_meet(found, Topic.SHAFT, *[("120", "130")] * 3)


# Must: the irons change, so the gap slot waits; ask whether the new set has its own gap wedge.
def test_w_o_s_gap_club_waits_for_the_new_irons() -> None:
    (waits,) = [one for one in w_o_s().not_today if "irons may change" in one]
    assert "the gap below the pitching wedge" in waits
    assert "Wait until the new pitching wedge is measured and hit" in waits
    assert "ask whether the new set has a gap wedge of its own" in waits


# Pain in the back: if it hurts, stop. Must not: relief because he opens the face (not asked).
def test_w_o_s_back_is_heeded_and_no_habit_is_guessed() -> None:
    found = w_o_s()
    assert any("stop there" in one for one in found.not_today)
    assert "relief" not in all_said(found)
    assert any("open the face" in one for one in found.missing)


# --- G.P.: everything points the same way --------------------------------------------------------

G_P: dict[str, object] = {
    "attack_deg": "-7.5",
    "divot": "deep",
    "ground_summer": "soft",
    "ground_winter": "soft",
    "grass": "coarse",
    "sand": ["soft"],
    "face_opened": "sometimes",
    "keep": ["full", "chip"],
    "fix": ["sand"],
    "grip_down": "on_short_shots",
    "groove_rule": "yes",
    "wedge_age": "24",
    "iron_lie_deg": "0",
    "iron_shaft_g": "120",
    "iron_shaft_material": "steel",
    "irons_changing": "no",
    "pain": "none",
    "posture": "standing",
}


# No conflict: inventing one is a failure. Bounce 10-12, 12-14 and wide, 10-12 with relief; lie 0 to
# -0.5, in the 60 to -1; steel of 120 to 130 g.
def test_g_p_s_answers_agree_on_high_bounce() -> None:
    slots = (("50.25", FULL), ("55", TOUCH), ("60", TOUCH))
    found = begin(G_P, PlayerKind.MAN, ("46", 126), *slots)
    assert found.conflicts == ()
    assert all_meet(found, Topic.SOLE, ("10", "12"), ("12", "14"), ("10", "12"))
    gap, sand, lob = of(found, Topic.SOLE)
    assert (gap.low, sand.low) == (D(11), D(11))
    assert "wide" in sand.words
    assert "heel and trailing-edge relief" in lob.words
    assert all_meet(found, Topic.LIE, ("-0.5", "0"), ("-0.5", "0"), ("-1", "0"))
    assert all_meet(found, Topic.SHAFT, *[("120", "130")] * 3)


# --- across the six ------------------------------------------------------------------------------


# Shown: R.K. (steep, firm), W.O. (summer, winter), D.N. (lie). Not shown: H.B., G.P.; J.V. either.
def test_who_of_them_has_a_conflict() -> None:
    everybody = {
        "R.K.": r_k_s(),
        "H.B.": h_b_s(),
        "D.N.": d_n_s(),
        "W.O.": w_o_s(),
        "G.P.": begin(G_P, PlayerKind.MAN, ("46", 126), ("55", TOUCH)),
    }
    shown = {who for who, found in everybody.items() if found.conflicts}
    assert shown - {"G.P."} == {"R.K.", "D.N.", "W.O."}


# Who says that nothing hurts is not told what to do when it does.
@pytest.mark.parametrize("answers", [R_K, J_V, D_N, G_P])
def test_no_pain_is_heard_as_no_pain(answers: dict[str, object]) -> None:
    found = begin(answers, PlayerKind.ADULT, ("45", 120), ("54", TOUCH))
    assert not any("hurts" in one for one in found.not_today)


# Whose shaft may be lighter than 100 g without a word? H.B.'s and D.N.'s.
def test_whose_shaft_begins_below_100_g() -> None:
    slots = (("54", TOUCH),)
    light = {
        who
        for who, answers, kind in (
            ("R.K.", R_K, PlayerKind.MAN),
            ("J.V.", J_V, PlayerKind.WOMAN),
            ("H.B.", H_B, PlayerKind.SENIOR),
            ("D.N.", D_N, PlayerKind.WOMAN),
            ("W.O.", W_O, PlayerKind.MAN),
            ("G.P.", G_P, PlayerKind.MAN),
        )
        if (begin(answers, kind, ("45", 120), *slots).slots[0].of(Topic.SHAFT).low or 0) < 100
    }
    assert light == {"H.B.", "D.N."}
