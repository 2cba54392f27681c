"""The edges of the rules on lie, length and swing weight through the set, and overlap."""

from dataclasses import replace
from decimal import Decimal as D

from sessions.maths.carry_line import CarryLine
from sessions.rules.facts import ClubFacts, Hand, Hands, PlayerKind, Role, SpecFacts
from tests.rules.spec_cases_bending import Case
from tests.rules.spec_cases_soles import of
from tests.rules.spec_examples import EVEN, FIFTY, FIFTY_FIVE, QUIET, alone, kept

TOUCH = Role.TOUCH


def lie(target: str, irons: str | None = "0", role: Role = Role.FULL_SHOT, **more: object):  # type: ignore[no-untyped-def]
    """One new club of this lie (its head's own is 64) for irons this far from stock."""
    facts = alone(target_lie_deg=D(target), role=role)
    return of(facts, iron_lie_deg=None if irons is None else D(irons), **more)


def two(first: dict[str, object], second: dict[str, object], **more: object) -> SpecFacts:
    clubs: tuple[ClubFacts, ...] = (replace(FIFTY, **first), replace(FIFTY_FIVE, **second))  # type: ignore[arg-type]
    return replace(QUIET, clubs=clubs, **more)


def lengths(first: str, second: str, pitching: str | None = None) -> SpecFacts:
    return two(
        {"length_mm": D(first)},
        {"length_mm": D(second)},
        baseline_length_mm=None if pitching is None else D(pitching),
    )


def points(first: str, second: str) -> SpecFacts:
    return two({"swing_weight_points": D(first)}, {"swing_weight_points": D(second)})


def against(irons: str | None, club: str, loft: str = "50") -> SpecFacts:
    facts = alone(swing_weight_points=D(club), stamped_loft_deg=D(loft), target_loft_deg=D(loft))
    return replace(facts, baseline_swing_weight_points=None if irons is None else D(irons))


def light(shaft_g: str, irons_g: str | None = "60", kind: PlayerKind = PlayerKind.MAN) -> SpecFacts:
    """One new club with this shaft, for irons with that one [g]."""
    facts = alone(shaft=replace(FIFTY.shaft, mass_g=D(shaft_g)))
    return of(facts, kind=kind, iron_shaft_g=None if irons_g is None else D(irons_g))


def line(shot_sd: float, slope_variance: float = 0.0) -> CarryLine:
    """A line whose slope is known so well [variances of one shot].

    It has as many shots as make Student's t a normal.
    """
    return CarryLine(
        baseline_loft_deg=45.0,
        baseline_carry_m=120.0,
        shots=1000,
        intercept_m=120.0,
        slope_m_per_deg=-2.4,
        shot_sd_m=shot_sd,
        degrees_of_freedom=1e9,
        covariance=((0.0, 0.0, 0.0), (0.0, slope_variance, 0.0), (0.0, 0.0, 0.0)),
        hit_lofts_deg=(45.0,),
    )


def spread(shot_sd: float, slope_variance: float = 0.0) -> SpecFacts:
    return replace(QUIET, line=line(shot_sd, slope_variance))


RUN = (
    # Gaps of 12 m. A normal difference of two balls is below nought 25.5 % of the time where its
    # standard deviation is 12 / 0.65884 = 18.214 m, so one ball's is 12.879.
    Case("SPEC-W013", "25 in 100", spread(12.87), spread(12.89)),
    Case("SPEC-W013", "no line, no chance", replace(QUIET, line=None), spread(20.0)),
    Case("SPEC-W060", "full shot, upright", lie("65"), lie("65.01")),
    Case("SPEC-W060", "full shot, flat", lie("63"), lie("62.99")),
    Case("SPEC-W060", "with flat irons", lie("64", "-1"), lie("64.01", "-1")),
    Case(
        "SPEC-W060", "touch, the same or flatter", lie("64", role=TOUCH), lie("64.01", role=TOUCH)
    ),
    Case("SPEC-W060", "touch, flat", lie("62", role=TOUCH), lie("61.99", role=TOUCH)),
    Case(
        "SPEC-W060",
        "one who chips on the toe",
        lie("65", role=TOUCH, chips_on_the_toe=True),
        lie("65.01", role=TOUCH, chips_on_the_toe=True),
    ),
    Case(
        "SPEC-W060",
        "a flatter head beside irons that are flatter bent",
        replace(lie("62", "-3.5", TOUCH), baseline_lie_deg=D(62)),
        replace(lie("62", "-3.5", TOUCH), baseline_lie_deg=D("61.99")),
    ),
    Case(
        "SPEC-W060",
        "against stock alone where nobody measured the pitching wedge's",
        replace(lie("62", "-3.5"), baseline_lie_deg=D(61)),
        lie("62", "-3.5"),
    ),
    Case("SPEC-W060", "irons not known", lie("66", None), lie("66", "0")),
    Case(
        "SPEC-W061",
        "low hands",
        lie("63.5", role=TOUCH, hands_in_sand=Hands.LOW),
        lie("63.51", role=TOUCH, hands_in_sand=Hands.LOW),
    ),
    Case(
        "SPEC-W061",
        "high hands",
        lie("63.5", role=TOUCH, hands_in_sand=Hands.HIGH),
        lie("63.49", role=TOUCH, hands_in_sand=Hands.HIGH),
    ),
    Case(
        "SPEC-W061",
        "against the irons where they are known",
        lie("62.5", "-1", TOUCH, hands_in_sand=Hands.LOW),
        lie("62.51", "-1", TOUCH, hands_in_sand=Hands.LOW),
    ),
    Case(
        "SPEC-W061",
        "against stock where they are not",
        lie("63.5", None, TOUCH, hands_in_sand=Hands.LOW),
        lie("63.6", None, TOUCH, hands_in_sand=Hands.LOW),
    ),
    Case(
        "SPEC-W061",
        "normal hands",
        lie("64", role=TOUCH, hands_in_sand=Hands.NORMAL),
        lie("64", role=TOUCH, hands_in_sand=Hands.LOW),
    ),
    # 1/16 in longer; 3/4 in shorter.
    Case("SPEC-W063", "longer", lengths("900", "901.5875"), lengths("900", "901.5876")),
    Case("SPEC-W063", "shorter", lengths("900", "880.95"), lengths("900", "880.94")),
    Case(
        "SPEC-W063",
        "from the pitching wedge",
        lengths("900", "900", "919.05"),
        lengths("900", "900", "919.06"),
    ),
    Case("SPEC-W064", "a point lighter", points("4", "3"), points("4", "2.99")),
    Case("SPEC-W065", "four above", against("0", "4"), against("0", "4.01")),
    Case("SPEC-W065", "below", against("0", "0"), against("0", "-0.01")),
    Case("SPEC-W065", "a lob club six", against("0", "6", "58"), against("0", "6.01", "58")),
    Case("SPEC-W065", "from 58 on", against("0", "5", "58"), against("0", "5", "57.99")),
    Case("SPEC-W065", "irons not weighed", against(None, "9"), against("0", "9")),
    # The parts come to 0.7587 points above D0, with 9 g to 4.3540; a point is allowed, and two
    # more where the forecast may be too high.
    Case(
        "SPEC-W066",
        "too light a head",
        alone(swing_weight_points=D("5.354")),
        alone(swing_weight_points=D("5.355")),
    ),
    Case(
        "SPEC-W066",
        "too heavy a head",
        alone(swing_weight_points=D("-2.24")),
        alone(swing_weight_points=D("-2.25")),
    ),
    Case(
        "SPEC-W066",
        "a part without a mass",
        alone(swing_weight_points=D(9), dry=replace(EVEN, head_g=None)),
        alone(swing_weight_points=D(9)),
    ),
    Case("SPEC-N060", "nothing to reckon with", alone(), alone(dry=None)),
    Case(
        "SPEC-N060",
        "no target, nothing to foretell",
        alone(dry=None, swing_weight_points=None),
        alone(dry=None, swing_weight_points=D(0)),
    ),
    Case(
        "SPEC-N061",
        "75 g",
        light("75.01"),
        light("75"),
    ),
    Case(
        "SPEC-N061", "an own club's shaft is as it is", of(kept(), iron_shaft_g=D(60)), light("60")
    ),
    Case("SPEC-N061", "irons of 75 g", light("60", "75.01"), light("60", "75")),
    Case(
        "SPEC-N061",
        "beside heavy irons a senior",
        light("60", "120"),
        light("60", "120", PlayerKind.SENIOR),
    ),
    Case("SPEC-N061", "irons not known", light("60", None), light("60", "60")),
)

LEFT_HANDED = of(lie("65.01"), hand=Hand.LEFT)
