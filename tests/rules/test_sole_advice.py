"""First soles from the interview, against what a good fitter would expect of invented players."""

from decimal import Decimal as D

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sessions.declared import SETTINGS
from sessions.rules.facts import Role
from sessions.rules.interview_questions import BY_KEY
from sessions.rules.sole_advice import (
    Band,
    Job,
    SoleAdvice,
    SoleLimits,
    sole_advice,
    sole_limits_from,
)

LIMITS = SoleLimits(
    steep_deg=D(-6),
    shallow_deg=D(-3),
    bounce_low_from_deg=D(4),
    bounce_low_to_deg=D(6),
    bounce_mid_from_deg=D(7),
    bounce_mid_to_deg=D(10),
    bounce_high_from_deg=D(11),
)


def advice(**answers: object) -> SoleAdvice:
    return sole_advice(answers, LIMITS)


def ground(word: str) -> dict[str, object]:
    return {"ground_summer": word, "ground_winter": word}


def band(found: SoleAdvice, job: Job) -> Band | None:
    return found.suggestion(job).band


def has_conflict(found: SoleAdvice, start: str) -> bool:
    return any(sentence.startswith(start) for sentence in found.conflicts)


def test_the_defaults_are_the_trade_s_figures() -> None:
    assert sole_limits_from({setting.key: setting.default for setting in SETTINGS}) == LIMITS


def test_as_shallow_with_fluffy_sand_gets_two_soles_for_two_jobs() -> None:
    found = advice(attack_deg="-2.5", **ground("normal"), sand=["fluffy"], face_opened="often")
    assert band(found, Job.FULL_SHOTS) is Band.MID
    assert band(found, Job.SAND) is Band.HIGH
    assert found.suggestion(Job.SAND).sole == "wide sole"
    # Never high bounce on the club that is opened.
    assert band(found, Job.OPENED_FACE) is Band.LOW
    assert found.suggestion(Job.OPENED_FACE).sole == "heel and trailing-edge relief"
    assert has_conflict(found, "Shallow from turf but soft or fluffy sand")
    assert any("Two soles for two jobs" in sentence for sentence in found.conflicts)


def test_mo_soft_turf_and_soft_sand_gets_mid_and_a_wide_high_sand_club() -> None:
    found = advice(attack_deg="-1.5", **ground("soft"), sand=["soft"], face_opened="never")
    assert band(found, Job.FULL_SHOTS) is Band.MID
    assert (band(found, Job.SAND), found.suggestion(Job.SAND).sole) == (Band.HIGH, "wide sole")


def test_bt_medium_on_normal_ground_gets_mid() -> None:
    assert band(advice(attack_deg="-4", **ground("normal")), Job.FULL_SHOTS) is Band.MID


def test_te_firm_and_thin_gets_mid_and_a_low_opened_club() -> None:
    found = advice(attack_deg="-5.5", **ground("firm"), face_opened="often")
    assert band(found, Job.FULL_SHOTS) is Band.MID
    assert band(found, Job.OPENED_FACE) is Band.LOW


@pytest.mark.common_practice
def test_steep_on_firm_gets_mid_with_a_softened_edge_and_not_high() -> None:
    found = advice(attack="steep", **ground("firm"))
    assert band(found, Job.FULL_SHOTS) is Band.MID
    assert found.suggestion(Job.FULL_SHOTS).sole == "softened leading edge"
    assert has_conflict(found, "Steep on firm ground")


@pytest.mark.common_practice
@pytest.mark.parametrize(
    ("attack", "word", "expected"),
    [
        ("steep", "soft", Band.HIGH),
        ("steep", "normal", Band.HIGH),
        ("medium", "soft", Band.HIGH),
        ("medium", "normal", Band.MID),
        ("medium", "firm", Band.MID),
        ("shallow", "normal", Band.MID),
        ("shallow", "firm", Band.LOW),
        ("shallow", "soft", Band.MID),
    ],
)
def test_attack_and_ground_point_to_a_band(attack: str, word: str, expected: Band) -> None:
    assert band(advice(attack=attack, **ground(word)), Job.FULL_SHOTS) is expected


@pytest.mark.parametrize(
    ("degrees", "word"),
    [("-6.1", "steep"), ("-6", "medium"), ("-3", "medium"), ("-2.9", "shallow")],
)
def test_attack_is_steep_or_shallow_past_the_shop_s_limits(degrees: str, word: str) -> None:
    by_figure = advice(attack_deg=degrees, **ground("soft")).suggestion(Job.FULL_SHOTS)
    by_eye = advice(attack=word, **ground("soft")).suggestion(Job.FULL_SHOTS)
    assert (by_figure.band, by_figure.sole) == (by_eye.band, by_eye.sole)
    steep_on_firm = advice(attack_deg=degrees, **ground("firm"))
    assert has_conflict(steep_on_firm, "Steep on firm") == (word == "steep")


def test_what_was_measured_counts_before_what_was_seen() -> None:
    found = advice(attack_deg="-8", attack="shallow", divot="none", **ground("firm"))
    assert has_conflict(found, "Steep on firm")
    assert "measured at -8 degrees" in found.suggestion(Job.FULL_SHOTS).why


def test_the_divot_speaks_where_nobody_saw_the_attack() -> None:
    found = advice(divot="deep", **ground("soft"))
    assert band(found, Job.FULL_SHOTS) is Band.HIGH
    assert found.suggestion(Job.FULL_SHOTS).why == "Divots: deep; ground soft."
    assert "Angle of attack on a full wedge swing" not in found.missing


def test_firm_summer_and_soft_winter_is_shown_not_averaged() -> None:
    found = advice(attack="medium", ground_summer="firm", ground_winter="soft")
    assert has_conflict(found, "Firm in one season and soft in the other")
    assert "firm and soft by season" in found.suggestion(Job.FULL_SHOTS).why


def test_a_winter_not_played_is_no_ground() -> None:
    found = advice(attack="shallow", ground_summer="firm", ground_winter="not_played")
    assert band(found, Job.FULL_SHOTS) is Band.LOW
    assert found.missing == (
        "Sand where you mostly play",
        "How often do you open the face?",
    )


@pytest.mark.parametrize(
    ("sand", "attack", "expected", "sole"),
    [
        (["soft"], "medium", Band.HIGH, "wide sole"),
        (["firm"], "medium", Band.LOW, "narrower sole"),
        (["thin_over_base"], "shallow", Band.LOW, "narrower sole"),
        (["wet"], "steep", Band.MID, "softened leading edge"),
        (["coarse"], "medium", Band.MID, ""),
        (["fluffy", "firm"], "medium", Band.MID, ""),
    ],
)
def test_sand_points_to_a_band(sand: list[str], attack: str, expected: Band, sole: str) -> None:
    found = advice(sand=sand, attack=attack)
    assert (band(found, Job.SAND), found.suggestion(Job.SAND).sole) == (expected, sole)
    assert has_conflict(found, "Soft bunkers and firm ones") == (sand == ["fluffy", "firm"])


def test_nothing_said_means_nothing_suggested_and_all_of_it_missing() -> None:
    found = advice()
    assert [one.band for one in found.suggestions] == [None, None, None]
    assert found.conflicts == ()
    assert found.missing == (
        "Angle of attack on a full wedge swing",
        "Ground where you mostly play, in summer",
        "Ground where you mostly play, in winter",
        "Sand where you mostly play",
        "How often do you open the face?",
    )


def test_asked_later_is_still_missing() -> None:
    assert "Sand where you mostly play" in advice(sand="ask_later").missing


def test_an_opened_face_asks_for_less_as_it_is_opened_more() -> None:
    by_habit = {
        habit: band(
            advice(attack="steep", **ground("soft"), face_opened=habit),
            Job.OPENED_FACE,
        )
        for habit in ("never", "sometimes", "often")
    }
    assert by_habit == {"never": Band.HIGH, "sometimes": Band.MID, "often": Band.LOW}


def test_jobs_belong_to_roles() -> None:
    assert [job.role for job in Job] == [Role.FULL_SHOT, Role.TOUCH, Role.TOUCH]


def test_bands_are_said_in_the_shop_s_degrees() -> None:
    assert [LIMITS.words(one) for one in Band] == [
        "low bounce (4 to 6)",
        "mid bounce (7 to 10)",
        "high bounce (11 and more)",
    ]


ANYTHING = st.none() | st.integers() | st.floats() | st.text() | st.lists(st.text(), max_size=3)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(st.dictionaries(st.sampled_from(sorted(BY_KEY)), ANYTHING, max_size=8))
def test_odd_answers_never_raise_and_every_suggestion_says_why(answers: dict[str, object]) -> None:
    found = sole_advice(answers, LIMITS)
    assert all(one.why.endswith(".") for one in found.suggestions)


def test_firm_sand_asks_for_low_bounce_only_where_no_season_is_soft() -> None:
    firm = advice(attack="shallow", **ground("firm"), sand=["firm", "wet"])
    seasons = advice(
        attack="shallow", ground_summer="firm", ground_winter="soft", sand=["firm", "wet"]
    )
    assert band(firm, Job.SAND) is Band.LOW
    assert band(seasons, Job.SAND) is Band.MID


def test_no_divot_alone_makes_no_conflict() -> None:
    """A weak or careful swing leaves none either: only an attack that was seen or measured pulls
    against the sand."""
    soft = {**ground("soft"), "sand": ["soft"]}
    assert not advice(divot="none", **soft).conflicts
    assert len(advice(attack="shallow", **soft).conflicts) == 2
    assert len(advice(attack_deg="-2", **soft).conflicts) == 2
