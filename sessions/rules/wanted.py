"""What the player wants kept and fixed, answered by the shots of the club that is weighed.

The tool proposes the answer with the numbers behind it; the fitter may say otherwise. A shot
named in the interview is looked for among the situations that the club and the one played until
now were both hit in. How far a ball flies is no better or worse by itself (the gaps judge
that), so only measures with a good side answer: spread, distance from the target, strikes and
what the player said. Common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from sessions.rules.verdicts import VerdictKind

# The interview's shot words against the swings that a block is hit with.
SWINGS_OF: Mapping[str, frozenset[str]] = {
    "full": frozenset({"full", "flat_out"}),
    "three_quarter": frozenset({"three_quarter"}),
    "half": frozenset({"half"}),
    "chip": frozenset({"chip"}),
    "pitch": frozenset({"pitch"}),
    "flop": frozenset({"flop"}),
    "sand": frozenset({"sand"}),
}


class WantedAnswer(StrEnum):
    """What became of a thing to keep or to fix. The values are stored with the decision."""

    KEPT = "kept"
    LOST = "lost"
    FIXED = "fixed"
    NOT_FIXED = "not_fixed"
    NOT_SHOWN = "not_shown"

    @property
    def label(self) -> str:
        return self.value.replace("_", " ").capitalize()


@dataclass(frozen=True, slots=True)
class Seen:
    """One verdict on the weighed club against the one played until now, in one situation.

    `is_better` is None where the measure has no good side or no difference is called.
    """

    swing: str
    kind: VerdictKind
    is_better: bool | None
    sentence: str


@dataclass(frozen=True, slots=True)
class WantedShown:
    """The proposed answer, and the sentences with the numbers behind it."""

    answer: WantedAnswer
    because: tuple[str, ...]


def wanted_shown(kind: Literal["keep", "fix"], what: str, seen: Iterable[Seen]) -> WantedShown:
    """Answer one thing wanted from the verdicts of the situations that show it.

    Worse in any measure is lost (or not fixed), better in one and worse in none is fixed (or
    kept); no difference is kept (or not fixed); anything less shows nothing.
    """
    swings = SWINGS_OF.get(what, frozenset())
    shown = [one for one in seen if one.swing in swings]
    if not shown:
        return WantedShown(
            WantedAnswer.NOT_SHOWN,
            ("Not hit with both clubs in the same situation.",),
        )
    called = [one for one in shown if one.kind != "few"]
    if not called:
        return WantedShown(WantedAnswer.NOT_SHOWN, _sentences(shown))
    worse = [one for one in called if one.is_better is False]
    better = [one for one in called if one.is_better]
    if worse:
        bad = WantedAnswer.LOST if kind == "keep" else WantedAnswer.NOT_FIXED
        return WantedShown(bad, _sentences([*worse, *better]))
    if better:
        good = WantedAnswer.KEPT if kind == "keep" else WantedAnswer.FIXED
        return WantedShown(good, _sentences(better))
    same = [one for one in called if one.kind == "none"]
    if not same:
        return WantedShown(WantedAnswer.NOT_SHOWN, _sentences(called))
    unchanged = WantedAnswer.KEPT if kind == "keep" else WantedAnswer.NOT_FIXED
    return WantedShown(unchanged, _sentences(same))


def _sentences(seen: Sequence[Seen]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.sentence for one in seen))
