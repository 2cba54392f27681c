"""Whatever the facts of a decision, no judgement raises, and what is said is whole."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from sessions.maths.comparison import Difference
from sessions.rules.against_choice import AGAINST
from sessions.rules.fairness import CLOUDS, TwoClubs
from sessions.rules.likeness import Aspect, Likeness
from sessions.rules.stopping import STOPS, FullShot, StopLimits
from sessions.rules.verdicts import Judged
from sessions.rules.wanted import Seen, wanted_shown
from tests.rules.test_decision_rules import AGAINST_CASES, hit

FLOATS = st.floats()
MAYBE = st.none() | FLOATS
ABOVE = st.floats(1, 20_000)
# As the column has it: no other is stored.
SPEEDS = st.none() | st.floats(1, 100)
WORDS = st.text(max_size=8)


@given(
    st.builds(FullShot, FLOATS, FLOATS, SPEEDS, FLOATS, FLOATS, st.booleans(),
              st.sampled_from(["mph", "m/s"])),
    st.builds(StopLimits, ABOVE, ABOVE, ABOVE, ABOVE, ABOVE),
)  # fmt: skip
def test_any_full_shot(shot, limits):
    assert all(said.endswith(".") for _, said in STOPS.heard(shot, limits))


DIFFERENCES = st.builds(
    Difference, st.integers(0, 30), st.integers(0, 30), MAYBE, MAYBE, MAYBE, MAYBE, MAYBE, MAYBE,
    ABOVE, st.sampled_from(["real difference", "no difference you could use", "too few balls"]),
    st.none() | st.integers(0, 12), WORDS, st.just("always valid"), st.sampled_from([0.0, 1.0]),
)  # fmt: skip
KEYS = st.sampled_from(
    ["carry", "side", "spread", "proximity", "strikes", "launch", "rating: feel"]
)


@given(st.lists(st.builds(Judged, KEYS, DIFFERENCES)), MAYBE, st.booleans())
def test_any_verdict_against_a_choice(judged, planned_carry_m, is_turned):
    seen = AGAINST_CASES["DEC-E01"][1]
    pair = replace(seen.pair, judged=tuple(judged))
    said = AGAINST.heard(replace(seen, pair=pair, is_turned=is_turned), planned_carry_m)
    assert all("None" not in sentence and sentence.endswith(".") for _, sentence in said)


SEEN = st.builds(
    Seen, st.sampled_from(["full", "chip", "sand"]), st.sampled_from(["real", "none", "few"]),
    st.none() | st.booleans(), WORDS,
)  # fmt: skip
OFF = st.frozensets(st.sampled_from([f"DEC-W0{n}" for n in range(1, 8)]))


@given(st.sampled_from(["keep", "fix"]), WORDS | st.just("chip"), st.lists(SEEN), OFF)
def test_any_wish_has_one_answer_with_its_judgement(kind, what, seen, off):
    shown = wanted_shown(kind, what, seen, off)
    assert shown.rule_id.startswith("DEC-W")
    assert shown.because


@given(st.lists(st.builds(Aspect, WORDS, WORDS, WORDS, st.none() | st.booleans())))
def test_any_two_clubs_are_alike_or_not(aspects):
    two = Likeness("x", tuple(aspects))
    assert bool(two.caution) is (sum(each.is_alike is False for each in aspects) >= 2)


ORDERS = st.lists(st.integers(1, 60), max_size=5).map(tuple)
BLOCKS = st.builds(
    lambda order, spins, got: hit(order=order, spins_rpm=tuple(spins), spin_got=got),
    ORDERS, st.lists(FLOATS, max_size=3), st.sampled_from(["", "measured", "estimated"]),
)  # fmt: skip


@given(BLOCKS, BLOCKS)
def test_any_two_blocks_are_clouded_in_whole_sentences(one, other):
    said = CLOUDS.heard(TwoClubs("a", "b", one, other), None)
    assert all(sentence.endswith(".") for _, sentence in said)
