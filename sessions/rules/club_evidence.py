"""What was hit with one club, situation by situation, and the pitching wedge it starts from.

Values only: `sessions.selectors.evidence` fills them from the rows. Shots left out count in
nothing, warm-up likewise; a bad strike is counted.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import NamedTuple
from uuid import UUID

from sessions.maths.block_context import BlockContext
from sessions.maths.carry_line import ClubOnLine
from sessions.maths.dispersion import BlockFigures, Proximity, ShotFigures, Spread
from sessions.maths.shown import show_distance
from sessions.maths.unit_factors import DistanceUnit
from sessions.rules.facts import Evidence
from sessions.rules.wording import listed

# Mats forgive, and a tee peg meets no turf at all: neither tests a sole. Common practice.
NO_TURF = frozenset({"mat", "tee"})
NOBODYS = ClubOnLine()


@dataclass(frozen=True)
class Situation:
    """Where and how balls were hit: stored words, and `swing_label` and `from_label` as read.

    `ground` is "" where it is normal; it sets two situations apart and is said only of ratings.
    """

    swing: str
    swing_label: str
    hit_from: str
    from_label: str
    target_m: float | None = None
    extra: tuple[str, ...] = ()
    ground: str = ""

    @property
    def is_on_turf(self) -> bool:
        return self.hit_from not in NO_TURF

    def words(self, unit: DistanceUnit) -> str:
        """`Full from fairway`, `Pitch at 30 yd from rough, wet`."""
        at = "" if self.target_m is None else f" at {show_distance(self.target_m, unit)}"
        more = "".join(f", {word}" for word in self.extra)
        return f"{self.swing_label}{at} from {self.from_label}{more}"

    def full_words(self, unit: DistanceUnit) -> str:
        """`Full from fairway, soft ground`: with the ground where it isn't normal."""
        return self.words(unit) + (f", {self.ground} ground" if self.ground else "")


class Asked(NamedTuple):
    """What a score answers: the question, the round, and the situation it was given in.

    The round is "" outside comparisons. `situation` is None where it isn't known.
    """

    about: str
    round: str = ""
    situation: Situation | None = None


@dataclass(frozen=True)
class SituationFigures:
    """One club in one situation: everything counted, and the values the verdicts are judged on.

    `carries_m` and the tuples like it are what counts in the mean; `shots` is every ball, for a
    picture. `distances_m` are from the target, where there is one. `order` are the places of the
    balls in the visit, empty where they are not all known; `carries_in_order` leaves out the balls
    whose place is not known.
    """

    situation: Situation
    context: BlockContext
    figures: BlockFigures
    shots: tuple[ShotFigures, ...]
    carries_m: tuple[float, ...]
    sides_m: tuple[float, ...]
    turf: Mapping[str, int]
    spin: Spread | None = None
    block_ids: tuple[UUID, ...] = ()
    distances_m: tuple[float, ...] = ()
    launches_deg: tuple[float, ...] = ()
    spins_rpm: tuple[float, ...] = ()
    landings_deg: tuple[float, ...] = ()
    ball_speeds_ms: tuple[float, ...] = ()
    order: tuple[int, ...] = ()
    carries_in_order: tuple[tuple[int, float], ...] = ()
    spin_got: str = ""
    near: Proximity | None = None
    # Whether its figures are as flown was answered after the balls were hit.
    is_figures_answered_later: bool = False

    @property
    def bad_strikes(self) -> int:
        return sum(self.figures.strikes.values())

    @property
    def removed(self) -> int:
        """Balls that count in no mean: misreads, and those that were left out of it."""
        return self.figures.misreads + self.figures.left_out_of_mean


@dataclass(frozen=True)
class OwnClub:
    """A wedge of the player's as the bag has it, hit in this visit or not."""

    club_id: UUID
    name: str
    loft_deg: Decimal | None


@dataclass(frozen=True)
class ClubEvidence:
    """One club as it was played in a visit. In a running comparison `name` is a number only."""

    key: str
    trial_ids: tuple[UUID, ...]
    name: str
    is_own: bool
    club_id: UUID | None = None
    slot: int | None = None
    role: str = ""
    is_hidden: bool = False
    loft_deg: Decimal | None = None
    stamped_loft_deg: Decimal | None = None
    loft_words: str = ""
    bounce_words: str = ""
    sole_words: str = ""
    grooves: str = ""
    situations: tuple[SituationFigures, ...] = ()
    # What the player said of it. One person's, and ordinal.
    ratings: Mapping[Asked, int] = field(default_factory=dict)
    # Whose offsets it has on the line of carry: the head's and the shaft's, or the own club's.
    on_line: ClubOnLine = NOBODYS
    # How balls must be hit to be held against those of other clubs, the first counting most.
    pool: tuple[BlockContext, ...] = ()

    @property
    def trial_id(self) -> UUID:
        """The trial that stands for the club: its last one."""
        return self.trial_ids[-1]

    @property
    def label(self) -> str:
        """As short as a chart allows: its loft, with the stamp where they differ."""
        return self.name if self.is_hidden or not self.loft_words else self.loft_words

    @property
    def shots(self) -> int:
        return sum(each.figures.shots for each in self.situations)

    @property
    def is_tested_on_turf(self) -> bool | None:
        """None where nothing was hit."""
        if not self.shots:
            return None
        return any(each.situation.is_on_turf for each in self.situations if each.figures.shots)

    @property
    def strikes(self) -> dict[str, int]:
        return _summed(each.figures.strikes for each in self.situations)

    @property
    def turf(self) -> dict[str, int]:
        return _summed(each.turf for each in self.situations)

    def full_stock(self) -> SituationFigures | None:
        """The full stock swings that are held against other clubs' and the plan.

        Those hit most like the visit's pool, as a verdict pairs them; of equals most balls.
        """
        full = [s for s in self.situations if s.situation.swing == "full" and s.carries_m]
        return min(
            full,
            key=lambda s: (*(len(not_alike(s.context, p)) for p in self.pool), -len(s.carries_m)),
            default=None,
        )

    def full_apart(self) -> tuple[str, ...]:
        """How the full swings shown were hit otherwise than the pool, in words: `wet`, `mat`."""
        full = self.full_stock()
        if full is None or not self.pool:
            return ()
        return tuple(
            getattr(full.context, field) or f"{field.replace('_', ' ')} not noted"
            for field in not_alike(full.context, self.pool[0])
        )

    def is_off_plans_pool(self, there: SituationFigures) -> bool:
        """Whether balls were hit so that the plan's carry doesn't speak of them."""
        if not self.pool:
            return False
        return bool(set(not_alike(there.context, self.pool[0])) - NOT_IN_A_PLAN)

    def for_spec(self) -> Evidence:
        """What the spec's rules ask of the evidence."""
        tried = dict.fromkeys(s.situation.swing_label for s in self.situations if s.figures.shots)
        return Evidence(self.shots, self.is_tested_on_turf, tuple(tried))


@dataclass(frozen=True)
class Baseline:
    """The pitching wedge that stays. `carry` is None where the carry is only said, not hit."""

    club_id: UUID | None
    name: str
    loft_deg: Decimal
    is_loft_measured: bool
    carry_m: float
    carry: Spread | None
    stamped_loft_deg: Decimal | None = None

    @property
    def balls(self) -> int:
        return 0 if self.carry is None else self.carry.n


@dataclass(frozen=True)
class Margins:
    """What a difference must be at least, and how many balls it may take (shop settings)."""

    carry_m: float
    side_m: float
    least_balls: int
    most_more_balls: int
    spread_share: float = 0.25
    proximity_m: float = 1.0
    launch_deg: float = 1.5
    spin_rpm: float = 600.0
    landing_deg: float = 2.0
    strikes_share: float = 0.15
    ratings_share: float = 0.20


# What has to be the same for carries of two clubs to be held against each other, as in a verdict.
_ALIKE_IN = ("face", "wet", "ball", "device", "figures", "carry_got", "surface", "ground")
# The line of carry by loft takes balls from every surface: they hardly move a full swing's carry.
NOT_IN_A_PLAN = frozenset({"surface", "ground"})


def not_alike(one: BlockContext, other: BlockContext) -> tuple[str, ...]:
    """The fields in which two contexts differ; a thing that only one notes is a difference."""
    return tuple(field for field in _ALIKE_IN if getattr(one, field) != getattr(other, field))


def counts_words(counts: Mapping[str, int]) -> str:
    """`fat 2 and thin 1`, in the order given; nothing for none."""
    return listed([f"{word} {number}" for word, number in counts.items() if number])


def _summed(counts: Iterable[Mapping[str, int]]) -> dict[str, int]:
    total: dict[str, int] = {}
    for each in counts:
        for word, number in each.items():
            total[word] = total.get(word, 0) + number
    return total
