"""The trade's words as the rules know them: hands, roles, makings, tips, attacks.

Values are what the columns store, or words of the interview; labels are what is read.
"""

from __future__ import annotations

from enum import StrEnum


class Hand(StrEnum):
    """The side a player swings from, or a head is made for."""

    RIGHT = "right"
    LEFT = "left"

    @property
    def letter(self) -> str:
        """R or L, as the ticket prints it."""
        return self.value[0].upper()


class PlayerKind(StrEnum):
    """Whose lengths are usual. ADULT where man or woman was not said or doesn't matter."""

    ADULT = "adult"
    MAN = "man"
    WOMAN = "woman"
    SENIOR = "senior"
    JUNIOR = "junior"


class Role(StrEnum):
    """What a slot's club is for."""

    FULL_SHOT = "full_shot"
    TOUCH = "touch"

    @property
    def label(self) -> str:
        return "Full-shot club" if self is Role.FULL_SHOT else "Touch club"


class ClubSource(StrEnum):
    """Where the club of a slot comes from."""

    NEW = "new"
    OWN_KEPT = "own_kept"
    OWN_ADJUSTED = "own_adjusted"

    @property
    def label(self) -> str:
        return {"new": "New", "own_kept": "Own, kept", "own_adjusted": "Own, adjusted"}[self.value]


class Making(StrEnum):
    """Material and making of a head, as far as bending goes."""

    FORGED_LOW_CARBON = "forged_low_carbon"
    CAST_SOFT_CARBON = "cast_soft_carbon"
    CAST_STAINLESS = "cast_stainless"
    CAST_17_4 = "cast_17_4"
    HOLLOW = "hollow"
    MULTI_PIECE = "multi_piece"
    INSERT = "insert"
    PRINTED = "printed"
    TITANIUM = "titanium"
    COPPER_ALLOY = "copper_alloy"
    PLATED = "plated"
    UNKNOWN = "unknown"

    @property
    def label(self) -> str:
        """In words, and the key of `sessions.maths.bending.MAKING_LIMITS`."""
        return _MAKING_LABELS[self]


_MAKING_LABELS = {
    Making.FORGED_LOW_CARBON: "forged low-carbon steel",
    Making.CAST_SOFT_CARBON: "cast soft carbon steel",
    Making.CAST_STAINLESS: "cast 304 or 431 stainless",
    Making.CAST_17_4: "17-4 stainless",
    Making.HOLLOW: "hollow",
    Making.MULTI_PIECE: "multi-piece",
    Making.INSERT: "insert",
    Making.PRINTED: "printed",
    Making.TITANIUM: "titanium",
    Making.COPPER_ALLOY: "copper alloy",
    Making.PLATED: "plated",
    Making.UNKNOWN: "unknown",
}


class Tip(StrEnum):
    """A shaft's tip, or the bore of a head that takes it."""

    TAPER = "taper"
    PARALLEL = "parallel"

    @property
    def label(self) -> str:
        return "0.355 taper" if self is Tip.TAPER else "0.370 parallel"


class Attack(StrEnum):
    """How steeply the club comes down on a full wedge swing."""

    STEEP = "steep"
    MEDIUM = "medium"
    SHALLOW = "shallow"


class Often(StrEnum):
    """How often a face is opened."""

    NEVER = "never"
    SOMETIMES = "sometimes"
    OFTEN = "often"


class Hands(StrEnum):
    """How the hands are held in sand."""

    LOW = "low"
    NORMAL = "normal"
    HIGH = "high"


class ShaftMaterial(StrEnum):
    STEEL = "steel"
    GRAPHITE = "graphite"
