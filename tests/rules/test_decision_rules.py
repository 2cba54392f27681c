"""The judgements of a decision: for each the facts it is silent on and those it speaks on.

Typed by hand. Every registered judgement has to be in the tables.
"""

from dataclasses import replace

import pytest

from sessions.maths.block_context import BlockContext
from sessions.maths.comparison import Difference
from sessions.maths.dispersion import Spread, block_figures
from sessions.rules.against_choice import AGAINST, ChosenIn, evidence_against
from sessions.rules.club_evidence import ClubEvidence, Situation, SituationFigures
from sessions.rules.fairness import CLOUDS, FAIRNESS, TwoClubs, cautions_between
from sessions.rules.likeness import LIKENESS, Aspect, Likeness
from sessions.rules.rule_chapters import CHAPTERS, SETTINGS, off_from, switch_key
from sessions.rules.sole_advice import Job
from sessions.rules.stopping import STOPS
from sessions.rules.verdicts import Judged, Pair, is_better
from sessions.rules.wanted import (
    ASKED_IN,
    WISHES,
    Seen,
    WantedShown,
    WantedThing,
    WishIn,
    WishSeen,
    not_asked_words,
    wanted_shown,
    wishes_in,
)

# --- keep and fix ----------------------------------------------------------------------------

WORSE, BETTER = Seen("chip", "real", False, "worse"), Seen("chip", "real", True, "better")
SAME, FEW = Seen("chip", "none", None, "same"), Seen("chip", "few", None, "few")
FAR = Seen("chip", "real", None, "farther")


def wish(*seen, **more):
    return WishSeen("keep", seen, **more)


WISH_CASES = {
    "DEC-W01": (wish(), wish(is_hit=False), "not_shown"),
    "DEC-W02": (wish(stays=True, is_hit=False), wish(stays=True), "kept"),
    "DEC-W03": (wish(FEW), wish(), "not_shown"),
    "DEC-W04": (wish(BETTER, SAME), wish(BETTER, WORSE), "lost"),
    "DEC-W05": (wish(BETTER, WORSE), wish(BETTER, FEW), "kept"),
    "DEC-W06": (wish(SAME, WORSE), wish(SAME, FEW, FAR), "kept"),
    "DEC-W07": (wish(FAR, SAME), wish(FAR, FEW), "not_shown"),
}


@pytest.mark.parametrize("rule_id", WISH_CASES)
def test_each_answer_to_a_wish_has_its_own_condition(rule_id):
    silent, speaks, answer = WISH_CASES[rule_id]
    assert rule_id not in dict(WISHES.heard(silent, None))
    assert [(said, shown.answer) for said, shown in WISHES.heard(speaks, None)] == [
        (rule_id, answer)
    ]


CHIP = WantedThing("keep", "chip", "Chip")
MINE, ANOTHERS = {2: (Job.OPENED_FACE,)}, {2: (Job.SAND,), 3: (Job.OPENED_FACE,)}
NOBODYS = {2: (Job.SAND,)}
ASKED_CASES = {
    "DEC-A01": (WishIn(CHIP, 2, MINE), WishIn(CHIP, 2, ANOTHERS)),
}

# --- fairness --------------------------------------------------------------------------------

HERE = BlockContext(
    swing="Full", surface="fairway", ground="normal", wet="dry", face="square",
    ball="premium ball", device="A", figures="as flown", carry_got="tracked", visit="1",
)  # fmt: skip
FAIR_CASES = {
    rule_id: ((HERE, HERE), (HERE, replace(HERE, **{field: "other"})))
    for rule_id, field in (
        ("DEC-F01", "swing"), ("DEC-F02", "surface"), ("DEC-F03", "ground"), ("DEC-F04", "wet"),
        ("DEC-F05", "face"), ("DEC-F06", "ball"), ("DEC-F07", "device"), ("DEC-F08", "figures"),
        ("DEC-F09", "carry_got"), ("DEC-F10", "visit"),
    )
}  # fmt: skip


def hit(context=HERE, swing="full", **more):
    figures = block_figures(())
    return SituationFigures(
        Situation(swing, "Full", "fairway", "fairway"), context, figures, (), (), (), {}, **more
    )


def two(mine=None, theirs=None):
    return TwoClubs("the 54", "your 56", mine or hit(), theirs or hit())


MEASURED = {"spins_rpm": (9000.0,), "spin_got": "measured"}
ESTIMATED = {"spins_rpm": (9000.0,), "spin_got": "estimated"}
MISREAD = replace(block_figures(()), misreads=1)
WET = replace(HERE, wet="wet")
WORN, FRESH = replace(HERE, grooves="worn"), replace(HERE, grooves="fresh")
FIRST, THEN = {"order": (1, 2)}, {"order": (3, 4)}
CLOUD_CASES = {
    "DEC-C01": (two(), two(hit(WORN), hit(FRESH))),
    "DEC-C02": (two(hit(order=(1, 3)), hit(order=(2, 4))), two(hit(**THEN), hit(**FIRST))),
    "DEC-C03": (two(), two(replace(hit(), figures=MISREAD))),
    "DEC-C04": (two(hit(**MEASURED), hit(**MEASURED)), two(hit(**MEASURED), hit(**ESTIMATED))),
    "DEC-C05": (two(hit(**MEASURED), hit(**MEASURED)), two(hit(**ESTIMATED), hit(**ESTIMATED))),
}  # fmt: skip


def test_what_is_unfair_anyway_is_clouded_by_nothing_but_its_grooves():
    unfair = two(hit(WET, order=(3, 4), **ESTIMATED), hit(order=(1, 2), **ESTIMATED))
    assert not list(CLOUDS.heard(unfair, None))


LOFT = Aspect("loft", "54°", "56°", is_alike=False)
LIE = Aspect("lie", "64°", "63°", is_alike=False)
LIKE_CASES = {"DEC-L01": (Likeness("x", (LOFT,)), Likeness("x", (LOFT, LIE)))}

# --- against the evidence ------------------------------------------------------------------------


def mean(value):
    return Spread(n=6, mean=value, sd=1.0, median=value, mad=0.5, low=None, high=None, level=0.9)


def pair(key, difference, verdict="real difference", mine=0.0, theirs=0.0, neutral=0.0):
    """The chosen club is the candidate; `difference` is its own less the other's."""
    found = Difference(
        balls_a=6, balls_b=6, mean_a=mine, mean_b=theirs, difference=difference,
        low=difference - 2, high=difference + 2, pooled_sd=None, margin=1.0, verdict=verdict,
        more_balls=None, advice="", neutral=neutral,
    )  # fmt: skip
    figures = {"carry": "carry", "side": "side"}.get(key)
    one, other = (
        replace(hit(), figures=replace(block_figures(()), **{figures: mean(value)}))
        if figures
        else hit()
        for value in (mine, theirs)
    )
    clubs = [ClubEvidence(name, (), name, is_own=False) for name in ("mine", "theirs")]
    return ChosenIn(Pair(*clubs, one, other, judged=(Judged(key, found),)), False, "theirs", "m")


# Planned at 100 m.
AGAINST_CASES = {
    "DEC-E01": (pair("carry", 9, mine=101, theirs=92), pair("carry", 9, mine=109, theirs=100)),
    "DEC-E02": (pair("side", 4, mine=1, theirs=-3), pair("side", 4, mine=5, theirs=1)),
    "DEC-E03": (pair("spread", 0.5, neutral=1.0), pair("spread", 2.0, neutral=1.0)),
    "DEC-E04": (pair("proximity", -2), pair("proximity", 2)),
    "DEC-E05": (pair("strikes", -0.4), pair("strikes", 0.4)),
}


@pytest.mark.parametrize("rule_id", AGAINST_CASES)
def test_only_a_real_difference_speaks_against_a_choice(rule_id):
    _, speaks = AGAINST_CASES[rule_id]
    (judged,) = speaks.pair.judged
    few = replace(judged, found=replace(judged.found, verdict="too few balls"))
    assert not list(AGAINST.heard(replace(speaks, pair=replace(speaks.pair, judged=(few,))), 100.0))


# The same pairs where the chosen club is the one held against.
TURNED = {
    "DEC-E01": pair("carry", -9, mine=100, theirs=109),
    "DEC-E02": pair("side", -4, mine=1, theirs=5),
    "DEC-E03": pair("spread", 0.5, neutral=1.0),
    "DEC-E04": pair("proximity", -2),
    "DEC-E05": pair("strikes", -0.4),
}


@pytest.mark.parametrize("rule_id", TURNED)
def test_a_pair_is_read_from_either_side(rule_id):
    seen = TURNED[rule_id]
    assert list(dict(AGAINST.heard(seen, 100.0))) == []
    assert list(dict(AGAINST.heard(replace(seen, is_turned=True), 100.0))) == [rule_id]


def test_only_a_full_swing_is_held_against_the_plan():
    (seen,) = (AGAINST_CASES["DEC-E01"][1],)
    half = replace(seen.pair, one=hit(swing="half"), other=hit(swing="half"))
    assert not list(AGAINST.heard(replace(seen, pair=half), 100.0))


@pytest.mark.parametrize(
    ("mine", "theirs", "is_worse"),
    [
        # Ten yards apart, each about five from the line: real, but neither is the straighter.
        (5.1, -5.0, False), (4.9, -5.0, False),
        # Two yards of doubt: nearness is told from more than two on.
        (7.0, -5.0, False), (7.1, -5.0, True),
    ],
)  # fmt: skip
def test_one_to_the_left_and_one_to_the_right_may_be_as_straight(mine, theirs, is_worse):
    seen = pair("side", mine - theirs, mine=mine, theirs=theirs)
    assert bool(list(AGAINST.heard(seen, 100.0))) is is_worse
    assert is_better(seen.pair.judged[0]) is (False if is_worse else None)


def test_how_far_each_is_off_stands_in_the_sentence():
    ((_, straighter),) = AGAINST.heard(AGAINST_CASES["DEC-E02"][1], 100.0)
    assert "theirs flies straighter, 1 m off against 5 m, and the difference is real." in straighter
    ((_, nearer),) = AGAINST.heard(replace(TURNED["DEC-E01"], is_turned=True), 100.0)
    assert "nearer to the 100 m planned for this slot, 0 m off against 9 m" in nearer


TABLES = (
    (ASKED_IN, ASKED_CASES, None),
    (FAIRNESS, FAIR_CASES, None),
    (CLOUDS, CLOUD_CASES, None),
    (LIKENESS, LIKE_CASES, None),
    (AGAINST, AGAINST_CASES, 100.0),
)


@pytest.mark.parametrize(
    ("book", "limits", "rule_id", "silent", "speaks"),
    [
        (book, limits, rule_id, silent, speaks)
        for book, cases, limits in TABLES
        for rule_id, (silent, speaks) in cases.items()
    ],
)
def test_each_judgement_is_silent_and_speaks_where_it_should(book, limits, rule_id, silent, speaks):
    assert rule_id not in dict(book.heard(silent, limits))
    assert list(dict(book.heard(speaks, limits))) == [rule_id]


def test_every_judgement_of_a_decision_has_its_case():
    (chapter,) = (one for one in CHAPTERS if one.title == "Decision")
    known = {*WISH_CASES}.union(*(cases for _, cases, _ in TABLES))
    # What stops a full shot is held by test_stopping.
    assert {one.id for one in chapter.judgements} == known | {one.id for one in STOPS.judgements}


# --- switched off --------------------------------------------------------------------------------

# No verdict stands without them, what was left out is always said, and nothing is guessed where
# nothing was shown.
FIXED = {*FAIR_CASES, "DEC-C04", "DEC-W01", "DEC-W03", "DEC-W07"}


def test_what_a_shop_may_do_without_is_a_switch_and_the_rest_is_fixed():
    (chapter,) = (one for one in CHAPTERS if one.title == "Decision")
    assert {one.id for one in chapter.judgements if one.is_fixed} == FIXED
    switches = {setting.key for setting in SETTINGS}
    assert {one.id for one in chapter.judgements if switch_key(one.id) not in switches} == FIXED


@pytest.mark.parametrize(
    ("book", "limits", "rule_id", "speaks"),
    [
        (book, limits, rule_id, speaks)
        for book, cases, limits in (
            *TABLES, (WISHES, {key: case[:2] for key, case in WISH_CASES.items()}, None)
        )
        for rule_id, (_, speaks) in cases.items()
    ],
)  # fmt: skip
def test_switched_off_it_is_silent_unless_it_is_fixed(book, limits, rule_id, speaks):
    said = dict(book.heard(speaks, limits, off=frozenset({rule_id})))
    assert (rule_id in said) is (rule_id in FIXED)


def test_a_caution_that_is_switched_off_is_not_in_the_pair():
    clouded = two(hit(**THEN), hit(**FIRST))
    assert [said.rule_id for said in cautions_between(clouded)] == ["DEC-C02"]
    assert cautions_between(clouded, frozenset({"DEC-C02"})) == ()


def test_several_differences_are_no_caution_where_the_shop_says_so():
    apart = Likeness("x", (LOFT, LIE))
    assert apart.caution.rule_id == "DEC-L01"
    assert replace(apart, off=frozenset({"DEC-L01"})).caution == ""


def test_an_answer_that_is_switched_off_is_not_shown_but_keeps_its_numbers():
    off = frozenset({"DEC-W04", "DEC-W01"})
    assert wanted_shown("keep", "chip", [WORSE]) == WantedShown("lost", ("worse",), "DEC-W04")
    assert wanted_shown("keep", "chip", [WORSE], off) == WantedShown(
        "not_shown", ("The shop has switched off what would be said here.", "worse"), "DEC-W04"
    )
    # Another answer is not its business, and no answer takes its place.
    assert wanted_shown("keep", "chip", [BETTER], off).answer == "kept"


def test_a_wish_that_is_not_hit_stays_not_hit_whatever_is_switched_off():
    assert wanted_shown("keep", "chip", [], frozenset({"DEC-W03"})) == WantedShown(
        "not_shown", ("Not hit with both clubs in the same situation.",), "DEC-W03"
    )


def test_what_was_worse_stands_before_what_was_better():
    assert wanted_shown("keep", "chip", [BETTER, WORSE]).because == ("worse", "better")


def test_kept_by_one_measure_says_that_the_rest_had_too_few_balls():
    assert wanted_shown("keep", "chip", [SAME]).because == ("same",)
    assert wanted_shown("keep", "chip", [SAME, FEW]).because == (
        "same", "Too few balls for the rest.",
    )  # fmt: skip


def test_nothing_set_is_nothing_switched_off():
    assert off_from({}) == frozenset()


@pytest.mark.parametrize(("mine", "theirs"), [(MEASURED, ESTIMATED), (ESTIMATED, MEASURED)])
def test_spin_is_called_estimated_only_where_it_is_for_both(mine, theirs):
    assert list(dict(CLOUDS.heard(two(hit(**mine), hit(**theirs)), None))) == ["DEC-C04"]


def test_balls_left_out_are_said_whichever_club_has_more_of_them():
    misread = replace(hit(), figures=MISREAD)
    for clubs in (two(misread, hit()), two(hit(), misread)):
        assert list(dict(CLOUDS.heard(clubs, None))) == ["DEC-C03"]


def test_a_wish_is_asked_in_every_slot_where_the_shop_says_so():
    assert wishes_in(2, [CHIP], ANOTHERS) == ()
    assert wishes_in(2, [CHIP], ANOTHERS, frozenset({"DEC-A01"})) == (CHIP,)
    assert wishes_in(2, [CHIP], NOBODYS) == (CHIP,)
    assert not_asked_words((), [CHIP]).rule_id == "DEC-A01"
    assert not_asked_words((CHIP,), [CHIP]) == ""


@pytest.mark.parametrize("rule_id", AGAINST_CASES)
def test_what_is_switched_off_speaks_against_no_choice(rule_id):
    held = AGAINST_CASES[rule_id][1].pair
    args = (held.candidate, held.against, [held], 100.0, "m")
    assert [said.rule_id for said in evidence_against(*args)] == [rule_id]
    assert evidence_against(*args, frozenset({rule_id})) == ()
