"""A spec as a fitter's page gives it, typed in its own units, and what the rules say of it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal as D

from sessions.maths.bending import Bend
from sessions.rules.dry_weight import DryParts, Fixings, dry_weight
from sessions.rules.facts import (
    ClubFacts,
    ClubSource,
    Evidence,
    GripFacts,
    Hand,
    HeadLimits,
    Making,
    PlayerFacts,
    Role,
    ShaftFacts,
    ShaftMaterial,
    Sole,
    SpecFacts,
    Tip,
)
from sessions.rules.findings import Finding
from sessions.rules.spec import spec_findings
from tests.rules.spec_examples import LIMITS

YARD_M = 0.9144
INCH_MM = D("25.4")
# Words for a sole's width, and relief graded as it is said.
WIDTHS_MM = {"narrow": D(17), "medium": D(20), "wide": D(25)}
CLEAR = 2

# Five balls from turf and five from sand, as flown, with a trial head that was measured.
TESTED = Evidence(
    shots=10,
    tested_on_turf=True,
    situations=("Full", "Sand"),
    figures=frozenset({"as flown"}),
    is_loft_measured=True,
    days_since_check=10,
)
# Epoxy, ferrule and tape as the trade has them.
SHOPS = LIMITS.fixings()
ON_MATS = replace(TESTED, tested_on_turf=False, situations=("Full",))


def points(swing_weight: str) -> D:
    """Points above D0 of a swing weight as it is written: D3, C7, E1.8.

    >>> points("D3"), points("C7"), points("E1.8")
    (Decimal('3'), Decimal('-3'), Decimal('11.8'))
    """
    return (ord(swing_weight[0]) - ord("D")) * 10 + D(swing_weight[1:])


@dataclass(frozen=True)
class Parts:
    """A club's parts as the page gives them: g, in, and the shaft's balance from the cap."""

    head_g: str
    length_in: str
    cut_g: str
    balance_in: str
    grip_g: str

    def dry(self) -> DryParts:
        """The shaft is given as cut: it is as long as cap and bore leave, and none comes off."""
        length, cap, bore = D(self.length_in) * INCH_MM, D(4), D(30)
        return DryParts(
            length_mm=length,
            head_g=D(self.head_g),
            bore_to_ground_mm=bore,
            shaft_g=D(self.cut_g),
            shaft_raw_mm=length - cap - bore,
            shaft_balance_mm=D(self.balance_in) * INCH_MM - cap,
            tip_trim_mm=D(0),
            grip_g=D(self.grip_g),
            # The page has a grip's centre at 4.2 in; it is reckoned at two fifths of its length.
            grip_length_mm=D("10.5") * INCH_MM,
            cap_mm=cap,
        )

    def points(self, fixings: Fixings = SHOPS) -> float:
        found = dry_weight(self.dry(), fixings, target_points=None, most_added_g=D(9))
        assert found is not None
        return found.points


def new_club(
    slot: int,
    *,
    making: Making,
    lofts: tuple[str, str],
    lies: tuple[str, str],
    bounce: str,
    carry_yd: float,
    parts: Parts,
    shaft: tuple[ShaftMaterial, str, Tip],
    swing_weight: str,
    core_in: str,
    hand: Hand = Hand.RIGHT,
    role: Role = Role.TOUCH,
    width: str = "medium",
    relief: bool = False,
    softened: bool = False,
    trim_in: str = "0",
    evidence: Evidence = TESTED,
) -> ClubFacts:
    """A new club in full. Lofts and lies are (stamped or stock, target)."""
    material, label_g, tip = shaft
    core = D(core_in) * INCH_MM
    return ClubFacts(
        slot=slot,
        source=ClubSource.NEW,
        role=role,
        has_head=True,
        hand=hand,
        head=HeadLimits(making=making),
        bore=tip,
        stamped_loft_deg=D(lofts[0]),
        stamped_bounce_deg=D(bounce),
        stock_lie_deg=D(lies[0]),
        target_loft_deg=D(lofts[1]),
        target_lie_deg=D(lies[1]),
        length_mm=D(parts.length_in) * INCH_MM,
        sole=Sole(
            width_mm=WIDTHS_MM[width],
            heel=CLEAR if relief else 0,
            trailing=CLEAR if relief else 0,
            is_softened=softened,
        ),
        has_shaft=True,
        tip=tip,
        tip_trim_mm=D(trim_in) * INCH_MM,
        shaft=ShaftFacts(mass_g=D(label_g), material=material, butt_mm=core),
        has_grip=True,
        grip=GripFacts(core_mm=core, length_mm=D("10.5") * INCH_MM),
        swing_weight_points=points(swing_weight),
        dry=parts.dry(),
        stamping="",
        grooves_conform=True,
        predicted_carry_m=carry_yd * YARD_M,
        evidence=evidence,
    )


def kept(
    slot: int, measured: str, carry_yd: float, length_in: str | None = None, **more: object
) -> ClubFacts:
    """A club of the player's that stays as it is, beside the one that is judged."""
    club = ClubFacts(
        slot=slot,
        source=ClubSource.OWN_KEPT,
        role=Role.TOUCH,
        as_received_loft_deg=D(measured),
        predicted_carry_m=carry_yd * YARD_M,
        own_key=f"own {slot}",
        length_mm=None if length_in is None else D(length_in) * INCH_MM,
    )
    return replace(club, **more)  # type: ignore[arg-type]


def rework(
    slot: int,
    *,
    making: Making,
    lofts: tuple[str | None, str, str],
    lies: tuple[str | None, str, str],
    length_in: str,
    carry_yd: float,
    bounce: str | None = None,
    bent_before: Sequence[str] = (),
    role: Role = Role.TOUCH,
) -> ClubFacts:
    """An own club to be adjusted. Lofts and lies are (stamped or stock, measured, target)."""

    def known(text: str | None) -> D | None:
        return None if text is None else D(text)

    return ClubFacts(
        slot=slot,
        source=ClubSource.OWN_ADJUSTED,
        role=role,
        hand=Hand.RIGHT,
        head=HeadLimits(making=making, earlier=tuple(Bend(D(b), D(0)) for b in bent_before)),
        stamped_loft_deg=known(lofts[0]),
        as_received_loft_deg=D(lofts[1]),
        target_loft_deg=D(lofts[2]),
        stock_lie_deg=known(lies[0]),
        as_received_lie_deg=D(lies[1]),
        target_lie_deg=D(lies[2]),
        stamped_bounce_deg=known(bounce),
        length_mm=D(length_in) * INCH_MM,
        stamping="",
        own_key=f"own {slot}",
        predicted_carry_m=carry_yd * YARD_M,
    )


def spec_of(
    player: PlayerFacts,
    clubs: Sequence[ClubFacts],
    *,
    pitching: tuple[str, float],
    others: int,
    length_in: str | None = None,
    lie: str | None = None,
    swing_weight: str | None = None,
) -> SpecFacts:
    """A spec below a pitching wedge (loft, stock carry [yd]); `others` are not in the spec."""
    return SpecFacts(
        player=player,
        clubs=tuple(clubs),
        baseline_loft_deg=D(pitching[0]),
        baseline_carry_m=pitching[1] * YARD_M,
        baseline_length_mm=None if length_in is None else D(length_in) * INCH_MM,
        baseline_lie_deg=None if lie is None else D(lie),
        baseline_swing_weight_points=None if swing_weight is None else points(swing_weight),
        other_clubs=others,
    )


def found(facts: SpecFacts) -> dict[str, list[Finding]]:
    """What the rules say, by rule; a note is among it."""
    by_rule: dict[str, list[Finding]] = {}
    for finding in spec_findings(facts, LIMITS):
        by_rule.setdefault(finding.id, []).append(finding)
    return by_rule


def heard(facts: SpecFacts) -> set[str]:
    """The rules that must be answered: what stops the order and what wants a look."""
    return {f.id for f in spec_findings(facts, LIMITS) if f.stops or f.wants_a_look}


def noted(facts: SpecFacts) -> set[str]:
    return {f.id for f in spec_findings(facts, LIMITS)} - heard(facts)


def stopped(facts: SpecFacts) -> set[str]:
    return {f.id for f in spec_findings(facts, LIMITS) if f.stops}
