"""Everything hit in a visit, club by club, and what was tried for each slot against what.

Values only: `sessions.selectors.evidence` fills them from the rows.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from uuid import UUID

from sessions.maths.carry_line import CarryLine
from sessions.maths.drift import Drift
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.club_evidence import (
    Baseline,
    ClubEvidence,
    Margins,
    OwnClub,
    SituationFigures,
)
from sessions.rules.judgements import ALL_ON, Off, Said
from sessions.rules.played_now import played_now
from sessions.rules.stopping import StopLimits, stops_words
from sessions.rules.verdicts import Pair, Shot, compared, comparisons_of, shown_of

# How far the club played now may be from a slot's loft to stand for it. A judgement of ours.
NEAR_ENOUGH_DEG = Decimal(4)


@dataclass(frozen=True)
class SlotEvidence:
    """A slot of the plan: what was tried for it, against what, and how they compare.

    `own` is the club played now, hit or not; `against` is the club that all others are held
    against: the one played now if it was hit, else the leader.
    """

    slot: int | None
    candidates: tuple[ClubEvidence, ...]
    own: ClubEvidence | None
    pairs: tuple[Pair, ...]
    against: ClubEvidence | None = None
    planned_carry_m: float | None = None
    off: Off = ALL_ON
    stop_limits: StopLimits | None = None

    def stops(
        self, club: ClubEvidence, there: SituationFigures, unit: DistanceUnit
    ) -> tuple[Said, ...]:
        """Whether the club's full shots stop, where they are hit from and at what."""
        if self.stop_limits is None:
            return ()
        return stops_words(club, there, self.stop_limits, unit, self.off)

    def pairs_of(self, club: ClubEvidence) -> tuple[Pair, ...]:
        return tuple(pair for pair in self.pairs if pair.candidate.key == club.key)

    def pairs_with(self, club: ClubEvidence) -> tuple[Pair, ...]:
        """Every pair that the club stands in, on either side: the leader is held against too."""
        return tuple(
            pair for pair in self.pairs if club.key in (pair.candidate.key, pair.against.key)
        )

    def fairness(self, club: ClubEvidence) -> tuple[tuple[Said, ...], tuple[Said, ...]]:
        """(what made every comparison of the club unfair, what to bear in mind).

        Where one was fair, what made another unfair is to be borne in mind too.
        """
        pairs = self.pairs_with(club)
        unfair = dict.fromkeys(said for pair in pairs for said in pair.unfair)
        fair = [pair for pair in pairs if not pair.unfair]
        if not fair:
            return tuple(unfair), ()
        cautions = dict.fromkeys(said for pair in fair for said in pair.cautions)
        for pair in pairs:
            if pair.unfair:
                other = pair.against if pair.candidate.key == club.key else pair.candidate
                cautions |= dict.fromkeys(
                    Said(f"Not against {other.name}: {said}", said.rule_id) for said in pair.unfair
                )
        return (), tuple(cautions)

    @property
    def played(self) -> tuple[ClubEvidence, ...]:
        return (*((self.own,) if self.own else ()), *self.candidates)

    @property
    def own_was_not_hit(self) -> str:
        """Why nothing is held against the club played now, where it was not hit."""
        if self.own is None or self.own.shots or not any(c.shots for c in self.candidates):
            return ""
        instead = "" if self.against is None else f" The others are held against {_the(self)}."
        return f"Nothing was hit with {self.own.name}, so nothing is held against it.{instead}"


def _the(there: SlotEvidence) -> str:
    return "" if there.against is None else there.against.name


@dataclass(frozen=True)
class VisitEvidence:
    """Everything hit in a visit, by club in the order of the hour.

    `owned` are the own wedges; `off` the ids of the judgements that the shop has switched off.
    """

    clubs: tuple[ClubEvidence, ...]
    margins: Margins
    baseline: Baseline | None = None
    no_baseline_because: str = ""
    left_out_of_line: tuple[str, ...] = ()
    line: CarryLine | None = None
    planned_lofts_deg: Mapping[int, Decimal] = field(default_factory=dict)
    planned_clubs: Mapping[int, UUID] = field(default_factory=dict)
    planned_carries_m: Mapping[int, float] = field(default_factory=dict)
    owned: tuple[OwnClub, ...] = ()
    drift: Drift | None = None
    near_enough_deg: Decimal = NEAR_ENOUGH_DEG
    off: Off = ALL_ON
    stop_limits: StopLimits | None = None

    def club_of(self, trial_id: UUID) -> ClubEvidence | None:
        return next((club for club in self.clubs if trial_id in club.trial_ids), None)

    def slots(self) -> tuple[int, ...]:
        """Slots of the plan, and those somebody tried a club for."""
        tried = {club.slot for club in self.clubs if club.slot is not None}
        return tuple(sorted(tried | set(self.planned_lofts_deg)))

    def slot(self, slot: int | None) -> SlotEvidence:
        """What speaks in one slot; `None` takes the candidates that were tried for no slot."""
        candidates, own, against = self._held_against(slot)
        pairs: tuple[Pair, ...] = ()
        if against is not None:
            pairs = compared(
                candidates,
                against,
                self.margins,
                everyone=self.clubs,
                is_leader=against is not own,
                elsewhere=self._elsewhere(slot),
                off=self.off,
            )
        return SlotEvidence(
            slot,
            candidates,
            own,
            pairs,
            against,
            self._planned_carry_m(slot),
            self.off,
            self.stop_limits,
        )

    def between(self, slot: int, chosen: ClubEvidence, against: ClubEvidence) -> tuple[Pair, ...]:
        """Two clubs of a slot that the page doesn't hold against each other.

        Any pair of the slot's clubs might be picked so: they share one chance of a false call.
        """
        candidates, own, _ = self._held_against(slot)
        clubs = {club.key: club for club in (own, *candidates, chosen) if club is not None}
        pairs = compared(
            tuple(clubs.values()),
            against,
            self.margins,
            everyone=self.clubs,
            is_leader=True,
            elsewhere=self._elsewhere(slot),
            off=self.off,
        )
        return tuple(pair for pair in pairs if pair.candidate.key == chosen.key)

    def _held_against(
        self, slot: int | None
    ) -> tuple[tuple[ClubEvidence, ...], ClubEvidence | None, ClubEvidence | None]:
        """The candidates of a slot, the club played now, and the one they are held against."""
        candidates = self._candidates(slot)
        own = self._played_now(slot, candidates)
        if own is not None and own.shots:
            return candidates, own, own
        return candidates, own, _leader(candidates, self._planned_carry_m(slot))

    def _elsewhere(self, slot: int | None) -> Counter[Shot]:
        """The comparisons of the other slots, by shot: one visit shares one chance of a false
        call for each measure."""
        found: Counter[Shot] = Counter()
        for other in {*self.slots(), None} - {slot}:
            candidates, own, against = self._held_against(other)
            if against is None:
                continue
            for shot, number in comparisons_of(candidates, against).items():
                found[shot] += shown_of(number, is_leader=against is not own)
        return found

    def _planned_carry_m(self, slot: int | None) -> float | None:
        """As the plan foretold it when it was chosen; else as the line has it for the loft."""
        if slot is not None and slot in self.planned_carries_m:
            return self.planned_carries_m[slot]
        loft = None if slot is None else self.planned_lofts_deg.get(slot)
        return None if loft is None or self.line is None else self.line.at(float(loft)).carry_m

    def slot_of(self, club: ClubEvidence) -> int | None:
        """The slot it was tried for; without one the slot planned nearest to its loft."""
        if club.slot is not None or club.loft_deg is None or not self.planned_lofts_deg:
            return club.slot
        apart = {s: abs(loft - club.loft_deg) for s, loft in self.planned_lofts_deg.items()}
        nearest = min(apart, key=lambda slot: (apart[slot], slot))
        return nearest if apart[nearest] <= self.near_enough_deg else None

    def played_now(self, slot: int | None) -> ClubEvidence | None:
        """The club that the player has for this slot today, hit or not."""
        return self._played_now(slot, self._candidates(slot))

    def _candidates(self, slot: int | None) -> tuple[ClubEvidence, ...]:
        return tuple(c for c in self.clubs if not c.is_own and self.slot_of(c) == slot)

    def _played_now(
        self, slot: int | None, candidates: Sequence[ClubEvidence]
    ) -> ClubEvidence | None:
        """By the loft planned for the slot; without a plan by that of the first club tried."""
        wedges = {club.club_id: club for club in self.owned}
        for club in self.clubs:
            if club.is_own and club.club_id is not None and club.club_id not in wedges:
                wedges[club.club_id] = OwnClub(club.club_id, club.name, club.loft_deg)
        wanted = None if slot is None else self.planned_lofts_deg.get(slot)
        if wanted is None:
            wanted = next((c.loft_deg for c in candidates if c.loft_deg is not None), None)
        tried = (c.club_id for c in self.clubs if c.is_own and slot is not None and c.slot == slot)
        found = played_now(
            tuple(wedges.values()),
            kept=None if slot is None else self.planned_clubs.get(slot),
            wanted_deg=wanted,
            near_enough_deg=self.near_enough_deg,
            baseline=self.baseline.club_id if self.baseline else None,
            hit_for_it=next(tried, None),
        )
        return None if found is None else self._own(wedges[found])

    def _own(self, club: OwnClub) -> ClubEvidence:
        """What was hit with it, or that nothing was."""
        hit = next((c for c in self.clubs if c.club_id == club.club_id), None)
        if hit is not None:
            return hit
        return ClubEvidence(
            key=f"own {club.club_id}",
            trial_ids=(),
            name=club.name,
            is_own=True,
            club_id=club.club_id,
            loft_deg=club.loft_deg,
        )


def _leader(
    candidates: Sequence[ClubEvidence], planned_carry_m: float | None
) -> ClubEvidence | None:
    """The candidate whose full swings carry nearest to the plan; without one, the first hit."""
    hit = [club for club in candidates if club.shots]
    if planned_carry_m is not None:
        full = [
            (abs(there.figures.carry.mean - planned_carry_m), index, club)
            for index, club in enumerate(hit)
            if (there := club.full_stock()) is not None and there.figures.carry is not None
        ]
        if full:
            return min(full)[2]
    return hit[0] if hit else None
