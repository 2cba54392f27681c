"""Who works at the demo shop, and who comes to it. Everyone is invented."""

from __future__ import annotations

from fitshop.actor import Role

SHOP_NAME = "Saltings Wedge Room"
LOCATION_NAME = "Saltings Range"
ZONE = "Europe/Dublin"
BAYS = (("Grass tee", False), ("Indoor bay", True))  # beside the first start's Bay 1

PASSWORD = "wedges and sand"
MANAGER = ("manager", "Oonagh Farrelly")
STAFF = (
    ("fitter", "Tadhg Sweetman", (Role.FITTER,)),
    ("builder", "Ines Karvonen", (Role.BUILDER,)),
    ("desk", "Marit Oduya", (Role.DESK,)),
)
ACCOUNTS = ("fitter", "builder", "desk", "manager")

# Key, given name, family name, hand, kind, handicap, height [mm], wrist to floor [mm],
# units, born, e-mail, phone, and what else is known. The telephone numbers are of the range
# that Ofcom keeps for drama: nobody answers.
PLAYERS: tuple[tuple[str, dict[str, object]], ...] = (
    (
        "lorcan",
        {
            "given_name": "Lorcan",
            "family_name": "Tiernan",
            "hand": "right",
            "kind": "man",
            "handicap": "11.4",
            "height_mm": "1803",
            "wrist_to_floor_mm": "876",
            "glove": "large",
            "email": "lorcan.tiernan@players.invalid",
            "phone": "+44 7700 900101",
            "home_place": "Saltings links",
            "notes": "Gap below the pitching wedge; likes the look of a narrow sole.",
        },
    ),
    (
        "beate",
        {
            "given_name": "Beate",
            "family_name": "Lindqvist",
            "hand": "left",
            "kind": "woman",
            "handicap": "18.2",
            "height_mm": "1702",
            "wrist_to_floor_mm": "845",
            "carry_unit": "m",
            "email": "beate.lindqvist@players.invalid",
            "phone": "+44 7700 900102",
        },
    ),
    (
        "kofi",
        {
            "given_name": "Kofi",
            "family_name": "Asamoah-Byrne",
            "hand": "right",
            "kind": "junior",
            "birth_date": "2014-03-09",
            "handicap": "24",
            "height_mm": "1490",
            "wrist_to_floor_mm": "720",
            "guardian_name": "Efua Asamoah",
            "guardian_email": "efua.asamoah@players.invalid",
            "phone": "+44 7700 900103",
            "notes": "Growing fast: check again in the autumn.",
        },
    ),
    (
        "dervla",
        {
            "given_name": "Dervla",
            "family_name": "Quaid",
            "hand": "right",
            "kind": "woman",
            "handicap": "29",
            "height_mm": "1626",
            "wrist_to_floor_mm": "822",
            "email": "dervla.quaid@players.invalid",
            "phone": "+44 7700 900104",
            "notes": "Carries the pitching wedge about 75 yards; wants two wedges, not three.",
        },
    ),
    (
        "ambrose",
        {
            "given_name": "Ambrose",
            "family_name": "Pettigrew-Shaw",
            "hand": "right",
            "kind": "senior",
            "handicap": "21.7",
            "height_mm": "1740",
            "wrist_to_floor_mm": "860",
            "email": "ambrose@players.invalid",
            "phone": "+44 7700 900105",
            "notes": "Arthritis in the lower hand: soft, larger grips. Tires after 35 balls.",
        },
    ),
    (
        "sorcha",
        {
            "given_name": "Sorcha",
            "family_name": "Ní Riordáin",
            "hand": "right",
            "kind": "woman",
            "handicap": "2.1",
            "height_mm": "1765",
            "wrist_to_floor_mm": "870",
            "email": "sorcha@players.invalid",
            "phone": "+44 7700 900106",
            "notes": "Plays county events: keeps an eye on the groove rule.",
        },
    ),
    (
        "mattias",
        {
            "given_name": "Mattias",
            "family_name": "Overgaard",
            "hand": "right",
            "kind": "man",
            "handicap": "-1.2",
            "height_mm": "1880",
            "wrist_to_floor_mm": "905",
            "carry_unit": "m",
            "home_place": "A plateau course",
            "home_altitude_m": 1650.0,
            "email": "mattias@players.invalid",
            "phone": "+44 7700 900107",
        },
    ),
    (
        "rhona",
        {
            "given_name": "Rhona",
            "family_name": "Kilbride",
            "hand": "right",
            "kind": "senior",
            "handicap": "16",
            "height_mm": "1651",
            "wrist_to_floor_mm": "835",
            "phone": "+44 7700 900108",
            "notes": "No e-mail: telephone after six.",
        },
    ),
    (
        "teofil",
        {
            "given_name": "Teofil",
            "family_name": "Wasiak",
            "hand": "right",
            "kind": "man",
            "handicap": "8.8",
            "height_mm": "1956",
            "wrist_to_floor_mm": "965",
            "email": "teofil@players.invalid",
            "phone": "+44 7700 900109",
            "notes": "Very tall; plays seated practice after a knee operation until spring.",
        },
    ),
    (
        "padraic",
        {
            "given_name": "Pádraic",
            "family_name": "Ó Conghaile",
            "hand": "left",
            "kind": "man",
            "handicap": "13.5",
            "height_mm": "1778",
            "email": "padraic@players.invalid",
            "phone": "+44 7700 900110",
        },
    ),
    (
        "yusra",
        {
            "given_name": "Yusra",
            "family_name": "Halloran",
            "hand": "right",
            "kind": "woman",
            "email": "yusra@players.invalid",
            "phone": "+44 7700 900111",
            "notes": "Second season. Came with a friend; nothing measured yet.",
        },
    ),
    (
        "gwilym",
        {
            "given_name": "Gwilym",
            "family_name": "Vaughan-Tate",
            "hand": "right",
            "kind": "man",
            "handicap": "5",
            "height_mm": "1829",
            "wrist_to_floor_mm": "889",
            "email": "gwilym@players.invalid",
            "phone": "+44 7700 900112",
            "notes": "Owns five wedges and thinks that two of them are the same.",
        },
    ),
)
# Everyone agreed to the record but Yusra, who has not been asked; these also to letters.
NO_RECORD_CONSENT = ("yusra",)
EMAIL_CONSENT = ("lorcan", "beate", "kofi", "dervla", "ambrose", "sorcha", "teofil", "gwilym")

# Days from the day of loading, minutes after the day's first visit, player, bay, fitter,
# length [min], kind, note. The first visit of today is the walk-through's.
VISITS = (
    (0, 0, "lorcan", "Bay 1", "fitter", 90, "wedges", "Three wedges below a 45."),
    (0, 30, "sorcha", "Grass tee", "manager", 90, "wedges", "Wants the sole tried on turf."),
    (0, 120, "rhona", "Indoor bay", "fitter", 30, "check", "Grooves, loft and lie of two wedges."),
    (1, 0, "beate", "Bay 1", "fitter", 90, "wedges", ""),
    (1, 105, "kofi", "Bay 1", "fitter", 60, "wedges", "His mother comes along."),
    (1, 60, "ambrose", "Grass tee", "manager", 60, "wedges", "Short: 35 balls at most."),
)
