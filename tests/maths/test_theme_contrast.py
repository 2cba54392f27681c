"""The tokens' colours stand far enough apart in both themes.

Formula: Web Content Accessibility Guidelines 2.2, definitions of relative luminance and contrast
ratio; 7:1 is success criterion 1.4.6 for text, 3:1 is 1.4.11 for the edges of controls.
"""

import re
from pathlib import Path

import pytest

TOKENS = Path(__file__).parents[2] / "fitshop/static/fitshop/tokens.css"
TEXT = [
    *[(text, ground) for text in ("ink", "ink-soft") for ground in (
        "ground", "panel", "sunk", "turf-soft", "sand-soft", "flag-soft", "sky-soft")],
    *[(text, ground) for text in ("turf", "sand", "flag", "sky")
      for ground in ("ground", "panel", "sunk", f"{text}-soft")],
    ("on-turf", "turf"), ("on-turf", "turf-press"), ("on-flag", "flag"), ("panel", "ink"),
    ("on-deep", "deep"), ("on-deep", "deep-raised"), ("on-deep-soft", "deep"),
    ("on-deep-soft", "deep-raised"),
]  # fmt: skip
EDGES = [
    *[(edge, ground) for edge in ("edge", "focus", "turf")
      for ground in ("ground", "panel", "sunk")],
    ("focus-on-deep", "deep"), ("focus-on-deep", "deep-raised"),
    ("chart-span", "panel"), ("chart-span-here", "panel"), ("chart-bar", "panel"),
]  # fmt: skip


def colours(theme: str) -> dict[str, str]:
    css = TOKENS.read_text()
    day, dusk = re.split(r'\[data-theme="dusk"\]', css)
    found = dict(re.findall(r"--([a-z-]+):\s*(#[0-9a-f]{6})", day))
    return (
        found
        if theme == "day"
        else found | dict(re.findall(r"--([a-z-]+):\s*(#[0-9a-f]{6})", dusk))
    )


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_known_ratios():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    # a grey often named as the lightest that passes 4.5:1 on white (from memory)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("theme", ["day", "dusk"])
@pytest.mark.parametrize(("text", "ground"), TEXT)
def test_text_stands_at_seven_to_one(theme, text, ground):
    tokens = colours(theme)
    assert contrast(tokens[text], tokens[ground]) >= 7.0


@pytest.mark.parametrize("theme", ["day", "dusk"])
@pytest.mark.parametrize(("edge", "ground"), EDGES)
def test_edges_and_marks_stand_at_three_to_one(theme, edge, ground):
    tokens = colours(theme)
    assert contrast(tokens[edge], tokens[ground]) >= 3.0


def test_the_dark_theme_names_every_colour_again():
    css = TOKENS.read_text()
    day, dusk = re.split(r'\[data-theme="dusk"\]', css)
    names = set(re.findall(r"--([a-z-]+):\s*#", day))
    assert names == set(re.findall(r"--([a-z-]+):\s*#", dusk))
