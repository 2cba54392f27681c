"""The bench's steps and the dry swing weight from a club's parts, reckoned by hand."""

from dataclasses import replace
from decimal import Decimal

import pytest

from orders.rules.bench_steps import Work
from orders.rules.dry_weight import DryParts, dry_weight, weight_words

# An even shaft: 100 g over 1000 mm, so 855 mm of it weigh 85.5 g with their centre in the middle.
PARTS = DryParts(
    length_mm=Decimal(889),
    head_g=Decimal(300),
    bore_to_ground_mm=Decimal(30),
    shaft_g=Decimal(100),
    shaft_raw_mm=Decimal(1000),
    shaft_balance_mm=Decimal(500),
    tip_trim_mm=Decimal(0),
    grip_g=Decimal(50),
    grip_length_mm=Decimal(250),
    cap_mm=Decimal(4),
)


def forecast(parts=PARTS, target=Decimal(2), most=Decimal(9)):
    return dry_weight(parts, target_points=target, most_added_g=most)


def test_the_parts_balance_as_by_hand():
    """Moments about 355.6 mm [g mm]: head 300 x 533.4, shaft 85.5 x 75.9, grip 50 x -255.6:
    153,729.45, that is 213.490 in-oz or 0.0057 points below D0 (213.5)."""
    assert forecast().points == pytest.approx(-0.0057, abs=0.0005)


def test_the_weight_to_add_is_by_hand_too():
    """3.510 in-oz are missing to D2, at 859 mm, 503.4 mm below the fulcrum: 5.02 g."""
    assert forecast().added.mass_g == pytest.approx(5.02, abs=0.01)
    assert weight_words(forecast().added) == "about 5 g"


def test_a_target_out_of_reach_says_what_can_be_reached():
    words = weight_words(forecast(target=Decimal(6)).added)
    assert words.startswith("D3.6 is the most with 9 g: change a part")


def test_a_head_too_heavy_gets_nothing_added():
    words = weight_words(forecast(target=Decimal(-3)).added)
    assert words.startswith("D0 with nothing added")


@pytest.mark.parametrize(
    "missing", ["head_g", "bore_to_ground_mm", "shaft_balance_mm", "grip_length_mm", "cap_mm"]
)
def test_with_one_figure_unknown_nothing_is_made_up(missing):
    assert forecast(replace(PARTS, **{missing: None})) is None


def test_an_own_club_that_is_only_bent_needs_no_glue():
    work = Work(is_glued=False, is_gripped=False, is_stamped=False)
    assert work.steps == ("picked", "bare_head", "bent_built", "measured", "cleaned")


def test_what_comes_before_must_be_done():
    work = Work(is_glued=True, is_gripped=True, is_stamped=False)
    assert work.missing_before("hosel", {"picked", "bare_head"}) == ("bent_bare",)
    assert work.next_step({"picked"}) == "bare_head"
