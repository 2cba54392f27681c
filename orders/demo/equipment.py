"""The demo shop's trial equipment, devices and gauges. All figures are invented.

Measured figures lie a little off the stamp, as heads do. Days are counted back from the day on
which the demo is loaded.
"""

from __future__ import annotations

# Mark, head (maker, model, hand, loft, bounce), measured loft, lie, bounce [deg], mass [g],
# days since the last check, shots hit with it.
TRIAL_HEADS = (
    ("Oak 1", ("Pellowick", "Marram", "right", "48", "8"), "48.2", "64.0", "8.1", "293.4", 12, 310),
    ("Oak 2", ("Pellowick", "Marram", "right", "50", "8"), "50.0", "64.1", "7.9", "294.6", 12, 455),
    ("Oak 3", ("Pellowick", "Marram", "right", "52", "8"), "51.7", "63.9", "7.7", "297.2", 12, 520),
    ("Oak 4", ("Pellowick", "Marram", "right", "54", "10"), "54.3", "64.0", "10.2", "299.1", 12,
     602),
    ("Oak 5", ("Pellowick", "Marram", "right", "56", "10"), "56.1", "64.2", "10.0", "302.5", 12,
     588),
    ("Oak 6", ("Pellowick", "Marram", "right", "56", "13"), "55.8", "64.3", "12.7", "302.6", 12,
     240),
    ("Oak 7", ("Pellowick", "Marram", "right", "58", "5"), "58.0", "64.5", "5.2", "304.3", 12, 377),
    ("Oak 8", ("Pellowick", "Marram", "right", "60", "4"), "60.2", "64.4", "4.1", "305.7", 12, 341),
    ("Elm 1", ("Dunmarrow", "Curlew", "right", "50", "10"), "50.1", "64.0", "10.0", "294.9", 20,
     199),
    ("Elm 2", ("Dunmarrow", "Curlew", "right", "54", "11"), "53.8", "64.1", "10.8", "298.8", 20,
     233),
    ("Elm 3", ("Dunmarrow", "Curlew", "right", "56", "12"), "56.2", "64.2", "12.1", "301.2", 20,
     415),
    ("Elm 4", ("Dunmarrow", "Curlew", "right", "60", "9"), "59.9", "64.5", "9.0", "306.3", 20, 207),
    ("Elm 5", ("Dunmarrow", "Bittern", "right", "56", "14"), "56.0", "63.8", "13.8", "303.3", 20,
     288),
    ("Elm 6", ("Dunmarrow", "Bittern", "right", "58", "12"), "58.4", "64.1", "12.3", "304.6", 240,
     1180),
    ("Ash 1", ("Skerrow", "Tern", "right", "48", "7"), "47.8", "63.5", "6.9", "292.2", 33, 90),
    ("Ash 2", ("Skerrow", "Dipper", "right", "51", "9"), "51.1", "63.8", "9.1", "295.8", 33, 64),
    ("Ash 3", ("Skerrow", "Linnet", "right", "55", "11"), "55.0", "64.0", "11.0", "300.2", 33, 120),
    ("Yew 1", ("Pellowick", "Marram", "left", "52", "8"), "52.1", "64.0", "8.0", "297.3", 40, 75),
    ("Yew 2", ("Pellowick", "Marram", "left", "56", "10"), "56.0", "64.1", "9.9", "301.8", 40, 88),
    ("Yew 3", ("Dunmarrow", "Curlew", "left", "58", "10"), "57.8", "64.5", "9.8", "303.9", 40, 52),
)  # fmt: skip
WITHDRAWN_HEAD = ("Elm 5", "Adapter thread worn: it turned on the shaft by hand.")

# Mark, shaft key, grip key, playing length [mm], measured mass with grip [g],
# days since the last check, shots. 901.7 mm is 35 1/2 in, 895.35 mm is 35 1/4 in.
TRIAL_SHAFTS = (
    ("Shaft 1", "culm 130", "burr standard", "895.35", "174.5", 12, 1730),
    ("Shaft 2", "culm 110", "burr standard", "901.7", "155.0", 12, 1210),
    ("Shaft 3", "withy 80", "burr standard ribbed", "889", "127.5", 12, 640),
    ("Shaft 4", "withy 60 parallel", "burr small", "863.6", "98.0", 12, 212),
)

# Mark, mass [g], days since the last check, days until it is to be inspected again, shots.
ADAPTERS = (
    ("Adapter 1", "8.2", 12, 168, 2105),
    ("Adapter 2", "8.4", 12, 168, 1388),
    ("Adapter 3", "11.6", 12, 9, 1962),
)

# Name, measures spin, tracks the whole flight, note.
DEVICES = (
    ("Range device, tracks the ball", True, True, "Stands behind the player on the grass tee."),
    ("Bay device, calculates the carry", False, False,
     "Ball speed and launch are measured; carry and landing are calculated, spin is estimated."),
)  # fmt: skip

# Name, kind, hours from 20 degrees, the sheet's least hours, full speed, double, no cure below.
RESINS: tuple[tuple[str, ...], ...] = (
    ("Harrow Slow", "slow", "24", "16", "20", "15", "10"),
    ("Harrow Quick", "quick", "6", "4", "20", "15", "15"),
)

# Name, what it measures, repeatability in the unit the measure is stored in, days since checked,
# and by which method it reads a length.
GAUGES = (
    ("Bench loft gauge", "loft", "0.25", 25, ""),
    ("Bench lie gauge", "lie", "0.25", 25, ""),
    ("Bench scale", "head_mass", "0.1", 60, ""),
    ("Club scale", "total_mass", "0.5", 60, ""),
    ("Bench ruler", "length", "0.8", 90, "ruler"),
    ("60-degree stop", "length", "0.5", 90, "rules"),
    ("Swing weight scale", "swing_weight", "0.2", 60, ""),
    ("Grip calliper", "grip_diameter", "0.05", 90, ""),
)
