"""A first suggestion of bounce and sole for each job, from the interview, with its why.

Simple on purpose: a place to begin the trials, overruled with one tap. Where two answers pull
two ways the conflict is shown and never averaged away; what was not asked is said.
All of it is common practice (trade rules of thumb without a published source).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from fitshop.setting import Value
from sessions.rules.facts import Role
from sessions.rules.interview import is_answered, number_from
from sessions.rules.interview_questions import BY_KEY, NEEDED_FOR_A_SOLE


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
    """One sole to begin with. `band` is None where too little was said to suggest one."""

    job: Job
    band: Band | None
    sole: str
    why: str


@dataclass(frozen=True, slots=True)
class SoleAdvice:
    """Suggestions by job, the conflicts among the answers, and the questions still open."""

    suggestions: tuple[SoleSuggestion, ...]
    conflicts: tuple[str, ...]
    missing: tuple[str, ...]

    def suggestion(self, job: Job) -> SoleSuggestion:
        """The suggestion of a job: there is always one."""
        return next(one for one in self.suggestions if one.job is job)


@dataclass(frozen=True, slots=True)
class _Heard:
    """The answers that matter here, read once. None and empty: not said."""

    attack: str | None
    attack_from: str
    ground: frozenset[str]
    sand: frozenset[str]
    opened: str | None

    @property
    def is_seen_shallow(self) -> bool:
        """True where somebody measured or saw it: no divot alone may be many things."""
        return self.attack == "shallow" and not self.attack_from.startswith("divots")

    @property
    def is_soft_sand(self) -> bool:
        return bool(self.sand & {"fluffy", "soft"})

    @property
    def is_firm_sand(self) -> bool:
        return bool(self.sand & {"firm", "wet", "thin_over_base"})


def sole_advice(answers: Mapping[str, object], limits: SoleLimits) -> SoleAdvice:
    """Suggest a sole for each job from answers by question key. Never raises for odd answers."""
    heard = _heard(answers, limits)
    return SoleAdvice(
        suggestions=(_full_shots(heard), _sand(heard), _opened_face(heard)),
        conflicts=_conflicts(heard),
        missing=_missing(answers, heard),
    )


def _heard(answers: Mapping[str, object], limits: SoleLimits) -> _Heard:
    attack, attack_from = _attack(answers, limits)
    seasons = (_word(answers, "ground_summer"), _word(answers, "ground_winter"))
    sand = answers.get("sand")
    kinds = sand if isinstance(sand, (list, tuple)) else [sand]
    known_sand = {choice.value for choice in BY_KEY["sand"].choices}
    return _Heard(
        attack=attack,
        attack_from=attack_from,
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


def _attack(answers: Mapping[str, object], limits: SoleLimits) -> tuple[str | None, str]:
    """Steep, medium or shallow, and what says so: measured, then by eye, then the divot."""
    measured = number_from(answers.get("attack_deg"))
    if measured is not None:
        said = f"attack measured at {measured} degrees"
        if measured < limits.steep_deg:
            return "steep", said
        return ("shallow" if measured > limits.shallow_deg else "medium"), said
    seen = _word(answers, "attack")
    if seen is not None:
        return seen, f"attack {seen} by eye"
    divot = _word(answers, "divot")
    if divot is not None:
        return {"deep": "steep", "thin": "medium", "none": "shallow"}[divot], f"divots: {divot}"
    return None, ""


def _full_shots(heard: _Heard) -> SoleSuggestion:
    job = Job.FULL_SHOTS
    if heard.attack is None or not heard.ground:
        return SoleSuggestion(job, None, "", "Attack and ground at home are not both known.")
    ground = "firm and soft by season" if {"firm", "soft"} <= heard.ground else _ground(heard)
    why = f"{heard.attack_from[0].upper()}{heard.attack_from[1:]}; ground {ground}."
    if heard.attack == "steep" and "firm" in heard.ground:
        return SoleSuggestion(job, Band.MID, "softened leading edge", why)
    if heard.attack == "steep":
        return SoleSuggestion(job, Band.HIGH, "", why)
    if heard.attack == "shallow" and heard.ground == {"firm"}:
        return SoleSuggestion(job, Band.LOW, "", why)
    if heard.attack == "medium" and heard.ground == {"soft"}:
        return SoleSuggestion(job, Band.HIGH, "", why)
    return SoleSuggestion(job, Band.MID, "", why)


def _ground(heard: _Heard) -> str:
    return " and ".join(word for word in ("firm", "normal", "soft") if word in heard.ground)


def _sand(heard: _Heard) -> SoleSuggestion:
    job = Job.SAND
    if not heard.sand:
        return SoleSuggestion(job, None, "", "The sand at home is not known.")
    choices = [choice for choice in BY_KEY["sand"].choices if choice.value in heard.sand]
    kinds = ", ".join(choice.label.lower() for choice in choices)
    why = f"Sand: {kinds}."
    if heard.is_soft_sand and heard.is_firm_sand:
        return SoleSuggestion(job, Band.MID, "", why)
    if heard.is_soft_sand:
        return SoleSuggestion(job, Band.HIGH, "wide sole", why)
    if heard.is_firm_sand and heard.attack == "steep":
        return SoleSuggestion(job, Band.MID, "softened leading edge", why)
    if heard.is_firm_sand and "soft" in heard.ground:
        return SoleSuggestion(
            job, Band.MID, "", f"{why} The ground is soft in a season, and low bounce digs there."
        )
    if heard.is_firm_sand:
        return SoleSuggestion(job, Band.LOW, "narrower sole", why)
    return SoleSuggestion(job, Band.MID, "", why)


def _opened_face(heard: _Heard) -> SoleSuggestion:
    job, relief = Job.OPENED_FACE, "heel and trailing-edge relief"
    match heard.opened:
        case "often":
            why = "Opened often: an open face adds bounce, and relief keeps the edge down."
            return SoleSuggestion(job, Band.LOW, relief, why)
        case "sometimes":
            return SoleSuggestion(job, Band.MID, relief, "Opened now and then.")
        case "never":
            ground = _full_shots(heard)
            return SoleSuggestion(
                job, ground.band, ground.sole, f"Never opened, so as for full shots. {ground.why}"
            )
        case _:
            return SoleSuggestion(job, None, "", "How often the face is opened is not known.")


def _conflicts(heard: _Heard) -> tuple[str, ...]:
    """Pairs of answers that ask for two different soles, each in a sentence."""
    found = (
        (
            heard.attack == "steep" and "firm" in heard.ground,
            "Steep on firm ground: steepness asks for bounce, firm ground bounces it off. "
            "Mid bounce with a softened leading edge, not high.",
        ),
        (
            heard.is_seen_shallow and heard.is_soft_sand,
            "Shallow from turf but soft or fluffy sand: one bounce can't serve both. "
            "Two soles for two jobs: a wide one with high bounce for the sand, less on the rest.",
        ),
        (
            heard.is_seen_shallow and "soft" in heard.ground,
            "Shallow on soft ground: shallowness asks for little bounce, soft ground for more. "
            "Try both sides of mid from the player's own kind of turf.",
        ),
        (
            {"firm", "soft"} <= heard.ground,
            "Firm in one season and soft in the other: no sole is best in both. "
            "Ask when most of the rounds are played.",
        ),
        (
            heard.opened == "often" and heard.is_soft_sand,
            "Opened often and soft or fluffy sand: the club that is opened on turf wants low "
            "bounce, the sand wants high. Two soles for two jobs; no high bounce on the one "
            "that is opened.",
        ),
        (
            heard.is_soft_sand and heard.is_firm_sand,
            "Soft bunkers and firm ones: no sole is best in both. Ask which are met most.",
        ),
    )
    return tuple(sentence for is_found, sentence in found if is_found)


def _missing(answers: Mapping[str, object], heard: _Heard) -> tuple[str, ...]:
    """Labels of the questions that this rests on and nobody answered."""
    open_keys = [
        key
        for key in NEEDED_FOR_A_SOLE
        if not is_answered(answers.get(key)) and not (key == "attack" and heard.attack is not None)
    ]
    return tuple(BY_KEY[key].label for key in open_keys)
