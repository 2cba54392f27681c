"""Where a real difference speaks for another club than the chosen one.

Choosing against it is allowed, with a reason. A shop may switch off what it does not hold against
a choice; the verdicts themselves stay as they are. Common practice.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sessions.maths.shown import show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.carried import is_carry
from sessions.rules.club_evidence import ClubEvidence, SituationFigures
from sessions.rules.judgements import ALL_ON, JudgementBook, Off, Said, sentences
from sessions.rules.measures import SPREAD, STRIKES
from sessions.rules.verdicts import LINE_OF_AIM, Pair, is_more, is_nearer, is_real


def evidence_against(
    chosen: ClubEvidence | None,
    other: ClubEvidence | None,
    pairs: Iterable[Pair],
    planned_carry_m: float | None,
    unit: DistanceUnit,
    off: Off = ALL_ON,
) -> tuple[Said, ...]:
    """Say where a real difference speaks for `other` and against `chosen`.

    Carry speaks for the club that comes nearer to the carry planned for the slot; without a plan
    it speaks for neither, since longer is not better. Direction speaks for the straighter club,
    and less scatter, balls nearer to the target and fewer bad strikes speak for themselves.
    Launch, spin and landing speak for neither: what is wanted of them is the fitter's to say.
    """
    if chosen is None or other is None:
        return ()
    return tuple(
        said
        for pair in pairs
        if {pair.candidate.key, pair.against.key} == {chosen.key, other.key}
        for said in sentences(
            AGAINST,
            ChosenIn(pair, pair.candidate.key != chosen.key, other.name, unit),
            planned_carry_m,
            off,
        )
    )


@dataclass(frozen=True, slots=True)
class ChosenIn:
    """A pair seen from the chosen club; `is_turned` where it is the one held against."""

    pair: Pair
    is_turned: bool
    other: str
    unit: DistanceUnit

    @property
    def mine(self) -> SituationFigures:
        return self.pair.other if self.is_turned else self.pair.one

    @property
    def where(self) -> str:
        return self.pair.one.situation.words(self.unit)

    def is_worse_in(self, key: str) -> bool:
        """The chosen club has more of what less is better of, and the difference is real."""
        found = self.pair.found(key)
        return found is not None and is_real(found) and is_more(found) != self.is_turned

    def is_farther_in(self, key: str, aim: float) -> bool:
        """The chosen club ends farther from the aim, and that is told."""
        candidate_is_nearer = is_nearer(self.pair.found(key), aim)
        return candidate_is_nearer is not None and candidate_is_nearer == self.is_turned

    def off_words(self, key: str, aim: float) -> str:
        """`2 yd off against 9 yd`: the other club first."""
        found = self.pair.found(key)
        if found is None or found.mean_a is None or found.mean_b is None:
            return ""
        a, b = (show_distance(abs(mean - aim), self.unit) for mean in (found.mean_a, found.mean_b))
        mine, theirs = (b, a) if self.is_turned else (a, b)
        return f"{theirs} off against {mine}"


AGAINST: JudgementBook[ChosenIn, float | None, str] = JudgementBook(
    "DEC-E", "What speaks against a choice"
)


@AGAINST.judgement(
    "DEC-E01",
    about="Full swings with the other club carry nearer to the carry planned, and it is real.",
)
def carries_nearer(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if (
        seen.mine.situation.swing == "full"
        and planned_carry_m is not None
        and is_carry(planned_carry_m)
        and not seen.pair.candidate.is_off_plans_pool(seen.mine)
        and seen.is_farther_in("carry", planned_carry_m)
    ):
        yield (
            f"{seen.where}: {seen.other} carries nearer to the "
            f"{show_distance(planned_carry_m, seen.unit)} planned for this slot, "
            f"{seen.off_words('carry', planned_carry_m)}, and the difference is real."
        )


@AGAINST.judgement("DEC-E02", about="The other club flies straighter, and it is real.")
def flies_straighter(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if seen.is_farther_in("side", LINE_OF_AIM):
        yield (
            f"{seen.where}: {seen.other} flies straighter, "
            f"{seen.off_words('side', LINE_OF_AIM)}, and the difference is real."
        )


@AGAINST.judgement("DEC-E03", about="The other club scatters less, and it is real.")
def scatters_less(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if seen.is_worse_in(SPREAD):
        yield f"{seen.where}: {seen.other} scatters less, and the difference is real."


@AGAINST.judgement(
    "DEC-E04",
    about="Balls with the other club end nearer to the target, and it is real.",
)
def ends_nearer(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if seen.is_worse_in("proximity"):
        yield f"{seen.where}: {seen.other} ends nearer to the target, and the difference is real."


@AGAINST.judgement("DEC-E05", about="The other club is struck badly less often, and it is real.")
def struck_better(seen: ChosenIn, planned_carry_m: float | None) -> Iterable[str]:
    if seen.is_worse_in(STRIKES):
        yield f"{seen.where}: {seen.other} is struck badly less often, and the difference is real."
