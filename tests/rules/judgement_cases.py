"""Edges of every judgement of an interview and a plan, typed by hand: the last facts on which it
is silent, and the first on which it speaks."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal as D
from typing import Any

from sessions.rules.facts import PlayerKind, Role
from sessions.rules.first_clubs import first_clubs
from sessions.rules.judgements import JudgementBook
from sessions.rules.plan_notes import (
    BAG,
    DRIFT,
    FOURTEEN,
    OFFERS,
    ROLES,
    BagCount,
    DriftLimits,
    NoteLimits,
    OwnLoft,
)
from sessions.rules.plan_wish import ASKED, SLOT_JOBS, TRAITS, PlanLimits, SoleShape
from sessions.rules.set_advice import (
    COUNTS,
    FIRST,
    KEPT,
    NORMAL,
    NOT_TODAY,
    ORDER,
    SLOT_CONFLICTS,
    SetHeard,
)
from sessions.rules.slot_jobs import JOBS, SlotsHeard, jobs_of
from sessions.rules.slot_lies import LIES
from sessions.rules.slot_shafts import SHAFTS
from sessions.rules.slot_suggestions import FirstClubLimits, PlannedSlot, PlayerHeard, SlotHeard
from sessions.rules.sole_bounce import OPENED, SAND, TURF
from sessions.rules.sole_conflicts import SOLE_CONFLICTS
from sessions.rules.sole_heard import Band, Job, SoleLimits, SoleSuggestion, sole_heard

SOLES = SoleLimits(
    steep_deg=D(-6),
    shallow_deg=D(-3),
    bounce_low_from_deg=D(4),
    bounce_low_to_deg=D(6),
    bounce_mid_from_deg=D(7),
    bounce_mid_to_deg=D(10),
    bounce_high_from_deg=D(11),
)
LIMITS = FirstClubLimits(
    sole=SOLES,
    lob_from_deg=D(58),
    touch_flatter_deg=D("0.5"),
    lob_flatter_deg=D(1),
    iron_lie_asked_deg=D(6),
    shaft_heavier_g=D(10),
    light_shaft_g=D(75),
    short_carry_m=D("91.44"),
    usual_step_deg=D(5),
    usual_most_lofted_deg=D(60),
    junior_check_months=D(6),
    junior_check_growth_mm=D(50),
    bend_forged_low_carbon_deg=D(3),
)
NOTES = NoteLimits(same_deg=D(1), hole_deg=D(6))
PLAN = PlanLimits(
    sand_from_deg=D(56),
    end_high_deg=D(60),
    wider_step_high_deg=D(7),
    wider_gap_high_pct=D(15),
    wide_sole_mm=D("24.13"),
    narrow_sole_mm=D("17.78"),
    touch_from_deg=D(54),
    sole_wide_mm=D(22),
)

FULL, TOUCH = Role.FULL_SHOT, Role.TOUCH
Book = JudgementBook[Any, Any, Any]
CHILD, SENIOR, MAN = PlayerKind.JUNIOR, PlayerKind.SENIOR, PlayerKind.MAN


@dataclass(frozen=True)
class Case:
    """One edge of a judgement. `answers` are what soles' facts were read from, under the limits."""

    rule: str
    book: Book
    silent: Any
    speaks: Any
    limits: Any
    answers: tuple[Mapping[str, object], ...] = ()

    def __str__(self) -> str:
        return self.rule


def plan(*slots: tuple[str, Role]) -> tuple[PlannedSlot, ...]:
    return tuple(PlannedSlot(n, D(loft), role) for n, (loft, role) in enumerate(slots, start=1))


def _soles(
    book: Book, rule: str, silent: Mapping[str, object], speaks: Mapping[str, object]
) -> Case:
    heard = [sole_heard(answers, SOLES) for answers in (silent, speaks)]
    return Case(rule, book, *heard, SOLES, (silent, speaks))


def turf(attack: str, summer: str, winter: str = "not_played", **more: object) -> dict[str, object]:
    return {"attack_deg": attack, "ground_summer": summer, "ground_winter": winter, **more}


def _of_soles() -> Iterator[Case]:
    for rule, silent, speaks in (
        ("TRY-B01", turf("-6", "firm"), turf("-6.1", "firm")),
        ("TRY-B01", turf("-6.1", "normal", "soft"), turf("-6.1", "normal", "firm")),
        ("TRY-B02", turf("-6", "soft"), turf("-6.1", "soft")),
        ("TRY-B02", turf("-6.1", "normal", "firm"), turf("-6.1", "normal")),
        ("TRY-B02", {"attack_deg": "-6.1"}, turf("-6.1", "soft")),
        ("TRY-B03", turf("-3", "firm"), turf("-2.9", "firm")),
        ("TRY-B03", turf("-2.9", "firm", "soft"), turf("-2.9", "firm", "firm")),
        ("TRY-B03", turf("-2.9", "firm", "normal"), turf("-2.9", "firm")),
        ("TRY-B04", turf("-2.9", "soft"), turf("-3", "soft")),
        ("TRY-B04", turf("-6.1", "soft"), turf("-6", "soft")),
        ("TRY-B04", turf("-4", "soft", "normal"), turf("-4", "soft", "soft")),
        ("TRY-B05", turf("-4", "soft"), turf("-4", "soft", "normal")),
        ("TRY-B05", turf("-6.1", "normal"), turf("-6", "normal")),
        ("TRY-B05", turf("-2.9", "firm"), turf("-3", "firm")),
        ("TRY-B05", {"attack_deg": "-4"}, turf("-4", "normal")),
        ("TRY-B06", turf("-2.9", "firm"), turf("-2.9", "firm", "soft")),
        ("TRY-B06", turf("-3", "normal"), turf("-2.9", "normal")),
        ("TRY-B06", {"attack_deg": "-2.9"}, turf("-2.9", "soft")),
    ):
        yield _soles(TURF, rule, silent, speaks)
    for rule, silent, speaks in (
        ("TRY-G01", {"sand": ["soft"]}, {"sand": ["soft", "firm"]}),
        ("TRY-G01", {"sand": ["wet"]}, {"sand": ["wet", "fluffy"]}),
        ("TRY-G02", {"sand": ["fluffy", "thin_over_base"]}, {"sand": ["fluffy"]}),
        ("TRY-G02", {"sand": ["coarse"]}, {"sand": ["coarse", "soft"]}),
        ("TRY-G03", {"sand": ["firm"], "attack_deg": "-6.1"}, {"sand": ["firm"], "attack_deg": -6}),
        ("TRY-G03", {"sand": ["firm", "soft"]}, {"sand": ["firm"]}),
        ("TRY-G03", {"sand": ["wet"], **turf("-4", "soft")},
         {"sand": ["wet"], **turf("-4", "firm")}),
        ("TRY-G04", {"sand": ["wet"], "attack_deg": "-6"}, {"sand": ["wet"], "attack_deg": "-6.1"}),
        ("TRY-G04", {"sand": ["wet", "soft"], "attack_deg": "-7"},
         {"sand": ["wet"], "attack_deg": "-7"}),
        ("TRY-G05", {"sand": ["coarse", "firm"]}, {"sand": ["coarse"]}),
        ("TRY-G05", {"sand": ["coarse", "soft"]}, {"sand": ["coarse"]}),
        ("TRY-G05", {"sand": []}, {"sand": ["coarse"]}),
        ("TRY-G06", {"sand": ["firm"], **turf("-4", "normal")},
         {"sand": ["firm"], **turf("-4", "soft")}),
        ("TRY-G06", {"sand": ["firm"], **turf("-6.1", "soft")},
         {"sand": ["firm"], **turf("-6", "soft")}),
    ):  # fmt: skip
        yield _soles(SAND, rule, silent, speaks)
    for rule, silent, speaks in (
        ("TRY-O01", "sometimes", "often"),
        ("TRY-O02", "often", "sometimes"),
        ("TRY-O02", "never", "sometimes"),
    ):
        yield _soles(OPENED, rule, {"face_opened": silent}, {"face_opened": speaks})
    mid = SoleSuggestion(Job.FULL_SHOTS, Band.MID, "", "Why.")
    never, sometimes = ({"face_opened": word} for word in ("never", "sometimes"))
    for before in ((never, None), (sometimes, mid)):
        yield Case("TRY-O03", OPENED, _with_full(*before), _with_full(never, mid), SOLES)
    high = replace(mid, band=Band.HIGH)
    firm, both = never | {"sand": ["firm"]}, never | {"sand": ["firm", "soft"]}
    for before in ((firm, mid), (both, high)):
        yield Case("TRY-O04", OPENED, _with_full(*before), _with_full(firm, high), SOLES)


def _with_full(answers: Mapping[str, object], full: SoleSuggestion | None) -> object:
    return replace(sole_heard(answers, SOLES), full_shots=full)


def _of_conflicts() -> Iterator[Case]:
    for rule, silent, speaks in (
        ("TRY-C01", turf("-6", "firm"), turf("-6.1", "firm")),
        ("TRY-C01", turf("-7", "normal", "soft"), turf("-7", "normal", "firm")),
        ("TRY-C02", turf("-3", "firm", sand=["soft"]), turf("-2.9", "firm", sand=["soft"])),
        ("TRY-C02", turf("-2", "firm", sand=["coarse"]), turf("-2", "firm", sand=["fluffy"])),
        ("TRY-C02", {"divot": "none", "sand": ["soft"]}, {"attack": "shallow", "sand": ["soft"]}),
        ("TRY-C03", turf("-3", "soft"), turf("-2.9", "soft")),
        ("TRY-C03", turf("-2", "normal", "firm"), turf("-2", "normal", "soft")),
        ("TRY-C03", {"divot": "none", "ground_summer": "soft"},
         {"attack": "shallow", "ground_summer": "soft"}),
        ("TRY-C04", turf("-4", "firm", "normal"), turf("-4", "firm", "soft")),
        ("TRY-C04", turf("-4", "soft", "normal"), turf("-4", "soft", "firm")),
        ("TRY-C05", {"face_opened": "sometimes", "sand": ["soft"]},
         {"face_opened": "often", "sand": ["soft"]}),
        ("TRY-C05", {"face_opened": "often", "sand": ["coarse"]},
         {"face_opened": "often", "sand": ["fluffy"]}),
        ("TRY-C06", {"sand": ["soft", "fluffy"]}, {"sand": ["soft", "wet"]}),
        ("TRY-C06", {"sand": ["firm", "wet"]}, {"sand": ["firm", "fluffy"]}),
        ("TRY-C07", {"attack_deg": "-3", "attack": "steep"},
         {"attack_deg": "-2.9", "attack": "steep"}),
        ("TRY-C07", {"attack_deg": "-6", "attack": "shallow"},
         {"attack_deg": "-6.1", "attack": "shallow"}),
        ("TRY-C07", {"attack_deg": "-2", "attack": "medium"},
         {"attack_deg": "-2", "attack": "steep"}),
        ("TRY-C08", {"attack_deg": "-3", "divot": "deep"}, {"attack_deg": "-2.9", "divot": "deep"}),
        ("TRY-C08", {"attack_deg": "-6", "divot": "none"}, {"attack_deg": "-6.1", "divot": "none"}),
        ("TRY-C08", {"attack": "steep", "divot": "thin"}, {"attack": "steep", "divot": "none"}),
        ("TRY-C08", {"divot": "none"}, {"attack": "steep", "divot": "none"}),
    ):  # fmt: skip
        yield _soles(SOLE_CONFLICTS, rule, silent, speaks)


def slot(loft: str, role: Role, kind: PlayerKind = MAN, **answers: object) -> SlotHeard:
    return SlotHeard(answers, PlayerHeard(kind=kind), PlannedSlot(1, D(loft), role))


def _of_slots() -> Iterator[Case]:
    for rule, silent, speaks in (
        ("TRY-L01", slot("52", TOUCH), slot("52", FULL)),
        ("TRY-L02", slot("56", FULL, chips_on="on_the_toe"),
         slot("56", TOUCH, chips_on="on_the_toe")),
        ("TRY-L02", slot("56", TOUCH, chips_on="on_its_sole"),
         slot("60", TOUCH, chips_on="on_the_toe")),
        ("TRY-L03", slot("58", TOUCH), slot("57.9", TOUCH)),
        ("TRY-L03", slot("57.9", FULL), slot("57.9", TOUCH)),
        ("TRY-L03", slot("54", TOUCH, hands_in_sand="high"),
         slot("54", TOUCH, hands_in_sand="low")),
        ("TRY-L03", slot("54", TOUCH, chips_on="on_the_toe"), slot("54", TOUCH)),
        ("TRY-L04", slot("54", TOUCH, hands_in_sand="normal"),
         slot("54", TOUCH, hands_in_sand="high")),
        ("TRY-L04", slot("58", TOUCH, hands_in_sand="high"),
         slot("57.9", TOUCH, hands_in_sand="high")),
        ("TRY-L04", slot("54", FULL, hands_in_sand="high"),
         slot("54", TOUCH, hands_in_sand="high")),
        ("TRY-L05", slot("57.9", TOUCH, hands_in_sand="low"),
         slot("58", TOUCH, hands_in_sand="low")),
        ("TRY-L05", slot("60", TOUCH, hands_in_sand="normal"),
         slot("60", TOUCH, hands_in_sand="low")),
        ("TRY-L06", slot("57.9", TOUCH, hands_in_sand="high"),
         slot("58", TOUCH, hands_in_sand="high")),
        ("TRY-L06", slot("60", TOUCH, hands_in_sand="normal"),
         slot("60", TOUCH, hands_in_sand="high")),
        ("TRY-L07", slot("57.9", TOUCH), slot("58", TOUCH)),
        ("TRY-L07", slot("60", TOUCH, hands_in_sand="high"),
         slot("60", TOUCH, hands_in_sand="normal")),
        ("TRY-L07", slot("60", TOUCH, hands_in_sand="low"), slot("60", TOUCH)),
    ):  # fmt: skip
        yield Case(rule, LIES, silent, speaks, LIMITS)
    steel = {"iron_shaft_g": "110"}
    for rule, silent, speaks in (
        ("TRY-S01", slot("52", FULL, MAN, **steel), slot("52", FULL, SENIOR, **steel)),
        ("TRY-S01", slot("52", FULL, CHILD), slot("52", FULL, CHILD, **steel)),
        ("TRY-S02", slot("52", FULL, hands="no", **steel), slot("52", FULL, hands="yes", **steel)),
        ("TRY-S02", slot("52", FULL, **steel), slot("52", TOUCH, hands="a_little", **steel)),
        ("TRY-S02", slot("52", FULL, SENIOR, hands="yes", **steel),
         slot("52", FULL, hands="yes", **steel)),
        ("TRY-S02", slot("52", FULL, hands="yes"), slot("52", FULL, hands="yes", **steel)),
        ("TRY-S03", slot("52", FULL, hands="yes", **steel), slot("52", FULL, hands="no", **steel)),
        ("TRY-S03", slot("52", FULL, hands="a_little", **steel), slot("52", FULL, **steel)),
        ("TRY-S03", slot("52", FULL, CHILD, **steel), slot("52", FULL, MAN, **steel)),
        ("TRY-S03", slot("52", TOUCH, **steel), slot("52", FULL, **steel)),
        ("TRY-S04", slot("58", TOUCH, hands="yes", **steel), slot("58", TOUCH, **steel)),
        ("TRY-S04", slot("58", TOUCH, SENIOR, **steel), slot("58", TOUCH, **steel)),
        ("TRY-S04", slot("58", FULL, **steel), slot("58", TOUCH, **steel)),
        ("TRY-S05", slot("58", TOUCH, **steel), slot("58", TOUCH)),
    ):  # fmt: skip
        yield Case(rule, SHAFTS, silent, speaks, LIMITS)
    one = plan(("50", FULL), ("56", TOUCH))
    two = plan(("50", FULL), ("54", TOUCH), ("58", TOUCH))
    three = plan(("50", TOUCH), ("54", TOUCH), ("58", TOUCH))
    names = {"club_sand": "my 58"}
    for rule, silent, speaks in (
        ("TRY-J01", SlotsHeard({}, plan(("56", TOUCH))), SlotsHeard({}, plan(("56", FULL)))),
        ("TRY-J02", SlotsHeard({}, two), SlotsHeard({}, one)),
        ("TRY-J03", SlotsHeard({"club_sand": "the old one"}, two), SlotsHeard(names, two)),
        ("TRY-J03", SlotsHeard(names, one), SlotsHeard(names, two)),
        ("TRY-J04", SlotsHeard(names, two), SlotsHeard({}, two)),
        ("TRY-J05", SlotsHeard({}, one), SlotsHeard({}, two)),
        ("TRY-J06", SlotsHeard({}, two), SlotsHeard({}, three)),
    ):
        yield Case(rule, JOBS, silent, speaks, None)


def whole(
    answers: Mapping[str, object] | None = None,
    *,
    kind: PlayerKind = MAN,
    carry_m: float | None = None,
    pitching: str | None = None,
    slots: tuple[PlannedSlot, ...] = (),
    bands: Mapping[Job, Band | None] | None = None,
    surfaces: tuple[str, ...] = (),
) -> SetHeard:
    return SetHeard(
        answers=answers or {},
        player=PlayerHeard(kind, carry_m, None if pitching is None else D(pitching)),
        slots=slots,
        jobs=jobs_of({}, slots),
        bands=bands or {},
        found=found_for(answers or {}, slots),
        surfaces=frozenset(surfaces),
    )


def found_for(answers: Mapping[str, object], slots: tuple[PlannedSlot, ...]) -> tuple:
    return first_clubs(answers, PlayerHeard(), slots, LIMITS).slots


def _of_the_set() -> Iterator[Case]:
    both = plan(("50", FULL), ("56", TOUCH))
    high_low = {Job.SAND: Band.HIGH, Job.OPENED_FACE: Band.LOW}
    agreed = {Job.SAND: Band.HIGH, Job.OPENED_FACE: Band.HIGH}
    wish = {"wedges_wanted": "three"}
    for book, rule, silent, speaks in (
        (SLOT_CONFLICTS, "TRY-D01", whole(slots=both, bands=agreed),
         whole(slots=both, bands=high_low)),
        (SLOT_CONFLICTS, "TRY-D01", whole(slots=both, bands={Job.SAND: Band.HIGH}),
         whole(slots=both, bands=high_low)),
        (SLOT_CONFLICTS, "TRY-D02", whole({"iron_lie_deg": "3"}), whole({"iron_lie_deg": "3.1"})),
        (SLOT_CONFLICTS, "TRY-D03", whole({"iron_lie_deg": "-5.9"}), whole({"iron_lie_deg": "-6"})),
        (SLOT_CONFLICTS, "TRY-D03", whole({"iron_lie_deg": "-12", "posture": "seated"}),
         whole({"iron_lie_deg": "-12", "posture": "standing"})),
        (SLOT_CONFLICTS, "TRY-D02", whole({"iron_lie_deg": "-3"}), whole({"iron_lie_deg": "-3.1"})),
        (COUNTS, "TRY-W01", whole({"wedges_wanted": "ask_later"}), whole(wish)),
        (COUNTS, "TRY-W02", whole(kind=MAN), whole(kind=CHILD)),
        (COUNTS, "TRY-W02", whole(wish, kind=CHILD), whole(kind=CHILD)),
        (COUNTS, "TRY-W03", whole(carry_m=91.44), whole(carry_m=91.43)),
        (COUNTS, "TRY-W03", whole(wish, carry_m=80), whole(carry_m=80)),
        (COUNTS, "TRY-W03", whole(carry_m=80, kind=CHILD), whole(carry_m=80, kind=SENIOR)),
        (COUNTS, "TRY-W04", whole(pitching="45", carry_m=91.43),
         whole(pitching="45", carry_m=91.44)),
        (COUNTS, "TRY-W04", whole(wish, pitching="45"), whole(pitching="45")),
        (COUNTS, "TRY-W04", whole(pitching="45", kind=CHILD), whole(pitching="45", kind=SENIOR)),
        (COUNTS, "TRY-W04", whole(), whole(pitching="45")),
        (KEPT, "TRY-K01", whole({"keep": []}), whole({"keep": ["flop"]})),
        (FIRST, "TRY-F04", whole({"hands": "no"}), whole({"hands": "a_little"})),
        (FIRST, "TRY-F04", whole({"hands": "ask_later"}), whole({"hands": "yes"})),
        (FIRST, "TRY-F01", whole(), whole(slots=both)),
        (FIRST, "TRY-F02", whole(slots=plan(("56", TOUCH))), whole(slots=plan(("50", FULL)))),
        (FIRST, "TRY-F03", whole({"fix": ["sand"]}, slots=plan(("50", FULL))),
         whole({"fix": ["sand"]}, slots=both)),
        (FIRST, "TRY-F03", whole({"keep": ["sand"]}, slots=both),
         whole({"fix": ["sand"]}, slots=both)),
        (NOT_TODAY, "TRY-T01", whole(surfaces=("tee", "fairway")), whole(surfaces=("tee",))),
        (NOT_TODAY, "TRY-T01", whole(surfaces=("mat", "sand_firm")),
         whole(surfaces=("mat", "tee"))),
        (NOT_TODAY, "TRY-T01", whole(), whole(surfaces=("mat",))),
        (NOT_TODAY, "TRY-T02", whole({"irons_changing": "no"}), whole({"irons_changing": "yes"})),
        (NOT_TODAY, "TRY-T02", whole(), whole({"irons_changing": "perhaps"})),
        (NOT_TODAY, "TRY-T03", whole(kind=SENIOR), whole(kind=CHILD)),
        (NOT_TODAY, "TRY-T04", whole({"pain": "No."}), whole({"pain": "the left wrist"})),
        (NOT_TODAY, "TRY-T04", whole({"pain": " none "}), whole({"pain": "no, but my back"})),
        (NORMAL, "TRY-N01", whole({"iron_shaft_g": "75.1"}), whole({"iron_shaft_g": "75"})),
        (NORMAL, "TRY-N01", whole({"hands": "no"}), whole({"hands": "yes"})),
        (NORMAL, "TRY-N01", whole(kind=MAN), whole(kind=SENIOR)),
        (NORMAL, "TRY-N02", whole(carry_m=91.44), whole(carry_m=91.43)),
    ):  # fmt: skip
        yield Case(rule, book, silent, speaks, LIMITS)


def _of_a_plan() -> Iterator[Case]:
    def two(above: str, below: str) -> tuple[OwnLoft, OwnLoft]:
        return OwnLoft("the 50", D(above), True), OwnLoft("the 52", D(below), False)

    def own(loft: str, *, is_measured: bool = True) -> OwnLoft:
        return OwnLoft("the 56", D(loft), is_measured, D(56))

    def bag(others: int | None, wedges: int) -> tuple[BagCount, int]:
        return BagCount(others=others, below=1, wedges=2), wedges

    def asks(band: Band | None, sole: str = "") -> SoleSuggestion:
        return SoleSuggestion(Job.SAND, band, sole, "Why.")

    def wide_no_more(band: Band | None) -> SoleSuggestion:
        return replace(asks(band), is_usual_width=True)

    def shape(width: str = "20", heel: int = 0, trailing: int = 0, soft: bool = False) -> SoleShape:
        return SoleShape(D(width), heel, trailing, soft)

    for book, rule, silent, speaks, limits in (
        (BAG, "PLAN-N01", two("50", "51"), two("50", "50.9"), NOTES),
        (BAG, "PLAN-N02", two("50", "56"), two("50", "56.1"), NOTES),
        (DRIFT, "PLAN-D01", own("55.1"), own("55"), DriftLimits(D(1))),
        (DRIFT, "PLAN-D01", own("54.8", is_measured=False), own("57"), DriftLimits(D(1))),
        (FOURTEEN, "PLAN-B01", bag(0, 2), bag(None, 2), None),
        (FOURTEEN, "PLAN-B02", bag(10, 4), bag(10, 3), None),
        (FOURTEEN, "PLAN-B02", bag(None, 3), bag(10, 3), None),
        (FOURTEEN, "PLAN-B03", bag(10, 3), bag(10, 4), None),
        (OFFERS, "PLAN-O01", [], ["Orrin Vale Sedge 48"], None),
        (ROLES, "PLAN-R01", D(54), D("53.9"), D(54)),
        (ROLES, "PLAN-R02", D("53.9"), D(54), D(54)),
        (SLOT_JOBS, "PLAN-J01", 2, 1, None),
        (SLOT_JOBS, "PLAN-J02", 3, 2, None),
        (SLOT_JOBS, "PLAN-J03", 4, 3, None),
        (SLOT_JOBS, "PLAN-J04", 3, 4, None),
        (ASKED, "PLAN-W01", asks(None), asks(Band.LOW), SOLES),
        (ASKED, "PLAN-W01", asks(None), asks(Band.MID), SOLES),
        (ASKED, "PLAN-W01", asks(None), asks(Band.HIGH), SOLES),
        (ASKED, "PLAN-W02", asks(Band.MID), asks(Band.MID, "wide sole"), SOLES),
        (ASKED, "PLAN-W02", asks(None, "wide sole"), asks(Band.LOW, "wide sole"), SOLES),
        (TRAITS, "PLAN-T01", shape("24.12"), shape("24.13"), PLAN),
        (TRAITS, "PLAN-T02", shape("17.79"), shape("17.78"), PLAN),
        (TRAITS, "PLAN-T03", shape(), shape(soft=True), PLAN),
        (ASKED, "PLAN-W03", asks(Band.MID), wide_no_more(Band.MID), SOLES),
        (ASKED, "PLAN-W03", wide_no_more(None), wide_no_more(Band.LOW), SOLES),
        (TRAITS, "PLAN-T05", shape("22"), shape("21.99"), PLAN),
        (TRAITS, "PLAN-T05", shape("25.5"), shape("19"), PLAN),
        (TRAITS, "PLAN-T04", shape(heel=1, trailing=3), shape(heel=2, trailing=2), PLAN),
        (TRAITS, "PLAN-T04", shape(heel=3, trailing=1), shape(heel=2, trailing=2), PLAN),
    ):
        yield Case(rule, book, silent, speaks, limits)


CASES: tuple[Case, ...] = (
    *_of_soles(),
    *_of_conflicts(),
    *_of_slots(),
    *_of_the_set(),
    *_of_a_plan(),
)
# The order of trials is said at every visit: it has no condition, and so no edge.
ALWAYS_SAID = {"TRY-E01": (ORDER, whole(), LIMITS)}
