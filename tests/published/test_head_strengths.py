"""Strengths against the printed abilities of seven baseball teams."""

import pytest

from sessions.maths.head_strengths import head_strengths

TEAMS = ("MIL", "DET", "TOR", "NY", "BOS", "CLE", "BAL")
# Games won by the row's team against the column's; thirteen a pair.
WON = (
    (0, 7, 9, 7, 7, 9, 11),
    (6, 0, 7, 5, 11, 9, 9),
    (4, 6, 0, 7, 7, 8, 12),
    (6, 8, 6, 0, 6, 7, 10),
    (6, 2, 6, 7, 0, 7, 12),
    (4, 4, 5, 6, 6, 0, 6),
    (2, 4, 1, 3, 1, 7, 0),
)


@pytest.mark.published(
    key="bradley-terry",
    locator="table 10.11, abilities against Baltimore",
    value="1.58, 1.44, 1.29, 1.25, 1.11, 0.68, 0",
)
def test_the_abilities_of_seven_teams() -> None:
    told = [
        (one, other)
        for one, row in zip(TEAMS, WON, strict=True)
        for other, won in zip(TEAMS, row, strict=True)
        for _ in range(won)
    ]
    # Next to no belief: the printed estimates are the likeliest ones.
    found = head_strengths(TEAMS, told, prior_sd=1000.0)
    strengths = {head.head_id: head.strength - _of(found, "BAL") for head in found.heads}
    printed = {"MIL": 1.58, "DET": 1.44, "TOR": 1.29, "NY": 1.25, "BOS": 1.11, "CLE": 0.68}
    for team, ability in printed.items():
        assert strengths[team] == pytest.approx(ability, abs=0.005)


def _of(found, team: str) -> float:
    return next(head.strength for head in found.heads if head.head_id == team)
