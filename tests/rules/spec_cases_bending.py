"""The edges of the rules on bending, typed by hand."""

from dataclasses import dataclass
from decimal import Decimal as D

from sessions.maths.bending import Bend
from sessions.rules.facts import HeadLimits, MakerLimits, Making, SpecFacts
from tests.rules.spec_examples import alone, own


@dataclass(frozen=True)
class Case:
    """One edge of one rule."""

    rule: str
    edge: str
    passes: SpecFacts
    fires: SpecFacts

    def __str__(self) -> str:
        return f"{self.rule} {self.edge}"


SILENT = MakerLimits()


def head(making: Making, *earlier: Bend, maker: MakerLimits = SILENT) -> HeadLimits:
    return HeadLimits(making=making, maker=maker, earlier=earlier)


FORGED = head(Making.FORGED_LOW_CARBON)
SOFT_CAST = head(Making.CAST_SOFT_CARBON)
STAINLESS = head(Making.CAST_STAINLESS)
HARD = head(Making.CAST_17_4)

BENDING = (
    Case(
        "SPEC-E001",
        "forged, weak",
        alone(head=FORGED, target_loft_deg=D("53")),
        alone(head=FORGED, target_loft_deg=D("53.01")),
    ),
    Case(
        "SPEC-E001",
        "forged, strong",
        alone(head=FORGED, target_loft_deg=D("47")),
        alone(head=FORGED, target_loft_deg=D("46.99")),
    ),
    Case(
        "SPEC-E001",
        "cast soft carbon",
        alone(head=SOFT_CAST, target_loft_deg=D("52")),
        alone(head=SOFT_CAST, target_loft_deg=D("52.01")),
    ),
    Case(
        "SPEC-E001",
        "cast stainless",
        alone(head=STAINLESS, target_loft_deg=D("48")),
        alone(head=STAINLESS, target_loft_deg=D("47.99")),
    ),
    Case(
        "SPEC-E001",
        "17-4",
        alone(head=HARD, target_loft_deg=D("51")),
        alone(head=HARD, target_loft_deg=D("51.01")),
    ),
    *(
        Case(
            "SPEC-E001",
            f"{making.value} is not bent",
            alone(head=head(making)),
            alone(head=head(making), target_loft_deg=D("50.01")),
        )
        for making in (
            Making.HOLLOW,
            Making.MULTI_PIECE,
            Making.INSERT,
            Making.PRINTED,
            Making.TITANIUM,
            Making.COPPER_ALLOY,
            Making.PLATED,
            Making.UNKNOWN,
        )
    ),
    Case(
        "SPEC-E001",
        "the maker allows less",
        alone(
            head=head(Making.FORGED_LOW_CARBON, maker=MakerLimits(weak_deg=D(1))),
            target_loft_deg=D("51"),
        ),
        alone(
            head=head(Making.FORGED_LOW_CARBON, maker=MakerLimits(weak_deg=D(1))),
            target_loft_deg=D("51.01"),
        ),
    ),
    Case(
        "SPEC-E001",
        "the maker allows more, that way only",
        alone(
            head=head(Making.HOLLOW, maker=MakerLimits(strong_deg=D("1.5"))),
            target_loft_deg=D("48.5"),
        ),
        alone(
            head=head(Making.HOLLOW, maker=MakerLimits(strong_deg=D("1.5"))),
            target_loft_deg=D("50.5"),
        ),
    ),
    Case(
        "SPEC-E002",
        "a new head that came weak",
        alone(head=STAINLESS, as_received_loft_deg=D("51"), target_loft_deg=D("49")),
        alone(head=STAINLESS, as_received_loft_deg=D("51.01"), target_loft_deg=D("49")),
    ),
    Case(
        "SPEC-E002",
        "an own club as measured, whatever its stamp",
        own(head=STAINLESS, stamped_loft_deg=D(54), as_received_loft_deg=D(52)),
        own(head=STAINLESS, stamped_loft_deg=D(50), as_received_loft_deg=D("52.01")),
    ),
    Case(
        "SPEC-E002",
        "what was bent before counts, that way",
        own(
            head=head(Making.FORGED_LOW_CARBON, Bend(loft_deg=D(2))),
            as_received_loft_deg=D(49),
        ),
        own(
            head=head(Making.FORGED_LOW_CARBON, Bend(loft_deg=D(2))),
            as_received_loft_deg=D("48.99"),
        ),
    ),
    Case(
        "SPEC-E003",
        "upright",
        alone(head=STAINLESS, target_lie_deg=D(66)),
        alone(head=STAINLESS, target_lie_deg=D("66.01")),
    ),
    Case(
        "SPEC-E003",
        "flat",
        alone(head=STAINLESS, target_lie_deg=D(62)),
        alone(head=STAINLESS, target_lie_deg=D("61.99")),
    ),
    Case(
        "SPEC-E003",
        "the maker's limit upright",
        alone(
            head=head(Making.FORGED_LOW_CARBON, maker=MakerLimits(up_deg=D(1))),
            target_lie_deg=D(65),
        ),
        alone(
            head=head(Making.FORGED_LOW_CARBON, maker=MakerLimits(up_deg=D(1))),
            target_lie_deg=D("65.01"),
        ),
    ),
    Case(
        "SPEC-E003",
        "the maker's limit flat",
        alone(
            head=head(Making.UNKNOWN, maker=MakerLimits(flat_deg=D(1))),
            target_lie_deg=D(63),
        ),
        alone(
            head=head(Making.UNKNOWN, maker=MakerLimits(flat_deg=D(1))),
            target_lie_deg=D("62.99"),
        ),
    ),
    Case(
        "SPEC-E004",
        "as measured",
        own(head=STAINLESS, as_received_lie_deg=D(62)),
        own(head=STAINLESS, as_received_lie_deg=D("61.99")),
    ),
    *(
        Case(
            "SPEC-E001",
            f"an own club of {making.value} that nobody measured, by its stamp",
            own(head=head(making), as_received_loft_deg=None),
            own(head=head(making), as_received_loft_deg=None, target_loft_deg=D("50.01")),
        )
        for making in (Making.HOLLOW, Making.COPPER_ALLOY, Making.UNKNOWN)
    ),
    Case(
        "SPEC-E001",
        "an own forged club that nobody measured, by its stamp",
        own(head=FORGED, as_received_loft_deg=None, target_loft_deg=D("47")),
        own(head=FORGED, as_received_loft_deg=None, target_loft_deg=D("46.99")),
    ),
    Case(
        "SPEC-E001",
        "an own club that was measured is not judged by its stamp",
        own(head=STAINLESS, stamped_loft_deg=D(54)),
        own(head=STAINLESS, stamped_loft_deg=D(54), as_received_loft_deg=None),
    ),
    *(
        Case(
            "SPEC-E003",
            f"an own club of {making.value} that nobody measured, by its stock lie",
            own(head=head(making), as_received_lie_deg=None),
            own(head=head(making), as_received_lie_deg=None, target_lie_deg=D("63.99")),
        )
        for making in (Making.HOLLOW, Making.COPPER_ALLOY, Making.UNKNOWN)
    ),
    Case(
        "SPEC-E003",
        "an own club that was measured is not judged by its stock lie",
        own(head=STAINLESS, stock_lie_deg=D(60)),
        own(head=STAINLESS, stock_lie_deg=D(60), as_received_lie_deg=None),
    ),
    # 1.8 and 2.4 are 3 on one hosel: a 3-4-5 triangle, exact.
    Case(
        "SPEC-E005",
        "planned",
        alone(head=FORGED, target_loft_deg=D("51.8"), target_lie_deg=D("61.6")),
        alone(head=FORGED, target_loft_deg=D("51.81"), target_lie_deg=D("61.6")),
    ),
    Case(
        "SPEC-E005",
        "against the smaller limit",
        alone(
            head=head(Making.FORGED_LOW_CARBON, maker=MakerLimits(flat_deg=D(1))),
            target_loft_deg=D("50.8"),
            target_lie_deg=D("63.4"),
        ),
        alone(
            head=head(Making.FORGED_LOW_CARBON, maker=MakerLimits(flat_deg=D(1))),
            target_loft_deg=D("50.8"),
            target_lie_deg=D("63.39"),
        ),
    ),
    Case(
        "SPEC-E005",
        "to make",
        own(head=FORGED, as_received_loft_deg=D("51.8"), as_received_lie_deg=D("61.6")),
        own(head=FORGED, as_received_loft_deg=D("51.8"), as_received_lie_deg=D("61.59")),
    ),
    Case(
        "SPEC-E005",
        "one as measured, the other from the stamp",
        own(
            head=FORGED,
            stamped_loft_deg=D("51.8"),
            as_received_loft_deg=None,
            as_received_lie_deg=D("61.6"),
        ),
        own(
            head=FORGED,
            stamped_loft_deg=D("51.8"),
            as_received_loft_deg=None,
            as_received_lie_deg=D("61.59"),
        ),
    ),
    Case(
        "SPEC-E008",
        "loft, neither measured nor stamped",
        own(head=head(Making.HOLLOW), as_received_loft_deg=None),
        own(head=head(Making.HOLLOW), as_received_loft_deg=None, stamped_loft_deg=None),
    ),
    Case(
        "SPEC-E008",
        "lie, neither measured nor in the maker's sheet",
        own(
            head=head(Making.COPPER_ALLOY),
            as_received_lie_deg=None,
            stock_lie_deg=None,
            target_lie_deg=None,
        ),
        own(head=head(Making.COPPER_ALLOY), as_received_lie_deg=None, stock_lie_deg=None),
    ),
    Case(
        "SPEC-E008",
        "a head that bends only wants a look",
        own(head=FORGED, as_received_loft_deg=None, stamped_loft_deg=None),
        own(head=head(Making.PLATED), as_received_loft_deg=None, stamped_loft_deg=None),
    ),
    Case(
        "SPEC-E008",
        "a head that may be bent one way only wants a look",
        own(
            head=head(Making.HOLLOW, maker=MakerLimits(flat_deg=D("0.01"))),
            as_received_lie_deg=None,
            stock_lie_deg=None,
        ),
        own(
            head=head(Making.HOLLOW, maker=MakerLimits(flat_deg=D(0))),
            as_received_lie_deg=None,
            stock_lie_deg=None,
        ),
    ),
    Case(
        "SPEC-E006",
        "nothing left",
        alone(stamped_bounce_deg=D(2), target_loft_deg=D(48)),
        alone(stamped_bounce_deg=D(2), target_loft_deg=D("47.99")),
    ),
    Case(
        "SPEC-E007",
        "weak, strong, and weak again",
        own(
            head=head(Making.FORGED_LOW_CARBON, Bend(loft_deg=D("1.5")), Bend(loft_deg=D("-1.2"))),
            as_received_loft_deg=D("49"),
        ),
        own(
            head=head(Making.FORGED_LOW_CARBON, Bend(loft_deg=D("1.5")), Bend(loft_deg=D("-1.2"))),
            as_received_loft_deg=D("48.99"),
        ),
    ),
    Case(
        "SPEC-W001",
        "loft",
        alone(target_loft_deg=D("48")),
        alone(target_loft_deg=D("47.99")),
    ),
    Case(
        "SPEC-W001",
        "lie",
        alone(target_lie_deg=D("62")),
        alone(target_lie_deg=D("61.99")),
    ),
    Case(
        "SPEC-W001",
        "as measured",
        own(as_received_loft_deg=D("52")),
        own(as_received_loft_deg=D("52.01")),
    ),
    Case(
        "SPEC-W002",
        "under the low band",
        alone(stamped_bounce_deg=D(5), target_loft_deg=D("49")),
        alone(stamped_bounce_deg=D(5), target_loft_deg=D("48.99")),
    ),
    Case(
        "SPEC-W002",
        "negative is another rule's",
        alone(stamped_bounce_deg=D(1), target_loft_deg=D("48.99")),
        alone(stamped_bounce_deg=D(1), target_loft_deg=D("49")),
    ),
    Case(
        "SPEC-W001",
        "an own club that nobody measured, by its stamp",
        own(as_received_loft_deg=None, target_loft_deg=D("48")),
        own(as_received_loft_deg=None, target_loft_deg=D("47.99")),
    ),
    Case("SPEC-W003", "any bend", alone(head=HARD), alone(head=HARD, target_loft_deg=D("50.01"))),
    Case(
        "SPEC-W003",
        "the maker was asked",
        alone(
            head=head(Making.CAST_17_4, maker=MakerLimits(D(1), D(1), D(1), D(1))),
            target_loft_deg=D("51"),
        ),
        alone(
            head=head(Making.CAST_17_4, maker=MakerLimits(D(1), D(1), D(1), None)),
            target_loft_deg=D("51"),
        ),
    ),
    Case(
        "SPEC-W003",
        "lie alone",
        alone(head=STAINLESS, target_lie_deg=D("64.5")),
        alone(head=HARD, target_lie_deg=D("64.5")),
    ),
    Case("SPEC-W004", "loft", own(), own(as_received_loft_deg=None)),
    Case("SPEC-W004", "lie", own(), own(as_received_lie_deg=None)),
    Case("SPEC-N001", "no bounce", alone(), alone(stamped_bounce_deg=None)),
    Case("SPEC-N001", "no stamp", alone(), alone(stamped_loft_deg=None)),
)
