"""Every judgement of an interview and a plan at its edges, and that none can be turned round, or
switched off, unnoticed."""

from collections.abc import Iterable
from dataclasses import fields, is_dataclass, replace
from decimal import Decimal as D
from typing import Any

import pytest

from sessions.declared import SETTINGS as DECLARED
from sessions.maths.references import BIBLIOGRAPHY
from sessions.rules.first_clubs import first_clubs
from sessions.rules.judgements import Judgement, JudgementBook, Said
from sessions.rules.plan_notes import suggested_role
from sessions.rules.rule_chapters import CHAPTERS, SETTINGS, off_from
from sessions.rules.set_advice import COUNTS
from sessions.rules.slot_lies import LIES
from sessions.rules.slot_shafts import SHAFTS
from sessions.rules.slot_suggestions import PlayerHeard, Topic, Weight
from sessions.rules.sole_advice import sole_advice
from sessions.rules.sole_bounce import OPENED, SAND, TURF
from sessions.rules.sole_heard import Band, Job, sole_heard
from tests.rules.judgement_cases import (
    ALWAYS_SAID,
    CASES,
    CHILD,
    FULL,
    LIMITS,
    MAN,
    SENIOR,
    SOLES,
    TOUCH,
    Case,
    plan,
    slot,
    turf,
    whole,
)

AnyJudgement = Judgement[Any, Any, Any]
# The chapters of these rules. A chapter that others registered is held by tests of its own.
OURS = tuple(chapter for chapter in CHAPTERS if chapter.title in ("First clubs", "Plan"))
JUDGEMENTS: dict[str, AnyJudgement] = {
    one.id: one for chapter in OURS for one in chapter.judgements if isinstance(one, Judgement)
}
BY_ID = [pytest.param(one, id=one.id) for one in JUDGEMENTS.values()]


def cases_of(rule_id: str) -> list[Case]:
    return [case for case in CASES if case.rule == rule_id]


def broken(judgement: AnyJudgement, cases: Iterable[Case]) -> list[Case]:
    """The edges at which it does not keep still, or does not speak, as was typed by hand."""
    return [
        case
        for case in cases
        if judgement.says(case.silent, case.limits) or not judgement.says(case.speaks, case.limits)
    ]


def test_every_judgement_has_its_edges_and_every_edge_its_judgement() -> None:
    assert {case.rule for case in CASES} | set(ALWAYS_SAID) == set(JUDGEMENTS)
    assert len(JUDGEMENTS) == sum(len(chapter.judgements) for chapter in OURS)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_it_keeps_still_to_the_last_and_speaks_from_the_first(case: Case) -> None:
    assert broken(JUDGEMENTS[case.rule], [case]) == []


@pytest.mark.parametrize("judgement", BY_ID)
def test_a_condition_turned_round_fails_at_every_edge(judgement: AnyJudgement) -> None:
    if judgement.id in ALWAYS_SAID:
        _, facts, limits = ALWAYS_SAID[judgement.id]
        assert judgement.says(facts, limits)
        return

    def turned(facts: Any, limits: Any) -> Iterable[Any]:
        return [] if judgement.says(facts, limits) else ["turned round"]

    cases = cases_of(judgement.id)
    assert broken(replace(judgement, judge=turned), cases) == cases
    assert broken(replace(judgement, judge=lambda facts, limits: []), cases) == cases
    assert broken(replace(judgement, judge=lambda facts, limits: ["always"]), cases) == cases


@pytest.mark.parametrize("case", CASES, ids=str)
def test_switched_off_it_says_nothing_unless_it_is_fixed(case: Case) -> None:
    off = frozenset({case.rule})
    said = {rule_id for rule_id, _ in case.book.heard(case.speaks, case.limits, off)}
    assert (case.rule in said) is JUDGEMENTS[case.rule].is_fixed


@pytest.mark.parametrize("book", [TURF, SAND, OPENED, LIES, SHAFTS, COUNTS], ids=lambda b: b.prefix)
def test_of_one_thing_only_one_speaks_and_none_takes_its_place(
    book: JudgementBook[Any, Any, Any],
) -> None:
    cases = [case for case in CASES if case.book is book]
    assert cases
    for case in cases:
        assert [rule_id for rule_id, _ in book.heard(case.speaks, case.limits)] == [case.rule]
        off = frozenset({case.rule})
        assert list(book.heard(case.speaks, case.limits, off)) == []
        assert book.is_silenced(case.speaks, case.limits, off)


# --- what it reads -------------------------------------------------------------------------------

_OTHER_NAMES = {"same_loft_deg": "same_deg", "loft_step_high_deg": "hole_deg"}


def moved(limits: Any, key: str, by: D) -> Any:
    name = key.split(".", 1)[1]
    if not is_dataclass(limits):
        return limits + by
    name = _OTHER_NAMES.get(name, name)
    return replace(limits, **{name: getattr(limits, name) + by})  # type: ignore[type-var]


def says_under(judgement: AnyJudgement, case: Case, limits: Any) -> list[Any]:
    facts = [case.silent, case.speaks]
    if case.answers:
        facts = [sole_heard(answers, limits) for answers in case.answers]
    return [judgement.says(one, limits) for one in facts]


@pytest.mark.parametrize(
    ("rule_id", "key"), [(one.id, key) for one in JUDGEMENTS.values() for key in one.thresholds]
)
def test_every_threshold_that_a_judgement_names_is_read(rule_id: str, key: str) -> None:
    judgement = JUDGEMENTS[rule_id]
    assert any(
        says_under(judgement, case, case.limits)
        != says_under(judgement, case, moved(case.limits, key, D(by)))
        for case in cases_of(rule_id)
        for by in ("0.05", "-0.05", "1", "-1", "10", "-10")
    )
    assert key in {setting.key for setting in DECLARED}


def test_no_judgement_reads_a_limit_that_it_does_not_name() -> None:
    for case in CASES:
        if not is_dataclass(case.limits):
            continue
        judgement = JUDGEMENTS[case.rule]
        named = {key.split(".", 1)[1] for key in judgement.thresholds}
        named |= {_OTHER_NAMES.get(name, name) for name in named}
        for field in fields(case.limits):
            if field.name in named or field.name == "sole":
                continue
            for by in (D("0.05"), D(-10), D(10)):
                other = moved(case.limits, f"x.{field.name}", by)
                for facts in (case.silent, case.speaks):
                    same = judgement.says(facts, other) == judgement.says(facts, case.limits)
                    assert same, (case.rule, field.name)


def test_ids_are_of_their_book_and_sources_are_known() -> None:
    for chapter in OURS:
        for book in chapter.books:
            assert isinstance(book, JudgementBook)
            for one in book.printed:
                assert one.id.startswith(book.prefix)
                assert one.about.endswith(".")
                assert one.source == "common practice" or one.source in BIBLIOGRAPHY


def test_an_id_is_never_given_twice_nor_out_of_shape() -> None:
    book: JudgementBook[int, None, str] = JudgementBook(
        "SHOP-A", "Amounts", retired=frozenset({"SHOP-A02"})
    )
    book.judgement("SHOP-A01", about="One.")(lambda facts, limits: [])
    for wrong in ("SHOP-A01", "SHOP-A02", "SHOP-B01", "SHOP-A1", "SHOP-A001"):
        with pytest.raises(ValueError, match="SHOP-"):
            book.judgement(wrong, about="Again.")


def test_switches_are_settings_and_what_is_fixed_has_none() -> None:
    fixed = {one.id for one in JUDGEMENTS.values() if one.is_fixed}
    keys = {setting.key for setting in SETTINGS}
    assert {f"judgements.{rule_id}" for rule_id in set(JUDGEMENTS) - fixed} <= keys
    assert not {f"judgements.{rule_id}" for rule_id in fixed} & keys
    defaults = {setting.key: setting.default for setting in SETTINGS}
    assert off_from(defaults) == frozenset()
    assert off_from(defaults | {"judgements.TRY-C01": "off"}) == {"TRY-C01"}
    # Pain stops a swing in every shop, and fifteen clubs are never passed over.
    assert {"TRY-T04", "PLAN-B03"} <= fixed


# --- what it says --------------------------------------------------------------------------------


@pytest.mark.common_practice
@pytest.mark.parametrize(
    ("answers", "loft", "role", "low", "high"),
    [
        ({"hands_in_sand": "high"}, "54", TOUCH, "1", "1"),
        ({"hands_in_sand": "high"}, "60", TOUCH, "0.5", "1"),
        ({"hands_in_sand": "low"}, "54", TOUCH, "0.5", "1"),
        ({"hands_in_sand": "low"}, "60", TOUCH, "0", "0"),
        ({"hands_in_sand": "normal"}, "60", TOUCH, "0", "0.5"),
        ({"hands_in_sand": "low"}, "60", FULL, "1", "1"),
        ({"chips_on": "on_the_toe", "hands_in_sand": "low"}, "60", TOUCH, "1", "1"),
    ],
)
def test_a_lie_of_irons_one_upright(
    answers: dict[str, object], loft: str, role: Any, low: str, high: str
) -> None:
    found = first_clubs({"iron_lie_deg": "1", **answers}, PlayerHeard(), plan((loft, role)), LIMITS)
    lie = found.slots[0].of(Topic.LIE)
    assert (lie.low, lie.high) == (D(low), D(high))


def count(kind: Any = MAN, **heard: Any) -> tuple[int | None, str]:
    answers = heard.pop("answers", {})
    found = first_clubs(answers, PlayerHeard(kind=kind, **heard), (), LIMITS)
    return found.wedges, found.count.rule_id


@pytest.mark.common_practice
def test_how_many_wedges() -> None:
    assert count(answers={"wedges_wanted": "four"}, kind=CHILD) == (4, "TRY-W01")
    assert count(kind=CHILD, baseline_loft_deg=D(40)) == (2, "TRY-W02")
    assert count(kind=SENIOR, carry_m=91.0, baseline_loft_deg=D(40)) == (2, "TRY-W03")
    # 60 - 44 is three steps of five; 60 - 36 were five, and four is the most; from 59 one.
    for pitching, wedges in (("44", 3), ("36", 4), ("59", 1)):
        assert count(carry_m=120.0, baseline_loft_deg=D(pitching)) == (wedges, "TRY-W04")
    assert count() == (None, "")


@pytest.mark.common_practice
def test_hands_that_hurt_are_given_no_heavier_shaft_whatever_is_switched_off() -> None:
    answers: dict[str, object] = {"iron_shaft_g": "110", "hands": "yes"}
    for off in (frozenset(), frozenset({"TRY-S02"})):
        found = first_clubs(answers, PlayerHeard(), plan(("52", FULL)), LIMITS, off=off)
        shaft = found.slots[0].of(Topic.SHAFT)
        assert (shaft.low, shaft.high) == ((None, None) if off else (D(110), D(110)))


def test_a_conflict_makes_only_its_own_jobs_doubtful() -> None:
    # Opened often against soft sand: the full-shot club's answers agree all the same.
    answers = turf("-4", "normal", "normal", sand=["fluffy"], face_opened="often")
    wedges = plan(("50", FULL), ("54", TOUCH), ("60", TOUCH))
    found = first_clubs(answers, PlayerHeard(), wedges, LIMITS)
    weights = [one.of(Topic.SOLE).weight for one in found.slots]
    assert weights == [Weight.CLEAR, Weight.LEANING, Weight.LEANING]


def test_measured_against_seen_and_divots_are_said_and_the_sole_is_only_a_beginning() -> None:
    answers = {"attack_deg": "-2", "attack": "steep", "divot": "deep", "ground_summer": "firm"}
    found = first_clubs(answers, PlayerHeard(), plan(("50", FULL)), LIMITS)
    by_figure, by_divot = (one for one in found.conflicts if one.rule_id in ("TRY-C07", "TRY-C08"))
    assert by_figure.startswith(
        "Attack measured at -2 degrees, which is shallow, but steep by eye. The figure counts here."
    )
    assert by_divot.startswith(
        "Attack measured at -2 degrees, but deep divots: one says shallow, the other steep."
    )
    assert found.slots[0].of(Topic.SOLE).weight is Weight.LEANING


def test_steep_by_eye_without_a_divot_no_longer_agrees() -> None:
    answers: dict[str, object] = {"attack": "steep", "divot": "none", "ground_summer": "soft"}
    found = first_clubs(answers, PlayerHeard(), plan(("50", FULL)), LIMITS)
    assert [one.rule_id for one in found.conflicts] == ["TRY-C08"]
    assert found.slots[0].of(Topic.SOLE).weight is Weight.LEANING


def test_no_pain_in_so_many_words_is_no_pain() -> None:
    for said in ("no", "None.", "nothing", " nowhere ", "-", "", "ask_later"):
        assert first_clubs({"pain": said}, PlayerHeard(), (), LIMITS).not_today == ()
    (said,) = first_clubs({"pain": "my left wrist"}, PlayerHeard(), (), LIMITS).not_today
    assert said.rule_id == "TRY-T04"


def test_soles_stand_by_job_before_there_are_slots() -> None:
    found = first_clubs(turf("-7", "soft", sand=["soft"]), PlayerHeard(), (), LIMITS)
    assert [(one.job, one.band, one.rule_id) for one in found.soles] == [
        (Job.FULL_SHOTS, Band.HIGH, "TRY-B02"),
        (Job.SAND, Band.HIGH, "TRY-G02"),
        (Job.OPENED_FACE, None, ""),
    ]


def test_what_is_switched_off_leaves_a_word_and_no_bounce() -> None:
    answers = turf("-7", "firm", face_opened="never")
    off = frozenset({"TRY-B01", "TRY-C01"})
    found = sole_advice(answers, SOLES, off)
    assert found.conflicts == ()
    full, opened = found.suggestion(Job.FULL_SHOTS), found.suggestion(Job.OPENED_FACE)
    assert (full.band, opened.band) == (None, None)
    assert full.why == "The shop has switched off what would be said here."


def test_the_role_turns_at_the_shop_s_loft() -> None:
    roles = [suggested_role(D(loft), D(54)) for loft in ("53.9", "54")]
    assert roles == ["full_shot", "touch"]


def test_a_sentence_knows_its_judgement_and_is_a_sentence() -> None:
    said = Said("Flop works already.", "TRY-K01")
    assert said == "Flop works already."
    assert said.rule_id == "TRY-K01"


def test_what_is_kept_and_mended_is_said_for_each_shot() -> None:
    answers: dict[str, object] = {"keep": ["flop", "chip"], "fix": ["sand", "half"]}
    found = first_clubs(answers, PlayerHeard(), plan(("50", FULL), ("56", TOUCH)), LIMITS)
    assert [one.split(" works")[0] for one in found.keep] == ["Chip", "Flop"]
    mends = [one for one in found.try_first if one.rule_id == "TRY-F03"]
    assert mends == [
        "To mend half shots: slot 1, 50°, from turf.",
        "To mend sand shots: slot 2, 56°, out of sand.",
    ]
    assert slot("50", FULL).slot.slot == 1
    assert whole().slots == ()
