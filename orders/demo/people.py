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
