"""What an interview says of soles: the answers read once, and the words they are judged in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from fitshop.setting import Value
from sessions.rules.facts import Role
from sessions.rules.interview import number_from
from sessions.rules.interview_questions import BY_KEY


class Band(StrEnum):
    """Bounce in three bands; the degrees are the shop's."""

    LOW = "low"
    MID = "mid"
    HIGH = "high"


class Job(StrEnum):
    """What a sole has to do. Sand and the opened face are two jobs of a touch club."""

    FULL_SHOTS = "full_shots"
    SAND = "sand"
    OPENED_FACE = "opened_face"

    @property
    def label(self) -> str:
        return {
            "full_shots": "Full shots from turf",
            "sand": "Sand",
            "opened_face": "Short shots from turf",
        }[self.value]

    @property
    def role(self) -> Role:
        """The role of the slot that this job belongs to."""
        return Role.FULL_SHOT if self is Job.FULL_SHOTS else Role.TOUCH


@dataclass(frozen=True, slots=True)
class SoleLimits:
    """Where attack turns steep or shallow, and where the bands lie [degrees], as set."""

    steep_deg: Decimal
    shallow_deg: Decimal
    bounce_low_from_deg: Decimal
    bounce_low_to_deg: Decimal
    bounce_mid_from_deg: Decimal
    bounce_mid_to_deg: Decimal
    bounce_high_from_deg: Decimal

    def words(self, band: Band) -> str:
        """`mid bounce (7 to 10)`, `high bounce (11 and more)`."""
        match band:
            case Band.LOW:
                return f"low bounce ({self.bounce_low_from_deg} to {self.bounce_low_to_deg})"
            case Band.MID:
                return f"mid bounce ({self.bounce_mid_from_deg} to {self.bounce_mid_to_deg})"
            case Band.HIGH:
                return f"high bounce ({self.bounce_high_from_deg} and more)"


def sole_limits_from(settings: Mapping[str, Value]) -> SoleLimits:
    """Build the limits from the settings `interview.*`. Raises KeyError for a missing one."""
    return SoleLimits(
        **{
            name: Decimal(str(settings[f"interview.{name}"]))
            for name in SoleLimits.__dataclass_fields__
        }
    )


@dataclass(frozen=True, slots=True)
class SoleSuggestion:
    """One sole to begin with. `band` is None where too little was said to suggest one.

    `is_usual_width` asks for a sole that isn't wide, whatever `sole` says. `rule_id` is the
    judgement's, "" where none speaks.
    """

    job: Job
    band: Band | None
    sole: str
    why: str
    rule_id: str = ""
    is_usual_width: bool = False


class Attack(StrEnum):
    """How a wedge comes down, and what a divot says of it."""

    STEEP = "steep"
    MEDIUM = "medium"
    SHALLOW = "shallow"

    def is_opposite_of(self, other: Attack | None) -> bool:
        return {self, other} == {Attack.STEEP, Attack.SHALLOW}


_OF_A_DIVOT = {"deep": Attack.STEEP, "thin": Attack.MEDIUM, "none": Attack.SHALLOW}


@dataclass(frozen=True, slots=True)
class SoleHeard:
    """The answers that matter here, read once. None and empty: not said.

    `attack` is what counts: measured, else by eye, else by the divot. `full_shots` is what is
    suggested for full shots, where something is.
    """

    attack: Attack | None = None
    attack_from: str = ""
    measured: Attack | None = None
    measured_deg: Decimal | None = None
    seen: Attack | None = None
    divot: Attack | None = None
    ground: frozenset[str] = frozenset()
    sand: frozenset[str] = frozenset()
    opened: str | None = None
    full_shots: SoleSuggestion | None = None

    @property
    def knows_turf(self) -> bool:
        return self.attack is not None and bool(self.ground)

    @property
    def is_seen_shallow(self) -> bool:
        """True where somebody measured or saw it: no divot alone may be many things."""
        return (self.measured or self.seen) is Attack.SHALLOW

    @property
    def rests_on_no_divot(self) -> bool:
        """True where nothing but a missing divot says how the club comes down."""
        return self.measured is None and self.seen is None and self.divot is Attack.SHALLOW

    @property
    def turf_jobs(self) -> tuple[Job, ...]:
        """Full shots, and what follows them where the face is never opened."""
        return (Job.FULL_SHOTS, Job.OPENED_FACE) if self.opened == "never" else (Job.FULL_SHOTS,)

    @property
    def is_soft_sand(self) -> bool:
        return bool(self.sand & {"fluffy", "soft"})

    @property
    def is_firm_sand(self) -> bool:
        return bool(self.sand & {"firm", "wet", "thin_over_base"})

    @property
    def is_only_firm_sand(self) -> bool:
        return self.is_firm_sand and not self.is_soft_sand

    @property
    def is_wide_too_much(self) -> bool:
        """True where a spec looks at a wide sole on a full-shot club: SPEC-W056 and SPEC-W057."""
        if self.ground & {"firm", "soft"}:
            return "soft" not in self.ground
        return self.attack is Attack.SHALLOW

    @property
    def turf_why(self) -> str:
        """`Attack steep by eye; ground firm and soft by season.`"""
        order = ("firm", "normal", "soft")
        ground = " and ".join(word for word in order if word in self.ground)
        if {"firm", "soft"} <= self.ground:
            ground = "firm and soft by season"
        return f"{self.attack_from[:1].upper()}{self.attack_from[1:]}; ground {ground}."

    @property
    def sand_why(self) -> str:
        """`Sand: fluffy, soft.`"""
        choices = [choice for choice in BY_KEY["sand"].choices if choice.value in self.sand]
        return f"Sand: {', '.join(choice.label.lower() for choice in choices)}."


def sole_heard(answers: Mapping[str, object], limits: SoleLimits) -> SoleHeard:
    """Read the answers once. A word that is none of the question's own was not said."""
    measured_deg = number_from(answers.get("attack_deg"))
    measured = None if measured_deg is None else _by_figure(measured_deg, limits)
    seen_word, divot_word = _word(answers, "attack"), _word(answers, "divot")
    seen = None if seen_word is None else Attack(seen_word)
    divot = None if divot_word is None else _OF_A_DIVOT[divot_word]
    if measured is not None:
        said = f"attack measured at {measured_deg} degrees"
    elif seen is not None:
        said = f"attack {seen} by eye"
    else:
        said = "" if divot_word is None else f"divots: {divot_word}"
    seasons = (_word(answers, "ground_summer"), _word(answers, "ground_winter"))
    sand = answers.get("sand")
    kinds = sand if isinstance(sand, (list, tuple)) else [sand]
    known_sand = {choice.value for choice in BY_KEY["sand"].choices}
    return SoleHeard(
        attack=measured or seen or divot,
        attack_from=said,
        measured=measured,
        measured_deg=measured_deg,
        seen=seen,
        divot=divot,
        ground=frozenset(word for word in seasons if word in {"firm", "normal", "soft"}),
        sand=frozenset(kind for kind in kinds if isinstance(kind, str) and kind in known_sand),
        opened=_word(answers, "face_opened"),
    )


def _word(answers: Mapping[str, object], key: str) -> str | None:
    """A chip that was chosen, if it is one of the question's."""
    value = answers.get(key)
    if isinstance(value, str) and value in {choice.value for choice in BY_KEY[key].choices}:
        return value
    return None


def _by_figure(attack_deg: Decimal, limits: SoleLimits) -> Attack:
    if attack_deg < limits.steep_deg:
        return Attack.STEEP
    return Attack.SHALLOW if attack_deg > limits.shallow_deg else Attack.MEDIUM
