"""Everything hit in a visit, club by club, and what was tried for each slot against what.

Values only: `sessions.selectors.evidence` fills them from the rows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from uuid import UUID

from sessions.maths.carry_line import CarryLine
from sessions.rules.club_evidence import Baseline, ClubEvidence, Margins
from sessions.rules.verdicts import Pair, compared

# How far the club played now may be from a slot's loft to stand for it. A judgement of ours.
NEAR_ENOUGH_DEG = Decimal(4)


@dataclass(frozen=True)
class SlotEvidence:
    """A slot of the plan: what was tried for it, against what, and how they compare."""

    slot: int | None
    candidates: tuple[ClubEvidence, ...]
    own: ClubEvidence | None
    pairs: tuple[Pair, ...]

    def pairs_of(self, club: ClubEvidence) -> tuple[Pair, ...]:
        return tuple(pair for pair in self.pairs if pair.candidate.key == club.key)

    @property
    def played(self) -> tuple[ClubEvidence, ...]:
        return (*((self.own,) if self.own else ()), *self.candidates)


@dataclass(frozen=True)
class VisitEvidence:
    """Everything hit in a visit, by club in the order of the hour."""

    clubs: tuple[ClubEvidence, ...]
    margins: Margins
    baseline: Baseline | None = None
    no_baseline_because: str = ""
    line: CarryLine | None = None
    planned_lofts_deg: Mapping[int, Decimal] = field(default_factory=dict)

    def club_of(self, trial_id: UUID) -> ClubEvidence | None:
        return next((club for club in self.clubs if trial_id in club.trial_ids), None)

    def slots(self) -> tuple[int, ...]:
        """Slots of the plan, and those somebody tried a club for."""
        tried = {club.slot for club in self.clubs if club.slot is not None}
        return tuple(sorted(tried | set(self.planned_lofts_deg)))

    def slot(self, slot: int | None) -> SlotEvidence:
        """What speaks in one slot; `None` takes the candidates that were tried for no slot."""
        candidates = tuple(c for c in self.clubs if not c.is_own and self._slot_of(c) == slot)
        own = self._played_now(slot, candidates)
        against = own or next((c for c in candidates if c.shots), None)
        pairs = () if against is None else compared(candidates, against, self.margins)
        return SlotEvidence(slot, candidates, own, pairs)

    def _slot_of(self, club: ClubEvidence) -> int | None:
        """The slot it was tried for; without one the slot planned nearest to its loft."""
        if club.slot is not None or club.loft_deg is None or not self.planned_lofts_deg:
            return club.slot
        apart = {s: abs(loft - club.loft_deg) for s, loft in self.planned_lofts_deg.items()}
        nearest = min(apart, key=lambda slot: (apart[slot], slot))
        return nearest if apart[nearest] <= NEAR_ENOUGH_DEG else None

    def _played_now(
        self, slot: int | None, candidates: Sequence[ClubEvidence]
    ) -> ClubEvidence | None:
        """The own club said to be this slot's; else the nearest in loft, within four degrees."""
        owned = [club for club in self.clubs if club.is_own]
        for club in owned:
            if slot is not None and club.slot == slot:
                return club
        wanted = self.planned_lofts_deg.get(slot) if slot is not None else None
        if wanted is None:
            wanted = next((c.loft_deg for c in candidates if c.loft_deg is not None), None)
        if wanted is None:
            return None
        baseline = self.baseline.club_id if self.baseline else None
        near = [
            (abs(club.loft_deg - wanted), index)
            for index, club in enumerate(owned)
            if club.loft_deg is not None
            and club.club_id != baseline
            and abs(club.loft_deg - wanted) <= NEAR_ENOUGH_DEG
        ]
        return owned[min(near)[1]] if near else None
