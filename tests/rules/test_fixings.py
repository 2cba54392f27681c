"""Epoxy, ferrule and tape in a forecast, and what the finished club comes to: reckoned by hand."""

from dataclasses import replace
from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sessions.rules.dry_weight import (
    DryParts,
    DryWeight,
    Fixings,
    dry_club,
    dry_weight,
    epoxy_points,
    wants_ferrule,
)
from sessions.rules.finished_club import counted_words, finished_club
from tests.rules.spec_examples import EVEN, LIMITS

SHOPS = LIMITS.fixings()
NONE = replace(SHOPS, epoxy_g=D(0), ferrule_g=D(0), tape_g=D(0))
# A point is 1.75 oz in: 1.75 x 28.349523125 x 25.4 = 1,260.1363 g mm.
POINT_G_MM = 1260.1363


def forecast(
    fixings: Fixings = SHOPS, target: D | None = None, parts: DryParts = EVEN
) -> DryWeight:
    found = dry_weight(parts, fixings, target_points=target, most_added_g=D(9))
    assert found is not None
    return found


def test_the_whole_club_balances_as_by_hand() -> None:
    """Statics, moments about the fulcrum at 355.6 mm (14 in) [g mm]:

    head    300   g at 889     mm: 300   x  533.4   = 160,020
    shaft    85.5 g at 431.5   mm:  85.5 x   75.9   =   6,489.45
    grip     50   g at 100     mm:  50   x -255.6   = -12,780
    epoxy     2   g at 830.425 mm:   2   x  474.825 =     949.65
    ferrule   1   g at 830.425 mm:   1   x  474.825 =     474.825
    tape      2   g at 125     mm:   2   x -230.6   =    -461.2
                                                      154,692.725

    (889 - 30 - 28.575 = 830.425: the hosel's top. The grip is 250 mm long.) In ounce inches it is
    154,692.725 / (28.349523125 x 25.4) = 214.8278; (214.8278 - 213.5) / 1.75 = 0.7587 points above
    D0. Without the epoxy 0.7536 less: D0 and 0.0051.
    """
    found = forecast()
    assert found.points == pytest.approx(0.7587, abs=5e-5)
    assert found.epoxy_points == pytest.approx(0.7536, abs=5e-5)
    assert found.dry_points == pytest.approx(0.0051, abs=5e-5)


def test_what_was_left_out_was_three_quarters_of_a_point() -> None:
    """949.65 + 474.825 - 461.2 = 963.275 g mm; / 1,260.1363 = 0.7644."""
    assert forecast().points - forecast(NONE).points == pytest.approx(0.7644, abs=5e-5)


def test_the_finished_club_has_its_mass_its_balance_point_and_its_inertia_by_hand() -> None:
    """For D2 (217 oz in) 2.1722 oz in are missing, 1,564.15 g mm, at 859 mm, 503.4 mm below the
    fulcrum: 3.1072 g. With it 443.607 g.

    Balance point: 266,700 + 36,893.25 + 5,000 + 2,491.275 + 250 + 2,669.1 = 314,003.6 g mm;
    / 443.607 = 707.84 mm = 27.868 in.

    About the butt [g cm2]: head 300 x 88.9^2 = 2,370,963; shaft 85.5 x 43.15^2 = 159,194.4 and its
    own 85.5 x 85.5^2 / 12 = 52,085.5; grip 50 x 10^2 = 5,000 and its own 50 x 25^2 / 12 = 2,604.2;
    3 x 83.0425^2 = 20,688.2; tape 2 x 12.5^2 = 312.5; weight 3.1072 x 85.9^2 = 22,927.4. Together
    2,633,775 or 2,633.8 kg cm2.
    """
    whole = forecast(target=D(2)).finished
    assert whole.mass_g == pytest.approx(443.607, abs=5e-4)
    assert whole.balance_point_in == pytest.approx(27.868, abs=5e-4)
    assert whole.inertia_about_butt_kg_cm2 == pytest.approx(2633.8, abs=0.05)
    assert whole.swing_weight_points == pytest.approx(2)


def test_no_more_weight_is_in_the_finished_club_than_the_hosel_takes_and_never_less_than_none() -> (
    None
):
    assert forecast(target=D(9)).finished.mass_g == pytest.approx(440.5 + 9)
    assert forecast(target=D(-9)).finished.mass_g == pytest.approx(440.5)


MASSES = st.decimals(0, 20, places=2)


@given(epoxy=MASSES, ferrule=MASSES, layer=MASSES, base=st.integers(0, 4), extra=st.integers(0, 10),
       lower=st.integers(0, 10), deep=st.decimals(15, 50, places=3))  # fmt: skip
def test_each_part_moves_the_points_by_its_mass_times_its_distance_from_the_fulcrum(
    epoxy: D, ferrule: D, layer: D, base: int, extra: int, lower: int, deep: D
) -> None:
    """One after the other, each moves them by mass x (distance - 14 in) / a point, and no other
    way: hosel's top 859 mm less the depth; whole layers at 125 mm, the lower hand's half layers
    at 187.5 mm."""
    parts = replace(EVEN, extra_layers=extra, lower_extra_layers=lower)
    fixings = replace(NONE, base_layers=base, insertion_mm=deep)
    top = 859 - float(deep) - 355.6
    tape = (base + extra) * (125 - 355.6) + lower / 2 * (187.5 - 355.6)
    before = forecast(fixings, parts=parts).points
    for change, moment in (
        ({"epoxy_g": epoxy}, float(epoxy) * top),
        ({"ferrule_g": ferrule}, float(ferrule) * top),
        ({"tape_g": layer}, float(layer) * tape),
    ):
        fixings = replace(fixings, **change)
        after = forecast(fixings, parts=parts).points
        assert after - before == pytest.approx(moment / POINT_G_MM, abs=1e-5)
        before = after


def test_the_depth_that_was_gauged_wins_over_the_usual_one() -> None:
    """38.575 mm instead of 28.575: 3 g 10 mm nearer to the grip, 30 / 1,260.1363 = 0.0238."""
    deep = forecast(parts=replace(EVEN, insertion_mm=D("38.575")))
    assert forecast().points - deep.points == pytest.approx(0.0238, abs=5e-5)


def test_what_the_epoxy_counts_for_is_known_before_the_other_parts_are() -> None:
    """The bore's end not gauged: 30 mm above the ground, as this club's is."""
    bare = replace(EVEN, head_g=None, shaft_balance_mm=None, bore_to_ground_mm=None)
    assert epoxy_points(bare, SHOPS) == pytest.approx(0.7536, abs=5e-5)


def test_a_club_that_is_to_have_no_ferrule_gets_none_counted_in() -> None:
    bare = replace(EVEN, has_ferrule=wants_ferrule(" None "))
    assert forecast().points - forecast(parts=bare).points == pytest.approx(0.3768, abs=5e-5)
    assert wants_ferrule("")
    assert wants_ferrule("black, plain")


def test_what_weighs_nothing_is_no_part() -> None:
    club = dry_club(EVEN, NONE)
    assert club is not None
    assert [part.name for part in club] == ["head", "shaft", "grip"]


@pytest.mark.parametrize(
    ("fixings", "parts", "words"),
    [
        ({}, {}, "2 g of epoxy, a 1 g ferrule and one layer of tape (2 g)"),
        ({"ferrule_g": D("1.5")}, {"extra_layers": 2},
         "2 g of epoxy, a 1.5 g ferrule and 3 layers of tape (2 g each)"),
        ({}, {"has_ferrule": False}, "2 g of epoxy and one layer of tape (2 g)"),
        ({"epoxy_g": D(0)}, {"lower_extra_layers": 2},
         "a 1 g ferrule and one layer of tape with 2 more under the lower hand (2 g for a whole "
         "layer)"),
        ({"base_layers": 0, "epoxy_g": D(0), "ferrule_g": D(0)}, {"lower_extra_layers": 1},
         "one layer of tape under the lower hand (2 g for a whole layer)"),
        ({"base_layers": 0}, {}, "2 g of epoxy and a 1 g ferrule"),
        ({"epoxy_g": D(0), "ferrule_g": D(0), "tape_g": D(0)}, {},
         "no epoxy, ferrule or tape counted in"),
    ],
)  # fmt: skip
def test_what_is_counted_in_is_said(fixings: dict, parts: dict, words: str) -> None:  # type: ignore[type-arg]
    said = counted_words(replace(EVEN, **parts), replace(SHOPS, **fixings))
    assert said == f"with {words}, as the shop's settings say"


def finished(target: D | None = D(2), **more):  # type: ignore[no-untyped-def]
    settings = {"unit": "in", "target_points": target, **more}
    limits = settings.pop("limits", LIMITS)
    return finished_club(settings.pop("parts", EVEN), limits, **settings)


def test_the_finished_club_is_said_with_its_doubt() -> None:
    """2 points are 2,520.27 g mm: over 440.5 g 5.72 mm, 3.6 sixteenths of an inch; the head of
    300 g is 8.4009 mm nearer, and 0.3 x (88.9^2 - 88.0599^2) = 44.6 kg cm2. Said as 4 and 50."""
    found = finished()
    assert found.rows == (
        ("Swing weight", "about D0.8; D2 with about 3.1 g added"),
        ("Whole club", "about 444 g"),
        ("Balance point", "about 27 7/8 in from the butt end"),
        ("Moment of inertia", "about 2,630 kg cm²"),
    )
    assert found.counted == (
        "With 2 g of epoxy, a 1 g ferrule and one layer of tape (2 g), as the shop's settings say."
    )
    assert found.notes[1] == (
        "Masses are as the makers state them. The head's centre is taken at the club's full "
        "length; where it lies nearer to the grip, these are up to 2 points, 1/4 in and 50 kg cm² "
        "less."
    )
    assert "set swinging about its butt end" in found.notes[0]


def test_in_a_shop_of_millimetres_and_with_the_head_weighed() -> None:
    found = finished(unit="mm", is_head_weighed=True)
    assert dict(found.rows)["Balance point"] == "about 708 mm from the butt end"
    assert found.notes[1].startswith("Masses are as the makers state them, the head's as weighed. ")
    assert "up to 2 points, 6 mm and 50 kg cm² less." in found.notes[1]


@pytest.mark.parametrize(
    ("target", "words"),
    [
        (None, "about D0.8 with nothing added"),
        (D(0), "about D0.8 with nothing added"),
        (D("0.75"), "about D0.8 with nothing added"),
        (D(6), "about D0.8; D4.4 with 9 g, the most, added"),
    ],
)
def test_a_swing_weight_is_said_as_it_can_be_had(target: D | None, words: str) -> None:
    assert dict(finished(target).rows)["Swing weight"] == words


def test_a_shop_without_that_doubt_is_told_of_none() -> None:
    sure = finished(limits=replace(LIMITS, swing_weight_doubt=D(0)))
    assert sure.notes[1] == "Masses are as the makers state them."


@pytest.mark.parametrize(
    "parts",
    [
        replace(EVEN, head_g=None),
        replace(EVEN, shaft_raw_mm=D(854)),
        # No head at all, and one so light that the scale has no letter for it.
        replace(EVEN, head_g=D(0)),
        replace(EVEN, head_g=D(20)),
        replace(EVEN, grip_length_mm=D(-1)),
        replace(EVEN, shaft_raw_mm=D(0), length_mm=D(0), bore_to_ground_mm=D(0), cap_mm=D(-1),
                tip_trim_mm=D(-1)),
        # A hosel deeper than the club is long.
        replace(EVEN, insertion_mm=D(900)),
    ],
)  # fmt: skip
def test_of_parts_that_make_no_club_nothing_is_said(parts: DryParts) -> None:
    assert finished(None, parts=parts) is None
