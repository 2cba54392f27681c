"""Past a head's limit, the head from which the loft can be reached is named with its bounce."""

from dataclasses import replace
from decimal import Decimal as D

import pytest

from sessions.rules.facts import Hand, HeadLimits, MakerLimits, Making, SpecFacts, StampedHead
from sessions.rules.spec import spec_findings
from tests.rules.spec_examples import LIMITS, alone

ASK = "Or ask the chosen head's maker, and write down the answer."
STAY = "Take a head that is stamped nearer, or ask its maker and write down the answer."


def stamped(loft: str, bounce: str, **more: object) -> StampedHead:
    given = {
        "model": "Sedgeway Rill",
        "hand": Hand.RIGHT,
        "limits": HeadLimits(making=Making.CAST_STAINLESS),
    }
    return StampedHead(loft_deg=D(loft), bounce_deg=D(bounce), **(given | more))  # type: ignore[arg-type]


def too_far(*heads: StampedHead, target: str = "50.5") -> SpecFacts:
    """A cast 54 that is to be 50.5: 3.5 degrees, and such a head bends 2."""
    facts = alone(
        head=HeadLimits(making=Making.CAST_STAINLESS),
        head_model="Sedgeway Rill",
        stamped_loft_deg=D(54),
        stamped_bounce_deg=D(12),
        target_loft_deg=D(target),
    )
    return replace(facts, heads=heads)


def hint(*heads: StampedHead, target: str = "50.5") -> str:
    facts = too_far(*heads, target=target)
    return next(f.hint for f in spec_findings(facts, LIMITS) if f.id == "SPEC-E001")


def test_the_next_stamped_loft_within_the_limit_is_named_with_its_bounce() -> None:
    """52 with 10, bent 1.5 strong: a degree of loft is a degree of bounce, so it plays 8.5."""
    assert hint(stamped("54", "12"), stamped("52", "10"), stamped("56", "14")) == (
        "Sedgeway Rill 52 with 10 degrees of bounce, bent 1.5 strong, plays 8.5. " + ASK
    )


@pytest.mark.parametrize(
    ("heads", "named"),
    [
        # The last that may be bent so far, and the first that may not.
        ((stamped("52.5", "10"),), "Sedgeway Rill 52.5 with"),
        ((stamped("52.51", "10"),), STAY),
        ((stamped("48.5", "8"),), "Sedgeway Rill 48.5 with"),
        ((stamped("48.49", "8"),), STAY),
        # Another hand's head is no head for this player.
        ((stamped("52", "10", hand=Hand.LEFT),), STAY),
        # A head that isn't bent, and one whose maker allows less.
        ((stamped("52", "10", limits=HeadLimits(making=Making.HOLLOW)),), STAY),
        (
            (
                stamped(
                    "52",
                    "10",
                    limits=HeadLimits(Making.CAST_STAINLESS, MakerLimits(strong_deg=D(1))),
                ),
            ),
            STAY,
        ),
        # The same model before another, though the other is nearer.
        ((stamped("50", "8", model="Orrin Fell"), stamped("52", "10")), "Sedgeway Rill 52 with"),
        # Another model where the chosen one has none.
        ((stamped("50", "8", model="Orrin Fell"),), "Orrin Fell 50 with 8"),
        # The one that is bent least; of two lofts alike, the bounce that was wanted (8.5).
        ((stamped("52", "10"), stamped("50", "8")), "Sedgeway Rill 50 with 8"),
        ((stamped("50", "4"), stamped("50", "8")), "Sedgeway Rill 50 with 8"),
        # Nothing would be left of its bounce.
        ((stamped("52", "1"),), STAY),
        ((stamped("52", "1.5"),), "Sedgeway Rill 52 with 1.5"),
        ((stamped("50.5", "9"),), "Sedgeway Rill 50.5 with 9 degrees of bounce needs no bend."),
        ((), STAY),
    ],
)  # fmt: skip
def test_which_head_is_named(heads: tuple[StampedHead, ...], named: str) -> None:
    assert hint(*heads).startswith(named)


def test_a_head_that_is_near_enough_is_left_alone() -> None:
    facts = too_far(stamped("52", "10"), target="52")
    assert "SPEC-E001" not in {finding.id for finding in spec_findings(facts, LIMITS)}
