"""The player as the spec's rules take him: who he is, and what he said in the interview."""

from __future__ import annotations

from collections.abc import Mapping

from sessions.models import Player, Visit
from sessions.rules.facts import (
    Attack,
    Hand,
    Hands,
    Often,
    PlayerFacts,
    PlayerKind,
    ShaftMaterial,
)
from sessions.rules.interview import number_from, unanswered
from sessions.rules.interview_questions import BY_KEY, NEEDED_FOR_A_SOLE
from sessions.selectors.heard import answers_of

# A divot says how steep the attack was where nobody looked. Common practice.
ATTACK_OF_DIVOT = {"deep": Attack.STEEP, "thin": Attack.MEDIUM, "none": Attack.SHALLOW}


def player_facts(visit: Visit, answers: Mapping[str, object] | None = None) -> PlayerFacts:
    """The player of a visit; `answers` by question where they were read already."""
    player: Player = visit.player
    said = answers_of(visit) if answers is None else answers
    sand = said.get("sand")
    opened, hands = _word(said, "face_opened"), _word(said, "hands_in_sand")
    material = _word(said, "iron_shaft_material")
    return PlayerFacts(
        hand=Hand(player.hand),
        kind=PlayerKind(player.kind),
        height_mm=None if player.height_mm is None else round(player.height_mm),
        unanswered=_open_questions(said),
        attack_deg=number_from(said.get("attack_deg")),
        attack_seen=_attack_seen(said),
        ground=frozenset(
            word
            for key in ("ground_summer", "ground_winter")
            if (word := _word(said, key)) in {"firm", "normal", "soft"}
        ),
        sand=frozenset(str(kind) for kind in sand)
        if isinstance(sand, (list, tuple))
        else frozenset(),
        face_opened=Often(opened) if opened else None,
        hands_in_sand=Hands(hands) if hands else None,
        chips_on_the_toe=_word(said, "chips_on") == "on_the_toe",
        hands_hurt=_word(said, "hands") in {"a_little", "yes"},
        groove_events=_word(said, "groove_rule"),
        iron_lie_deg=number_from(said.get("iron_lie_deg")),
        iron_shaft_g=number_from(said.get("iron_shaft_g")),
        iron_shaft_material=ShaftMaterial(material) if material else None,
        irons_changing=_word(said, "irons_changing") in {"yes", "perhaps"},
        posture=_word(said, "posture"),
    )


def wedges_made_in(visit: Visit, answers: Mapping[str, object]) -> int | None:
    """The year from which the player's wedges are, as said; None where nobody asked."""
    age = number_from(answers.get("wedge_age"))
    return None if age is None else visit.starts_at.year - round(age)


def open_questions(visit: Visit) -> tuple[str, ...]:
    """What a sole hangs on and nobody answered, as the interview asks it."""
    return _open_questions(answers_of(visit))


def _open_questions(said: Mapping[str, object]) -> tuple[str, ...]:
    needed = tuple(BY_KEY[key] for key in NEEDED_FOR_A_SOLE if key in BY_KEY)
    return tuple(f"“{BY_KEY[key].label}”" for key in unanswered(needed, said))


def _word(said: Mapping[str, object], key: str) -> str:
    """A chip that was chosen, if it is one of the question's; else nothing."""
    value = said.get(key)
    known = {choice.value for choice in BY_KEY[key].choices} if key in BY_KEY else set()
    return value if isinstance(value, str) and value in known else ""


def _attack_seen(said: Mapping[str, object]) -> Attack | None:
    """By eye, else by the divot."""
    seen = _word(said, "attack")
    return Attack(seen) if seen else ATTACK_OF_DIVOT.get(_word(said, "divot"))
