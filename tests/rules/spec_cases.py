"""For every rule of the spec: the last value that passes and the first that fires, by hand."""

from dataclasses import replace
from decimal import Decimal as D

from sessions.rules.facts import (
    Evidence,
    Hand,
    PlayerKind,
    SpecFacts,
    Tip,
)
from tests.rules.spec_cases_bending import BENDING, Case
from tests.rules.spec_cases_parts import BAG, BEHIND, SAFETY, SHAFTS
from tests.rules.spec_cases_run import RUN
from tests.rules.spec_cases_soles import SOLES
from tests.rules.spec_examples import (
    FIFTY,
    QUIET,
    alone,
    kept,
    own,
    with_first,
    with_player,
)


def lofts(*degrees: str) -> SpecFacts:
    """New clubs straight from the maker at these lofts, below a pitching wedge of 45."""
    clubs = tuple(
        replace(FIFTY, slot=slot, stamped_loft_deg=D(loft), target_loft_deg=D(loft))
        for slot, loft in enumerate(degrees, start=1)
    )
    return replace(QUIET, clubs=clubs, other_clubs=10)


def carries(*metres: float | None, baseline: float | None = 100.0) -> SpecFacts:
    """Clubs 5 degrees apart with these carries, below a pitching wedge that goes 100 m."""
    clubs = tuple(
        replace(
            FIFTY,
            slot=slot,
            stamped_loft_deg=D(45 + 5 * slot),
            target_loft_deg=D(45 + 5 * slot),
            predicted_carry_m=carry,
        )
        for slot, carry in enumerate(metres, start=1)
    )
    return replace(QUIET, clubs=clubs, baseline_carry_m=baseline, other_clubs=10)


def few(
    baseline: str, first: str = "50", second: str = "56", *, gap: float | None = None
) -> SpecFacts:
    """Two clubs below a pitching wedge of this loft; `gap` is the first one's [% of its carry]."""
    metres = None if gap is None else 100 - gap
    clubs = tuple(
        replace(
            FIFTY,
            slot=slot,
            stamped_loft_deg=D(loft),
            target_loft_deg=D(loft),
            predicted_carry_m=carry,
        )
        for slot, loft, carry in ((1, first, metres), (2, second, None))
    )
    return replace(QUIET, clubs=clubs, baseline_loft_deg=D(baseline), baseline_carry_m=100.0)


GAPS = (
    Case("SPEC-E010", "two clubs in slot 1", QUIET, with_first(slot=2)),
    Case("SPEC-W010", "small", lofts("50", "54"), lofts("50", "53.99")),
    Case("SPEC-W010", "large", lofts("50", "56"), lofts("50", "56.01")),
    Case("SPEC-W010", "from the pitching wedge", lofts("51"), lofts("51.01")),
    Case("SPEC-W010", "nearer than a degree is another rule's", lofts("45.99"), lofts("46")),
    # Two wedges below 44 end at 54 in steps of 5, two degrees short of 56: 7 degrees may do then.
    Case("SPEC-W010", "few wedges, wide room", few("44", "51", "57"), few("44", "51.01", "57")),
    Case("SPEC-W010", "one step nearer is few no more", few("44.99", "51"), few("45", "51.01")),
    Case(
        "SPEC-W010", "few that end short of sand", few("44", "50", "55"), few("44", "51", "55.99")
    ),
    Case("SPEC-W011", "few wedges, wide room", few("44", gap=15.0), few("44", gap=15.1)),
    Case("SPEC-W011", "few no more", few("44.99", gap=14.0), few("45", gap=14.0)),
    Case("SPEC-N013", "a step of 6", few("44", "50"), few("44", "50.01")),
    Case("SPEC-N013", "a gap of 13 %", few("44", gap=13.0), few("44", gap=13.1)),
    Case("SPEC-N013", "what wants a look is no note", few("44", "51.01"), few("44", "51")),
    Case("SPEC-N013", "a gap that wants a look is no note", few("44", gap=15.1), few("44", gap=15)),
    Case("SPEC-W011", "small", carries(92.0), carries(92.1)),
    Case("SPEC-W011", "large", carries(87.0), carries(86.9)),
    Case("SPEC-W011", "the same carry twice", carries(90.0, 80.0), carries(90.0, 89.8)),
    Case("SPEC-W011", "between two wedges", carries(90.0, 77.0), carries(90.0, 76.9)),
    Case(
        "SPEC-W011",
        "across a club without a carry nothing is judged",
        carries(90.0, None, 70.0),
        carries(90.0, 70.0, None),
    ),
    Case("SPEC-W011", "no baseline, no proportion", carries(50.0, baseline=None), carries(50.0)),
    Case("SPEC-W012", "a degree apart", lofts("50", "51"), lofts("50", "50.99")),
    Case("SPEC-W012", "as the pitching wedge", lofts("46"), lofts("45.99")),
    Case("SPEC-N010", "no loft", QUIET, replace(QUIET, baseline_loft_deg=None)),
    Case("SPEC-N010", "no carry", QUIET, replace(QUIET, baseline_carry_m=None)),
    Case("SPEC-N010", "a carry of nothing", QUIET, replace(QUIET, baseline_carry_m=0.0)),
    Case("SPEC-N011", "no carry", QUIET, with_first(predicted_carry_m=None)),
    Case("SPEC-N012", "not measured", kept(), kept(as_received_loft_deg=None)),
)

PARTS = (
    Case("SPEC-E020", "left head, right player", QUIET, with_first(hand=Hand.LEFT)),
    Case("SPEC-E020", "right head, left player", QUIET, with_player(hand=Hand.LEFT)),
    *(
        Case("SPEC-E021", field, alone(), alone(**{field: nothing}))
        for field, nothing in (
            ("has_head", False),
            ("stamped_loft_deg", None),
            ("target_loft_deg", None),
            ("target_lie_deg", None),
            ("length_mm", None),
            ("has_shaft", False),
            ("has_grip", False),
        )
    ),
    Case("SPEC-E021", "own and kept needs none", kept(), own(target_loft_deg=None)),
    Case(
        "SPEC-E022",
        "taper tip, parallel bore",
        with_first(tip=Tip.PARALLEL, bore=Tip.PARALLEL),
        with_first(tip=Tip.TAPER, bore=Tip.PARALLEL),
    ),
    Case("SPEC-E022", "parallel tip, taper bore", QUIET, with_first(tip=Tip.PARALLEL)),
    Case(
        "SPEC-E023", "48 in", with_first(length_mm=D("1219.2")), with_first(length_mm=D("1219.21"))
    ),
    Case("SPEC-E023", "18 in", with_first(length_mm=D("457.2")), with_first(length_mm=D("457.19"))),
    Case("SPEC-E024", "player", QUIET, with_player(hand=None)),
    Case("SPEC-E024", "head", QUIET, with_first(hand=None)),
    Case("SPEC-W021", "no tip", QUIET, with_first(tip=None)),
    Case("SPEC-W021", "no bore", QUIET, with_first(bore=None)),
    Case(
        "SPEC-W022",
        "12 characters",
        with_first(stamping="ABCDEFGHIJKL"),
        with_first(stamping="ABCDEFGHIJKLM"),
    ),
    Case("SPEC-W023", "none is an answer", with_first(stamping=""), with_first(stamping=None)),
    Case(
        "SPEC-N020",
        "D0 is an answer",
        with_first(swing_weight_points=D(0)),
        with_first(swing_weight_points=None),
    ),
    Case(
        "SPEC-N021",
        "a child's height",
        with_player(kind=PlayerKind.JUNIOR, height_mm=1480),
        with_player(kind=PlayerKind.JUNIOR, height_mm=None),
    ),
    Case("SPEC-N022", "a child", QUIET, with_player(kind=PlayerKind.JUNIOR)),
    Case("SPEC-N023", "no role", QUIET, with_first(role=None)),
)


def long(kind: PlayerKind, length: str, height_mm: int | None = 1700) -> SpecFacts:
    """One club of this length [mm] for this player."""
    player = replace(QUIET.player, kind=kind, height_mm=height_mm)
    return replace(alone(length_mm=D(length)), player=player)


def run_on(
    length: str, pitching: str | None, kind: PlayerKind = PlayerKind.MAN, **player: object
) -> SpecFacts:
    """One club of this length below a pitching wedge of that one [mm], for a player of 170 cm."""
    facts = replace(
        long(kind, length), baseline_length_mm=None if pitching is None else D(pitching)
    )
    return replace(facts, player=replace(facts.player, **player))  # type: ignore[arg-type]


# A pitching wedge of 36 in: 3/4 shorter and 1/16 longer runs on from it.
RUNNING_ON = (
    Case("SPEC-W020", "runs on, long", run_on("915.9875", "914.4"), run_on("915.99", "914.4")),
    Case("SPEC-W020", "runs on, short", run_on("844.55", "863.6"), run_on("844.54", "863.6")),
    Case("SPEC-W020", "nobody measured the irons", run_on("914", "914.4"), run_on("914", None)),
    Case(
        "SPEC-W020",
        "a long pitching wedge makes nothing short",
        run_on("889", "990.6"),
        run_on("888.99", "990.6"),
    ),
    Case(
        "SPEC-W020",
        "a child grows out of irons",
        run_on("900", "914.4", PlayerKind.WOMAN),
        run_on("900", "914.4", PlayerKind.JUNIOR),
    ),
    Case(
        "SPEC-W020",
        "seated",
        run_on("840", None, posture="seated"),
        run_on("840", None, posture="standing"),
    ),
    Case("SPEC-W020", "one arm", run_on("840", None, posture="one_arm"), run_on("840", None)),
)

LENGTHS = tuple(
    Case("SPEC-W020", edge, long(kind, last, height), long(kind, first, height))
    for edge, kind, height, last, first in (
        ("man, short", PlayerKind.MAN, 1700, "889", "888.99"),
        ("man, long", PlayerKind.MAN, 1700, "908.05", "908.06"),
        ("woman, short", PlayerKind.WOMAN, 1700, "863.6", "863.59"),
        ("woman, long", PlayerKind.WOMAN, 1700, "889", "889.01"),
        ("senior, short", PlayerKind.SENIOR, 1700, "863.6", "863.59"),
        ("senior, long", PlayerKind.SENIOR, 1700, "908.05", "908.06"),
        ("adult, short", PlayerKind.ADULT, None, "863.6", "863.59"),
        ("adult, long", PlayerKind.ADULT, None, "908.05", "908.06"),
        ("tall man", PlayerKind.MAN, 1880, "927.1", "927.11"),
        ("not tall", PlayerKind.MAN, 1879, "908.05", "908.06"),
        # 112 cm: 28 in, an inch of slack; 165 cm: 34 in.
        ("smallest child, short", PlayerKind.JUNIOR, 1120, "685.8", "685.79"),
        ("smallest child, long", PlayerKind.JUNIOR, 1120, "736.6", "736.61"),
        ("tallest child, long", PlayerKind.JUNIOR, 1650, "889", "889.01"),
        ("taller still is no other", PlayerKind.JUNIOR, 1800, "889", "889.01"),
        # Half way, 138.5 cm: 31 in.
        ("half-way child, short", PlayerKind.JUNIOR, 1385, "762", "761.99"),
        ("half-way child, long", PlayerKind.JUNIOR, 1385, "812.8", "812.81"),
        ("child without a height, short", PlayerKind.JUNIOR, None, "711.2", "711.19"),
        ("child without a height, long", PlayerKind.JUNIOR, None, "863.6", "863.61"),
        # Outside the Rules is the other rule's.
        ("longer than the Rules allow", PlayerKind.MAN, 1700, "1219.21", "1219.2"),
        ("shorter than the Rules allow", PlayerKind.MAN, 1700, "457.19", "457.2"),
    )
)


def behind(shots: int = 8, on_turf: bool | None = True, *situations: str) -> Evidence:
    return Evidence(
        is_loft_measured=True,
        days_since_check=1,
        shots=shots,
        tested_on_turf=on_turf,
        situations=situations or ("Full",),
    )


EVIDENCE = (
    Case("SPEC-W030", "5 shots", with_first(evidence=behind(5)), with_first(evidence=behind(4))),
    Case(
        "SPEC-W031",
        "mats only",
        with_first(evidence=behind(8, True)),
        with_first(evidence=behind(8, False)),
    ),
    Case(
        "SPEC-W031",
        "nobody wrote it down",
        with_first(evidence=behind(8, True)),
        with_first(evidence=behind(8, None)),
    ),
    Case(
        "SPEC-W032",
        "no situation",
        with_first(evidence=behind()),
        with_first(evidence=Evidence(shots=8, tested_on_turf=True)),
    ),
    *(
        Case(
            rule,
            "an own club needs no proof",
            own(evidence=Evidence()),
            alone(evidence=Evidence()),
        )
        for rule in ("SPEC-W030", "SPEC-W031", "SPEC-W032")
    ),
    Case("SPEC-N030", "one open question", QUIET, with_player(unanswered=("Sand",))),
)

THE_SET = (
    Case("SPEC-E040", "fourteen", QUIET, replace(QUIET, other_clubs=13)),
    Case(
        "SPEC-E040",
        "one leaves",
        replace(QUIET, other_clubs=13, leaving=("4-iron",)),
        replace(QUIET, other_clubs=14, leaving=("4-iron",)),
    ),
    Case("SPEC-E041", "no club", kept(), replace(QUIET, clubs=())),
    Case(
        "SPEC-N040", "not counted", replace(QUIET, other_clubs=0), replace(QUIET, other_clubs=None)
    ),
)

CASES: tuple[Case, ...] = (
    *BENDING,
    *GAPS,
    *PARTS,
    *LENGTHS,
    *RUNNING_ON,
    *EVIDENCE,
    *THE_SET,
    *SOLES,
    *RUN,
    *SHAFTS,
    *SAFETY,
    *BEHIND,
    *BAG,
)
