"""The five charts: what they say and draw, with the expected words and places typed by hand."""

import itertools
import re
import xml.etree.ElementTree as ET

import pytest

from fitshop.charts import (
    Bar,
    Bars,
    Dispersion,
    Ellipse,
    Intervals,
    Ladder,
    Landing,
    Limit,
    Line,
    Reach,
    Rung,
    Stop,
    bars,
    bars_table,
    dispersion,
    dispersion_table,
    intervals,
    intervals_table,
    ladder,
    ladder_table,
    line,
    line_table,
)

SVG = "{http://www.w3.org/2000/svg}"
CARRIES = Ladder(
    "Carry, full swing (yd)",
    "yd",
    (
        Rung("PW 46", 121.3, 118.6, 124.0),
        Rung("51", 108.2, 105.1, 111.2, note="6 balls"),
        Rung("55", 96.8, 94.4, 99.4, here=True),
        Rung("60", 85.0, planned=True),
        Rung("64", None),
    ),
)
LANDED = Dispersion(
    "Where they landed",
    "yd",
    (Landing(-3.4, 96.0), Landing(1.2, 99.0), Landing(-0.2, 94.0), Landing(9.0, 71.0, out=True)),
    Ellipse(-1.0, 96.5, 6.0, 3.0, 20.0, "where the next ball lands, 8 times of 10"),
    things="balls",
)
AGAINST = Intervals(
    "Carry against your 56",
    "yd",
    (Reach("Sole A", 6.0, 3.0, 9.0, here=True), Reach("Sole B", -0.4, -4.0, 3.2)),
    margin=3.0,
)
CAUSES = Bars("Remakes by cause", "remakes", (Bar("Glue", 4), Bar("Length", 1), Bar("Grip", None)))
TREND = Line(
    "Turnaround",
    "days",
    (Stop("March", 9.0), Stop("April", None), Stop("May", 6.5), Stop("June", 7.0)),
    (Limit("promised", 10.0),),
    decimals=1,
)
ALL = [
    (ladder, CARRIES), (dispersion, LANDED), (intervals, AGAINST), (bars, CAUSES), (line, TREND),
]  # fmt: skip
EMPTY = [
    (ladder, Ladder("Carry", "yd", ())),
    (ladder, Ladder("Carry", "yd", (Rung("51", None),))),
    (dispersion, Dispersion("Landed", "yd", ())),
    (intervals, Intervals("Against", "yd", (Reach("Sole", None),), margin=3)),
    (bars, Bars("Causes", "remakes", (Bar("Glue", None),))),
    (line, Line("Trend", "days", (Stop("May", None),))),
]


def words(svg: str) -> list[str]:
    return [e.text or "" for e in ET.fromstring(svg).iter(f"{SVG}text")]


def description(svg: str) -> str:
    return ET.fromstring(svg).findtext(f"{SVG}desc") or ""


@pytest.mark.parametrize("paper", [False, True])
@pytest.mark.parametrize(("draw", "chart"), ALL)
def test_a_chart_is_well_formed_named_and_described(draw, chart, paper):
    root = ET.fromstring(draw(chart, paper=paper))
    ids = {e.get("id") for e in root.iter() if e.get("id")}
    assert root.get("role") == "img"
    assert root.findtext(f"{SVG}title") == chart.title
    assert {root.get("aria-labelledby"), root.get("aria-describedby")} == ids


@pytest.mark.parametrize(("draw", "chart"), ALL)
def test_marks_lie_inside_the_picture(draw, chart):
    root = ET.fromstring(draw(chart))
    width, height = float(root.get("width", 0)), float(root.get("height", 0))
    for mark in root.iter():
        for name in ("x", "x1", "x2", "cx", "y", "y1", "y2", "cy"):
            most = width if "x" in name else height
            assert 0 <= float(mark.get(name, 0)) <= most, ET.tostring(mark)


@pytest.mark.parametrize(("draw", "chart"), ALL)
def test_pages_get_classes_and_paper_gets_plain_attributes(draw, chart):
    page, paper = draw(chart), draw(chart, paper=True)
    assert "style=" not in page + paper
    assert "fill=" not in page
    assert "stroke=" not in page
    assert "class=" not in paper
    assert "var(" not in paper
    assert set(re.findall(r'(?:fill|stroke)="([^"]+)"', paper)) <= {
        "none", "#000", "#fff", "#333", "#555", "#777", "#999", "#eee", "#e4e4e4",
    }  # fmt: skip


@pytest.mark.parametrize(("draw", "chart"), EMPTY)
def test_a_chart_of_nothing_says_so(draw, chart):
    assert words(draw(chart)) == ["Nothing measured yet."]
    assert description(draw(chart)) == "Nothing measured yet."


@pytest.mark.parametrize(("draw", "chart"), [
    (ladder, Ladder("A & B <b>", "yd", (Rung('5" <i>&', 90, note="</text>"),))),
    (dispersion, Dispersion("A & B <b>", "yd", (Landing(0, 9, label="<i>&"),))),
    (intervals, Intervals("A & B <b>", "yd", (Reach("</text><script>", 1),))),
    (bars, Bars("A & B <b>", "<", (Bar("</text><script>", 1),))),
    (line, Line("A & B <b>", "yd", (Stop("</text><script>", 1),), (Limit("<&>", 2),))),
])  # fmt: skip
def test_names_are_escaped(draw, chart):
    svg = draw(chart)
    assert ET.fromstring(svg).findtext(f"{SVG}title") == "A & B <b>"
    assert "<script" not in svg
    assert "<i>" not in svg


def test_a_ladder_shows_values_gaps_and_notes():
    shown = words(ladder(CARRIES))
    assert shown == [
        "PW 46", "121", "51", "108", "6 balls", "gap 13", "55", "97", "gap 11",
        "60", "85", "gap 12", "64", "not measured",
    ]  # fmt: skip


def test_a_ladder_says_its_numbers_in_words():
    assert description(ladder(CARRIES)) == (
        "Value (yd). PW 46: 121, likely between 119 to 124, gap to next 13; "
        "51: 108, likely between 105 to 111, gap to next 11, 6 balls; "
        "55: 97, likely between 94 to 99, gap to next 12; 60 (planned): 85; 64: not measured."
    )


def test_a_ladder_puts_the_longer_carry_further_right_in_proportion():
    dots = [float(e.get("cx", 0)) for e in ET.fromstring(ladder(CARRIES)).iter(f"{SVG}circle")]
    long, middle, short = dots[0] - dots[3], dots[1] - dots[3], dots[2] - dots[3]
    assert long > middle > short > 0
    assert middle / long == pytest.approx(23.2 / 36.3, abs=0.005)
    assert short / long == pytest.approx(11.8 / 36.3, abs=0.005)


def test_a_gap_skips_a_rung_without_a_value():
    chart = Ladder("Carry", "yd", (Rung("50", 110), Rung("54", None), Rung("58", 88)))
    assert ladder_table(chart).rows == (
        ("50", "110", "22"), ("54", "not measured", ""), ("58", "88", ""),
    )  # fmt: skip


def test_rivals_for_one_place_stand_side_by_side_and_no_gap_is_between_them():
    chart = Ladder("Carry", "yd", (
        Rung("50", 104), Rung("53.8", 92, here=True), Rung("54.3", 93, beside=True),
        Rung("57.3", 84, beside=True), Rung("58", 80),
    ))  # fmt: skip
    assert ladder_table(chart).rows == (
        ("50", "104", "12"), ("53.8", "92", "12"), ("54.3 (instead)", "93", ""),
        ("57.3 (instead)", "84", ""), ("58", "80", ""),
    )  # fmt: skip
    assert [word for word in words(ladder(chart)) if word.startswith("gap")] == ["gap 12", "gap 12"]
    dots = [float(e.get("cy", 0)) for e in ET.fromstring(ladder(chart)).iter(f"{SVG}circle")]
    steps = [below - above for above, below in itertools.pairwise(dots)]
    assert steps[1] == steps[2] < steps[0] == steps[3]


def test_a_value_of_nought_is_a_measurement():
    chart = Ladder("Carry", "yd", (Rung("chip", 0.0), Rung("putt", None)))
    assert words(ladder(chart)) == ["chip", "0", "putt", "not measured"]


def test_dispersion_puts_the_players_right_on_the_right_and_far_on_top():
    marks = list(ET.fromstring(dispersion(LANDED)).iter(f"{SVG}circle"))
    x = [float(m.get("cx", 0)) for m in marks]
    y = [float(m.get("cy", 0)) for m in marks]
    assert x[0] < x[2] < x[1] < x[3]
    assert y[1] < y[0] < y[2] < y[3]
    # one scale both ways: 4.6 yd across and 3 yd along
    assert (x[1] - x[0]) / (y[0] - y[1]) == pytest.approx(4.6 / 3.0, abs=0.05)


def test_dispersion_says_sides_in_words_and_marks_what_is_left_out():
    assert dispersion_table(LANDED).rows == (
        ("1", "96", "3 left", ""), ("2", "99", "1 right", ""),
        ("3", "94", "0", ""), ("4", "71", "9 right", "left out"),
    )  # fmt: skip
    assert description(dispersion(LANDED)).endswith(
        "4: 71, 9 right, left out. Ellipse: where the next ball lands, 8 times of 10."
    )
    assert 'class="dot out"' in dispersion(LANDED)


def test_an_ellipse_turns_anticlockwise_as_seen():
    svg = dispersion(LANDED)
    # SVG turns clockwise, so 20 degrees anticlockwise is written as -20
    assert re.search(r'transform="rotate\(-20 ', svg)


def test_intervals_carry_signs_and_the_margin():
    table = intervals_table(AGAINST)
    assert table.caption == "Carry against your 56 (too small to use: up to 3 yd)"
    assert table.rows == (("Sole A", "+6", "+3 to +9"), ("Sole B", "0", "−4 to +3"))
    assert words(intervals(AGAINST)) == ["Sole A", "+6", "Sole B", "0", "−4", "0", "+9"]


def test_the_margin_band_lies_evenly_about_zero():
    root = ET.fromstring(intervals(AGAINST))
    band = next(root.iter(f"{SVG}rect"))
    zero = float(next(root.iter(f"{SVG}line")).get("x1", 0))
    left, wide = float(band.get("x", 0)), float(band.get("width", 0))
    assert left + wide / 2 == pytest.approx(zero, abs=0.11)


def test_bars_begin_at_zero_and_keep_proportion():
    widths = [float(e.get("width", 0)) for e in ET.fromstring(bars(CAUSES)).iter(f"{SVG}rect")]
    assert widths == [288, 72]
    assert bars_table(CAUSES).rows == (("Glue", "4"), ("Length", "1"), ("Grip", "not measured"))


def test_bars_refuse_an_amount_below_zero():
    with pytest.raises(ValueError, match="below zero"):
        bars(Bars("Stock", "heads", (Bar("Vale 56", -1),)))


@pytest.mark.parametrize("wrong", [float("nan"), float("inf")])
def test_a_number_that_is_none_is_refused(wrong):
    with pytest.raises(ValueError, match="finite"):
        ladder(Ladder("Carry", "yd", (Rung("51", wrong),)))
    with pytest.raises(ValueError, match="finite"):
        dispersion(Dispersion("Landed", "yd", (Landing(wrong, 90),)))


def test_a_line_is_broken_where_nothing_was_measured():
    paths = list(ET.fromstring(line(TREND)).iter(f"{SVG}path"))
    assert len(paths) == 2
    assert line_table(TREND).rows == (
        ("March", "9.0"), ("April", "not measured"), ("May", "6.5"), ("June", "7.0"),
        ("promised", "10.0"),
    )  # fmt: skip


def test_one_single_value_can_be_drawn_by_every_kind():
    assert "<circle" in ladder(Ladder("Carry", "yd", (Rung("51", 100.0, 100.0, 100.0),)))
    assert "<circle" in dispersion(Dispersion("Landed", "yd", (Landing(0.0, 0.0),)))
    assert "<circle" in intervals(Intervals("Against", "yd", (Reach("Sole", 0.0, 0.0, 0.0),)))
    assert "<rect" in bars(Bars("Causes", "remakes", (Bar("Glue", 0.0),)))
    assert "<circle" in line(Line("Trend", "days", (Stop("May", 0.0),)))
