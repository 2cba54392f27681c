"""What a comparison tells: what spoils its blindness, and once it is revealed club by club.

Nothing here names a club before the reveal: `reveal_rows` is asked only after it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from uuid import UUID

from sessions.maths.dispersion import spread
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import Comparison, Rating, Shot, Trial
from sessions.rules.blindness import Looks, Spoiler, spoilers
from sessions.rules.club_evidence import Situation, SituationFigures, counts_words
from sessions.rules.likeness import held_words
from sessions.selectors.capture_words import Document, as_text, distance_shown
from sessions.selectors.likeness import likeness
from sessions.selectors.situations import situation_of, situations_of


def spoilers_of(trials: Sequence[Trial], *, covered: bool) -> tuple[Spoiler, ...]:
    """What spoils the blindness of these clubs, as they were when they were handed over."""
    looks = [Looks(trial.finish, trial.grip_name, trial.shaft_name) for trial in trials]
    return spoilers(looks, covered=covered)


def held_of(trials: Sequence[Trial]) -> str:
    """What a comparison held the same in all its clubs. The unit shows in no word of it."""
    return held_words([likeness(one, trials[0], "", "mm") for one in trials[1:]])


def is_again(rating: Rating) -> bool:
    """Whether it was said of the first club when it came again. Read `comparison` along."""
    order = [] if rating.comparison is None else rating.comparison.order
    return rating.turn is not None and len(order) > 1 and rating.turn == len(order) - 1


def rated_document(rating: Rating, unit: DistanceUnit) -> Document:
    """One rating with the turn and the situation it was given in; "" where it isn't known."""
    return {
        "id": str(rating.pk),
        "about": rating.about,
        "score": rating.score,
        "turn": rating.turn,
        "swing": rating.swing,
        "target": as_text(distance_shown(rating.target_m, unit)) or "",
        "hit_from": rating.hit_from,
        "ground": rating.ground,
        "wetness": rating.wetness,
        "face": rating.face,
    }


def reveal_rows(
    comparison: Comparison, trial: Trial, ratings: Sequence[Rating], unit: DistanceUnit
) -> list[Document]:
    """One club's rows of the reveal: what was hit and said under its number, by situation.

    Only balls between the draw and the reveal, and ratings before it. The last word of a question
    counts; what was said when the first club came again stands beside it as `again`.
    """
    scores = _scores(comparison, ratings)
    rows = []
    for there in situations_of([trial], "", {}, lambda shot: _is_under_number(shot, comparison)):
        if there.figures.shots or there.figures.misreads:
            rows.append(_row(there.situation, there, scores.pop(there.situation, {}), unit))
    rows += [_row(situation, None, said, unit) for situation, said in scores.items()]
    return rows


def _is_under_number(shot: Shot, comparison: Comparison) -> bool:
    until = comparison.revealed_at
    return shot.sequence > comparison.sequence and (until is None or shot.recorded_at <= until)


Scores = Mapping[str, Mapping[str, int]]


def _scores(
    comparison: Comparison, ratings: Sequence[Rating]
) -> dict[Situation | None, dict[str, dict[str, int]]]:
    last = len(comparison.order) - 1
    found: dict[Situation | None, dict[str, dict[str, int]]] = {}
    for rating in sorted(ratings, key=lambda one: one.sequence):
        if rating.before_reveal:
            when = "again" if rating.turn == last else "first"
            where = situation_of(rating) if rating.swing else None
            found.setdefault(where, {}).setdefault(rating.about, {})[when] = rating.score
    return found


def _row(
    situation: Situation | None,
    there: SituationFigures | None,
    said: Scores,
    unit: DistanceUnit,
) -> Document:
    carry = None if there is None else spread(there.carries_m)
    return {
        "situation": "" if situation is None else situation.full_words(unit),
        "balls": 0 if there is None else there.figures.shots,
        "in_mean": 0 if carry is None else carry.n,
        "carry": None if carry is None else distance_shown(carry.mean, unit, decimals=4),
        "spread": None if carry is None else distance_shown(carry.sd, unit, decimals=4),
        "strikes": "" if there is None else counts_words(there.figures.strikes),
        "turf": "" if there is None else counts_words(Counter(there.turf)),
        "ratings": said,
    }


def ratings_by_trial(comparison: Comparison) -> dict[UUID, list[Rating]]:
    """A comparison's ratings by trial, in the order in which they were given."""
    found: dict[UUID, list[Rating]] = {}
    for rating in sorted(comparison.ratings.all(), key=lambda one: one.sequence):
        found.setdefault(rating.trial_id, []).append(rating)
    return found
