"""What a change does, the trial club without its adapter, the bench ruler: reckoned by hand."""

from dataclasses import replace
from decimal import Decimal as D

import pytest

from sessions.rules.as_tried import TriedClub, as_tried
from sessions.rules.dry_weight import DryParts
from sessions.rules.what_changes import change_table, up_or_down
from tests.rules.spec_examples import LIMITS

# An even shaft: 100 g over 1000 mm, cut to 855 mm (85.5 g), its centre 431.5 mm from the cap.
PARTS = DryParts(
    length_mm=D(889),
    head_g=D(300),
    bore_to_ground_mm=D(30),
    shaft_g=D(100),
    shaft_raw_mm=D(1000),
    shaft_balance_mm=D(500),
    tip_trim_mm=D(0),
    grip_g=D(50),
    grip_length_mm=D(250),
    cap_mm=D(4),
)

FIXINGS = LIMITS.fixings()

# Its bore ends 895.35 - 31.75 = 863.6 mm from the butt: 34 in, 20 in below the fulcrum. A point is
# 1.75 x 28.3495 = 49.612 g in, so 9 g there are 180 / 49.612 = 3.63 points; to half a point, 3.5.
TRIED = TriedClub(
    adapter_g=D(9),
    swing_weight_points=D(4),
    mass_g=D(471),
    length_mm=D("895.35"),
    bore_to_ground_mm=D("31.75"),
    target_points=D(4),
    target_mass_g=None,
)


def said(**changes) -> str:
    return " ".join(as_tried(replace(TRIED, **changes)))


def test_each_change_stands_beside_its_rule_of_thumb():
    """A point is 49.612 g in. Head 21 in below the fulcrum: 2.36 g a point, 2 g are 0.85. Shaft
    16.988 - 14 = 2.988 in: 16.6 g a point, 9 g are 0.54. Grip 100 mm, 10.063 in above: 4.93 g a
    point, 5 g are 1.01 less. Half an inch: head 150 g in, shaft 86.77 x 3.233 - 85.5 x 2.988 =
    25.05 g in, 3 g of ferrule and epoxy 1.5 g in, the tape stays; 176.55 / 49.612 = 3.56 points."""
    rows = change_table(PARTS, FIXINGS).rows
    assert [(r.change, r.this_club, r.for_a_point, r.rule_of_thumb) for r in rows] == [
        ("2 g more head", "up 0.8 points", "2.4 g for a point", "up 1 point"),
        ("9 g more shaft", "up 0.5 points", "16.6 g for a point", "up 1 point"),
        ("5 g more grip", "down 1 point", "4.9 g for a point", "down 1 point"),
        ("half an inch longer", "up 3.6 points", "", "up 3 points"),
    ]


@pytest.mark.parametrize(
    ("missing", "words"),
    [
        ("head_g", "the head's mass is not known."),
        ("bore_to_ground_mm", "the head's bore to the ground is not known."),
        ("shaft_g", "the shaft's mass is not known."),
        ("shaft_raw_mm", "the shaft's uncut length is not known."),
        ("shaft_balance_mm", "the shaft's balance point is not known."),
        ("grip_g", "the grip's mass is not known."),
        ("grip_length_mm", "the grip's length is not known."),
        ("cap_mm", "the grip's cap is not known."),
    ],
)
def test_what_is_missing_is_named_and_no_empty_table_stands(missing, words):
    table = change_table(replace(PARTS, **{missing: None}), FIXINGS)
    assert (table.rows, table.missing) == ((), f"Not worked out: {words}")


def test_two_things_missing_are_both_named():
    table = change_table(replace(PARTS, shaft_balance_mm=None, grip_g=None), FIXINGS)
    assert table.missing == (
        "Not worked out: the shaft's balance point and the grip's mass are not known."
    )


def test_a_shaft_too_short_is_said():
    table = change_table(replace(PARTS, shaft_raw_mm=D(854)), FIXINGS)
    assert table.missing == "Not worked out: the shaft is too short for this length."


@pytest.mark.parametrize(
    ("points", "words"),
    [(1.04, "up 1 point"), (-0.96, "down 1 point"), (1.3, "up 1.3 points"), (0.04, "no change")],
)
def test_points_are_up_or_down(points, words):
    assert up_or_down(points) == words


def test_the_trial_club_is_said_with_its_adapter_and_without():
    """D4 less 3.63 points is 0.37 above D0, about D0.5; 471 g less 9 g."""
    assert said() == (
        "As tried, with its 9 g adapter: D4 and 471 g. Without it about D0.5 and 462 g. "
        "The target stays what was felt: the bench makes up for the adapter with the head or in "
        "the hosel. To have the club without that weight, ask for about D0.5."
    )


def test_a_target_without_the_adapter_is_said_to_be_lighter_than_what_was_felt():
    assert "The target D0.5 is the club without its adapter: lighter" in said(
        target_points=D("0.5")
    )
    # 0.37 + 0.5 = 0.87: a tenth of a point more is a target of its own.
    assert "The target D0.8 is the club without its adapter" in said(target_points=D("0.8"))
    assert "The target D0.9 is 3.1 points below what was felt." in said(target_points=D("0.9"))
    assert "The target D5 is 1 point above what was felt." in said(target_points=D(5))


def test_a_swing_weight_not_read_leaves_what_the_adapter_counts_for():
    assert said(swing_weight_points=None) == (
        "As tried, with its 9 g adapter: 471 g, swing weight not read. Without it 462 g and about "
        "3.5 points less. Read the trial club on the scale, adapter and all, to hold the target "
        "D4 against what was felt."
    )
    assert said(swing_weight_points=None, mass_g=None).startswith(
        "As tried, with its 9 g adapter: swing weight not read. Without it about 3.5 points less."
    )


def test_a_club_not_weighed_or_not_measured_says_so():
    assert said(mass_g=None).startswith(
        "As tried, with its 9 g adapter: D4, the whole club not weighed. Without it about D0.5."
    )
    assert said(length_mm=None) == (
        "As tried, with its 9 g adapter: D4 and 471 g. Without it 462 g; its length is not known."
    )


def test_no_target_and_no_adapter_are_said():
    assert said(target_points=None).endswith(
        "No swing weight is asked for: with the same parts it comes out about 3.5 points lighter "
        "in the head than what was felt."
    )
    assert said(adapter_g=None) == (
        "No adapter was written down with this trial club; if it had one, its weight was felt too."
    )


def test_an_adapters_weight_in_the_mass_that_is_asked_for_is_said():
    """462 g without it; half the adapter over that, 466.5 g, is the last that says nothing."""
    assert "471 g: the adapter's 9 g are in that." in said(target_mass_g=D(471))
    assert "466.6 g: the adapter's" in said(target_mass_g=D("466.6"))
    assert "are in that" not in said(target_mass_g=D("466.5"))
