"""Whatever the facts, no rule raises, and what is found is whole."""

from decimal import Decimal as D

from hypothesis import given, settings
from hypothesis import strategies as st

from sessions.maths.bending import Bend
from sessions.maths.carry_line import LoftCarry, carry_line
from sessions.rules.dry_weight import DryParts
from sessions.rules.facts import (
    Attack,
    ClubFacts,
    ClubSource,
    Evidence,
    GripFacts,
    Hand,
    Hands,
    HeadLimits,
    MakerLimits,
    Making,
    Often,
    PlayerFacts,
    PlayerKind,
    Role,
    ShaftFacts,
    ShaftMaterial,
    Sole,
    SpecFacts,
    Tip,
)
from sessions.rules.head_bends import judged_bend
from sessions.rules.spec import SPEC_RULES, spec_findings
from tests.rules.spec_examples import LIMITS

# Any text but one that holds the word that a forgotten value would leave.
WORDS = st.text(max_size=30).filter(lambda text: "None" not in text)


def decimals(low: int, high: int) -> st.SearchStrategy[D]:
    return st.decimals(low, high, allow_nan=False, places=2)


def maybe(strategy: st.SearchStrategy) -> st.SearchStrategy:  # type: ignore[type-arg]
    return st.none() | strategy


BENDS = st.builds(Bend, loft_deg=decimals(-4, 4), lie_deg=decimals(-4, 4))
MAKERS = st.builds(
    MakerLimits,
    *[maybe(decimals(-1, 4))] * 4,
)
HEADS = st.builds(
    HeadLimits,
    making=st.sampled_from(Making),
    maker=MAKERS,
    earlier=st.lists(BENDS, max_size=4).map(tuple),
)
# Carries beyond reason too: a file may have held anything.
CARRIES = maybe(st.floats())
SOLES = st.builds(
    Sole,
    width_mm=decimals(0, 60),
    heel=st.integers(-1, 4),
    trailing=st.integers(-1, 4),
    is_softened=st.booleans(),
)
SHAFTS = st.builds(
    ShaftFacts,
    mass_g=maybe(decimals(0, 200)),
    material=maybe(st.sampled_from(ShaftMaterial)),
    butt_mm=maybe(decimals(0, 30)),
    is_pulled=st.booleans(),
)
DRY = st.builds(
    DryParts,
    length_mm=decimals(-10, 3000),
    **{
        name: maybe(decimals(-10, 1500))
        for name in (
            "head_g", "bore_to_ground_mm", "shaft_g", "shaft_raw_mm", "shaft_balance_mm",
            "grip_g", "grip_length_mm", "cap_mm",
        )
    },
    tip_trim_mm=decimals(-10, 100),
    extra_layers=st.integers(0, 12),
    lower_extra_layers=st.integers(0, 12),
    has_ferrule=st.booleans(),
    insertion_mm=maybe(decimals(-10, 1500)),
)  # fmt: skip
# As a visit draws it, from shots beyond reason too.
LINES = st.builds(
    carry_line,
    st.floats(20, 70),
    st.floats(1, 300),
    st.lists(st.builds(LoftCarry, st.floats(20, 80), st.floats(1, 300)), max_size=4),
)
CLUBS = st.builds(
    ClubFacts,
    slot=st.integers(-1, 6),
    source=st.sampled_from(ClubSource),
    role=maybe(st.sampled_from(Role)),
    has_head=st.booleans(),
    hand=maybe(st.sampled_from(Hand)),
    head=HEADS,
    bore=maybe(st.sampled_from(Tip)),
    stamped_loft_deg=maybe(decimals(15, 75)),
    stamped_bounce_deg=maybe(decimals(-10, 30)),
    stock_lie_deg=maybe(decimals(50, 80)),
    as_received_loft_deg=maybe(decimals(15, 75)),
    as_received_lie_deg=maybe(decimals(50, 80)),
    as_received_bounce_deg=maybe(decimals(-10, 30)),
    target_loft_deg=maybe(decimals(15, 75)),
    target_lie_deg=maybe(decimals(50, 80)),
    length_mm=maybe(decimals(-10, 3000)),
    has_shaft=st.booleans(),
    sole=maybe(SOLES),
    tip=maybe(st.sampled_from(Tip)),
    tip_trim_mm=decimals(-10, 100),
    shaft=SHAFTS,
    has_grip=st.booleans(),
    grip=st.builds(GripFacts, core_mm=maybe(decimals(0, 30)), length_mm=maybe(decimals(0, 400))),
    swing_weight_points=maybe(decimals(-90, 90)),
    dry=maybe(DRY),
    stamping=maybe(WORDS),
    own_key=st.sampled_from(["", "a", "b"]),
    is_leaving=st.booleans(),
    has_crack=maybe(st.booleans()),
    grooves_conform=maybe(st.booleans()),
    made_year=maybe(st.integers(-1, 3000)),
    discontinued=st.sampled_from([(), ("head",), ("shaft", "grip")]),
    to_order=st.sampled_from([(), ("head",), ("shaft", "grip")]),
    predicted_carry_m=CARRIES,
    predicted_carry_sd_m=CARRIES,
    evidence=st.builds(
        Evidence,
        shots=st.integers(-1, 100),
        tested_on_turf=maybe(st.booleans()),
        situations=st.lists(WORDS, max_size=2).map(tuple),
        unfair=st.lists(WORDS, max_size=2).map(tuple),
        cautions=st.lists(WORDS, max_size=2).map(tuple),
        figures=st.frozensets(st.sampled_from(["as flown", "normalised", "unanswered"])),
        is_loft_measured=maybe(st.booleans()),
        days_since_check=maybe(st.integers(-1, 4000)),
    ),
)
SPECS = st.builds(
    SpecFacts,
    player=st.builds(
        PlayerFacts,
        hand=maybe(st.sampled_from(Hand)),
        kind=st.sampled_from(PlayerKind),
        height_mm=maybe(st.integers(-1, 3000)),
        unanswered=st.lists(WORDS, max_size=3).map(tuple),
        attack_deg=maybe(decimals(-20, 15)),
        attack_seen=maybe(st.sampled_from(Attack)),
        ground=st.frozensets(st.sampled_from(["firm", "normal", "soft"])),
        sand=st.frozensets(
            st.sampled_from(["fluffy", "soft", "firm", "coarse", "wet", "thin_over_base"])
        ),
        face_opened=maybe(st.sampled_from(Often)),
        hands_in_sand=maybe(st.sampled_from(Hands)),
        chips_on_the_toe=st.booleans(),
        hands_hurt=st.booleans(),
        groove_events=st.sampled_from(["", "yes", "no", "not_sure"]),
        iron_lie_deg=maybe(decimals(-6, 6)),
        iron_shaft_g=maybe(decimals(0, 200)),
        iron_shaft_material=maybe(st.sampled_from(ShaftMaterial)),
        irons_changing=st.booleans(),
    ),
    clubs=st.lists(CLUBS, max_size=4).map(tuple),
    baseline_loft_deg=maybe(decimals(-10, 90)),
    baseline_carry_m=CARRIES,
    baseline_length_mm=maybe(decimals(-10, 3000)),
    baseline_swing_weight_points=maybe(decimals(-90, 90)),
    other_clubs=maybe(st.integers(-1, 20)),
    leaving=st.lists(WORDS, max_size=3).map(tuple),
    unused=st.lists(WORDS, max_size=2).map(tuple),
    line=maybe(LINES),
)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(SPECS)
def test_no_rule_raises_and_every_finding_is_whole(facts: SpecFacts) -> None:
    known = {rule.id for rule in SPEC_RULES.rules}
    for finding in spec_findings(facts, LIMITS):
        assert finding.id in known
        assert finding.fields
        assert finding.sentence.strip()
        assert "None" not in finding.sentence
        assert all(isinstance(text, str) for _, text in finding.numbers)


@settings(max_examples=100, deadline=None, derandomize=True)
@given(SPECS)
def test_the_same_facts_are_judged_the_same(facts: SpecFacts) -> None:
    assert spec_findings(facts, LIMITS) == spec_findings(facts, LIMITS)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(HEADS, decimals(-5, 5), decimals(-5, 5))
def test_too_far_is_the_root_of_the_squares_against_the_smaller_limit(
    head: HeadLimits, loft: D, lie: D
) -> None:
    """Each axis counts on the side it goes to now, or went to most before where it stays."""
    limits = LIMITS.bend_limits(head)
    loft_steps = [bend.loft_deg for bend in head.earlier] + [loft]
    lie_steps = [bend.lie_deg for bend in head.earlier] + [lie]
    travelled, allowed = [], []
    for steps, up_limit, down_limit in (
        (loft_steps, limits.weak_deg, limits.strong_deg),
        (lie_steps, limits.upright_deg, limits.flat_deg),
    ):
        up, down = sum(s for s in steps if s > 0), -sum(s for s in steps if s < 0)
        goes_up = steps[-1] > 0 if steps[-1] != 0 else up >= down
        if (up if goes_up else down) > 0:
            travelled.append(up if goes_up else down)
            allowed.append(up_limit if goes_up else down_limit)
    is_bent = loft != 0 or lie != 0
    expected = is_bent and sum(t * t for t in travelled) > min(allowed) ** 2
    assert judged_bend(head, LIMITS, loft, lie).is_too_far == expected
