"""The decision sheet: one line a club, to be read in ten seconds, with what it is taken on.

Every way out of a slot is a line: the club played now, each club tried, the set's own wedge where
one was tried. What a line says is worked out from the shots; the fitter decides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from sessions.maths.shown import show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.evidence import SlotEvidence
from sessions.rules.likeness import Likeness
from sessions.rules.measures import what_of
from sessions.rules.verdict_words import kind_of, verdict_short
from sessions.rules.verdicts import RATING, Pair, VerdictKind, is_better
from sessions.rules.wanted import WantedShown, WantedThing, wanted_of
from sessions.rules.wording import listed

# The measures whose verdicts stand on the sheet; the others stay with the club's own lines.
ON_THE_SHEET = ("carry", "side", "spread", "proximity", "strikes")
NONE_ALIKE: Mapping[str, Likeness] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class SheetVerdict:
    """One verdict of a line: `carry`, a real difference, `9 yd longer`; `said` only where real."""

    what: str
    kind: VerdictKind
    said: str = ""
    is_worse: bool = False


@dataclass(frozen=True, slots=True)
class SheetSituation:
    """The verdicts of one situation, against which club, or why there are none."""

    words: str
    against: str
    verdicts: tuple[SheetVerdict, ...]
    unfair: tuple[str, ...]

    @property
    def real(self) -> tuple[SheetVerdict, ...]:
        return tuple(each for each in self.verdicts if each.kind == "real")

    @property
    def same(self) -> str:
        """`direction and strikes`: in these no difference is of use."""
        return self._listed("none")

    @property
    def undecided(self) -> str:
        return self._listed("few")

    def _listed(self, kind: VerdictKind) -> str:
        return listed([each.what for each in self.verdicts if each.kind == kind])


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One way out of the slot. `carry` is "" where no full swing was measured.

    `apart` says how its full swings were hit otherwise than those they are held against.
    """

    key: str
    name: str
    is_played_now: bool
    is_held_against: bool
    is_matched_set: bool
    balls: int
    bad_strikes: int
    hit_from: tuple[str, ...]
    is_tested_on_turf: bool | None
    grooves: str
    carry: str
    off_plan: str
    apart: tuple[str, ...]
    situations: tuple[SheetSituation, ...]
    wanted: tuple[tuple[WantedThing, WantedShown], ...]
    compared: str
    likeness: Likeness | None = None


def decision_sheet(
    there: SlotEvidence,
    wanted: Sequence[WantedThing],
    unit: DistanceUnit,
    *,
    compared: Mapping[str, str],
    matched_set: frozenset[str] = frozenset(),
    likeness: Mapping[str, Likeness] = NONE_ALIKE,
) -> tuple[SheetLine, ...]:
    """A line for each club of the slot, the one played now first.

    `compared` says, by club key, how a revealed comparison was run; `matched_set` are the keys of
    clubs that are the set's own wedges; `likeness` says how each is made beside the club that it
    is held against.
    """
    now = None if there.own is None else there.own.key
    return tuple(
        SheetLine(
            key=club.key,
            name=club.name,
            is_played_now=club.key == now,
            is_held_against=there.against is not None and club.key == there.against.key,
            is_matched_set=club.key in matched_set,
            balls=club.shots,
            bad_strikes=sum(club.strikes.values()),
            hit_from=_hit_from(club),
            is_tested_on_turf=club.is_tested_on_turf,
            grooves=club.grooves if club.grooves in ("fresh", "worn") else "",
            carry=_carry(club, unit),
            off_plan=_off_plan(club, there.planned_carry_m, unit),
            apart=club.full_apart(),
            situations=tuple(_situation(pair, unit) for pair in _pairs_of(there, club)),
            wanted=tuple(
                (thing, wanted_of(club, there, thing.kind, thing.what, unit)) for thing in wanted
            ),
            compared=compared.get(club.key, ""),
            likeness=likeness.get(club.key),
        )
        for club in there.played
    )


def _pairs_of(there: SlotEvidence, club: ClubEvidence) -> tuple[Pair, ...]:
    return tuple(pair for pair in there.pairs if pair.candidate.key == club.key)


def _hit_from(club: ClubEvidence) -> tuple[str, ...]:
    return tuple(
        dict.fromkeys(each.situation.from_label for each in club.situations if each.figures.shots)
    )


def _carry(club: ClubEvidence, unit: DistanceUnit) -> str:
    full = club.full_stock()
    if full is None or full.figures.carry is None:
        return ""
    return show_distance(full.figures.carry.mean, unit)


def _off_plan(club: ClubEvidence, planned_m: float | None, unit: DistanceUnit) -> str:
    """How far the mean full carry is from the one planned: `2 yd short of the plan`.

    Nothing of balls that the plan doesn't speak of: hit wet, with another ball or device.
    """
    full = club.full_stock()
    if planned_m is None or full is None or full.figures.carry is None:
        return ""
    if club.is_off_plans_pool(full):
        return ""
    off_m = full.figures.carry.mean - planned_m
    size = show_distance(abs(off_m), unit)
    if size.startswith("0 "):
        return "as planned"
    return f"{size} {'past' if off_m > 0 else 'short of'} the plan"


def _situation(pair: Pair, unit: DistanceUnit) -> SheetSituation:
    return SheetSituation(
        words=pair.one.situation.words(unit),
        against=pair.against.name,
        verdicts=tuple(
            SheetVerdict(
                what_of(each.key).lower(),
                kind_of(each.found),
                verdict_short(each, pair, unit),
                is_better(each) is False,
            )
            for each in pair.judged
            if each.key in ON_THE_SHEET or each.key.startswith(RATING)
        ),
        unfair=pair.unfair,
    )
