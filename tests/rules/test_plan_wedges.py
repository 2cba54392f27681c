"""How many wedges a plan begins with: as a person said, as suggested, as the bag holds, three."""

from decimal import Decimal

import pytest

from sessions.rules.plan_wedges import wedges_said, wedges_to_plan
from sessions.rules.slot_suggestions import Suggestion, Topic, Weight

THREE = Suggestion(Topic.WEDGES, "3", "Steps.", Weight.LEANING, Decimal(3), Decimal(3), "TRY-W04")
NONE = Suggestion(Topic.WEDGES, "not suggested yet", "No loft.", Weight.OPEN)


@pytest.mark.parametrize(
    ("text", "count"),
    [("2", 2), ("Two, the hybrid stays", 2), ("FOUR", 4), ("", None), ("5", None), ("0", None),
     ("2 or 3", None), ("none", None), ("someone", None), ("12", None), ("2 of 5", None),
     ("one less", None), ("Not four", None), ("0 or 2", None), (" 3 wedges", 3), ("4.", 4)],
)  # fmt: skip
def test_a_number_is_read_only_where_there_is_one(text, count):
    assert wedges_said(text) == count


@pytest.mark.parametrize(
    ("suggested", "overruled", "in_bag", "must_stay", "count", "why"),
    [
        (THREE, "2", 4, 0, 2, "Overruled on First clubs by Mara: a full bag."),
        (THREE, "", 4, 0, 3, "Steps."),
        (THREE, "", 4, 3, 3, "Steps."),
        (THREE, "a few", 4, 0, 3, "Overruled by words that hold no number: a few. Steps."),
        (NONE, "", 2, 0, 2, "As many as in the bag now."),
        (NONE, "", 6, 0, 4, "As many as in the bag now."),
        (NONE, "", 0, 0, 3, "As most players have."),
        (THREE, "1", 3, 2, 2, "Overruled on First clubs by Mara: a full bag. But 2 are to stay."),
        (THREE, "", 6, 5, 4, "Steps. But 5 are to stay. 4 are the most."),
    ],
)
def test_who_says_how_many(suggested, overruled, in_bag, must_stay, count, why):
    found = wedges_to_plan(
        suggested, overruled=overruled, overruled_why="Mara: a full bag",
        in_bag=in_bag, must_stay=must_stay,
    )  # fmt: skip
    assert (found.count, found.why) == (count, why)
    assert found.why.rule_id == ("TRY-W04" if "Steps." in why else "")
