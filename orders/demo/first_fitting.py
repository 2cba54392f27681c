"""One fitting that is over: Gwilym Vaughan-Tate's, from the interview to the released order.

All figures are invented. Carries and sides are as a fitter would type them, in yards; the clubs
carry about 2.1 % of the pitching wedge's carry less a degree, as the trade expects.
"""

from __future__ import annotations

PLAYER = "gwilym"
DAYS_AGO = 5
STARTS = (16, 0)
BAY, FITTER, MINUTES = "Grass tee", "fitter", 90

ANSWERS: tuple[tuple[str, object], ...] = (
    ("reason", "Two of the wedges go the same distance, and there is a hole above them."),
    ("keep", ["chip", "flop"]),
    ("fix", ["full", "sand"]),
    ("fix_words", "Full swings with the 52 come up short or fly the green."),
    ("face_opened", "sometimes"),
    ("flight", "normal"),
    ("miss", ["short", "fat"]),
    ("attack", "medium"),
    ("divot", "thin"),
    ("ground_summer", "normal"),
    ("ground_winter", "soft"),
    ("grass", "fine"),
    ("sand", ["soft"]),
    ("rounds_a_year", 55),
    ("balls_a_week", 120),
    ("mats", "half_and_half"),
    ("ball", "Premium, three-piece"),
    ("groove_rule", "no"),
    ("wedge_age", 5),
    ("irons_changing", "no"),
    ("iron_lie_deg", "-1"),
    ("iron_shaft_material", "steel"),
    ("iron_shaft_g", "115"),
    ("hands_in_sand", "low"),
    ("chips_on", "on_its_sole"),
    ("wedges_wanted", "three"),
    ("hands", "no"),
    ("posture", "standing"),
)

# Key, kind, label, stamped loft and bounce, measured loft, lie, bounce [deg], length [in],
# swing weight, stock carry [yd], grooves, kept or not.
BAG = (
    ("nine", "iron", "9-iron", "41", None, "41.2", "63", None, "36 1/4", "D2", "136", "unknown",
     True),
    ("pw", "pitching_wedge", "pitching wedge", "46", None, "45.8", "63.5", None, "35 3/4", "D2",
     "124", "unknown", True),
    ("52", "wedge", "52", "52", "10", "53.1", "63.5", "11", "35 1/2", "D3", "104", "worn", False),
    ("56", "wedge", "56", "56", "12", "55.2", "63.5", "11", "35 1/4", "D4", "100", "worn", False),
    ("60", "wedge", "60", "60", "6", "60.1", "64", "6", "35", "D5", "87", "fresh", True),
)  # fmt: skip
BAG_MAKER, BAG_MAKING = "Skerrow", "cast 304 or 431 stainless"
OTHER_CLUBS = {"driver": (1, 0), "fairway": (1, 0), "hybrid": (1, 0), "long_iron": (5, 1),
               "putter": (1, 0)}  # fmt: skip
CONDITIONS = {"temperature_c": 17.0, "pressure_hpa": 1016.0, "humidity_pct": 71.0,
              "wind_ms": 2.0, "wind_to_deg": 180.0}  # fmt: skip

# The plan: role, target loft, head (maker, model, hand, loft, bounce) or own club, why.
PLAN = (
    ("full_shot", "50", ("Pellowick", "Marram", "right", "50", "8"), None,
     "Fills the hole below the pitching wedge."),
    ("touch", "54.5", ("Pellowick", "Marram", "right", "54", "10"), None,
     "One club where two carried the same."),
    ("touch", "60.1", None, "60", "Stays: it does what it should."),
)  # fmt: skip

# Key, purpose, slot, role, own club or (trial head, shaft, adapter), what was chosen to change,
# and the balls: carry [yd], side, strike, turf.
TRIALS = (
    ("warm", "baseline", None, "", "pw", (), (
        ("118", "6 right", "", ""), ("121", "2 left", "", ""), ("109", "8 left", "fat", "digs"),
    )),
    ("pw", "baseline", None, "", "pw", (), (
        ("125", "3 right", "clean", "clean"), ("123", "1 left", "clean", "clean"),
        ("126", "4 right", "clean", "clean"), ("121", "2 left", "thin", "skids"),
        ("124", "0", "clean", "clean"), ("127", "5 left", "clean", "clean"),
        ("122", "2 right", "clean", "clean"), ("124", "1 right", "clean", "clean"),
    )),
    ("own 52", "own", 1, "full_shot", "52", (), (
        ("110", "3 left", "clean", "clean"), ("97", "4 right", "clean", "clean"),
        ("109", "1 right", "clean", "clean"), ("98", "6 left", "thin", "skids"),
        ("96", "2 right", "clean", "clean"), ("110", "3 right", "clean", "clean"),
        ("108", "1 left", "clean", "clean"), ("97", "2 left", "clean", "clean"),
    )),
    ("oak 2", "candidate", 1, "full_shot", ("Oak 2", "Shaft 2", "Adapter 1"), ("loft",), (
        ("112", "2 right", "clean", "clean"), ("114", "1 left", "clean", "clean"),
        ("111", "3 left", "clean", "clean"), ("113", "2 left", "clean", "clean"),
        ("115", "4 right", "clean", "clean"), ("112", "0", "clean", "clean"),
        ("113", "1 right", "clean", "clean"), ("112", "2 right", "clean", "clean"),
        ("114", "1 left", "clean", "clean"),
    )),
    ("own 56", "own", 2, "touch", "56", (), (
        ("101", "2 left", "clean", "clean"), ("96", "1 right", "fat", "digs"),
        ("100", "3 left", "clean", "clean"), ("102", "5 right", "clean", "clean"),
        ("99", "2 right", "clean", "digs"), ("101", "1 left", "clean", "clean"),
    )),
    ("oak 4", "candidate", 2, "touch", ("Oak 4", "Shaft 2", "Adapter 1"), ("sole",), (
        ("101", "1 left", "clean", "clean"), ("102", "2 right", "clean", "clean"),
        ("100", "2 left", "clean", "clean"), ("103", "1 right", "clean", "clean"),
        ("101", "3 right", "clean", "clean"), ("102", "0", "clean", "clean"),
    )),
    ("elm 2", "candidate", 2, "touch", ("Elm 2", "Shaft 2", "Adapter 1"), ("sole",), (
        ("103", "2 right", "clean", "digs"), ("97", "4 left", "fat", "digs"),
        ("102", "1 right", "clean", "clean"), ("104", "3 left", "clean", "clean"),
        ("95", "6 left", "fat", "digs"), ("103", "2 left", "clean", "digs"),
    )),
    ("own 60", "own", 3, "touch", "60", (), (
        ("87", "1 left", "clean", "clean"), ("88", "2 right", "clean", "clean"),
        ("85", "2 left", "clean", "clean"), ("87", "1 right", "clean", "clean"),
        ("86", "0", "clean", "clean"),
    )),
)  # fmt: skip
WARM_UP = "warm"
MISREAD = ("oak 2", 4)  # the fourth ball: the device saw another bay's
BLOCK = {"swing": "full", "hit_from": "fairway", "ground": "normal", "wetness": "dry",
         "face": "square", "ball": "premium", "carry_got": "tracked", "spin_got": "measured",
         "as_flown": "as_flown"}  # fmt: skip
DEVICE = "Range device, tracks the ball"
RATINGS = (("oak 4", "turf", 5), ("elm 2", "turf", 2))

# Slot, role, outcome, chosen trial, against trial, own club kept, own club that leaves, reason.
DECISIONS = (
    (1, "full_shot", "build", "oak 2", "own 52", None, "52",
     "Fills the hole below the pitching wedge."),
    (2, "touch", "build", "oak 4", "elm 2", None, "56", "Cleaner out of the turf."),
    (3, "touch", "keep", None, None, "60", None, "You trust it, and its gap is right."),
)  # fmt: skip

# What the fitter adds to each new club of the spec: swing weight points above D0, the rest.
SPEC = {
    1: {"target_swing_weight_points": "3", "stamping": "none", "ferrule": "black, plain"},
    2: {"target_swing_weight_points": "4", "stamping": "GVT", "ferrule": "black, plain"},
}
ACCEPTED = "Talked over with the player and meant so."
ORDER_NOTE = "Please telephone when ready: he is often abroad."
ORDER_TELL_BY = "telephone"
