"""The fitting room's words, as they are stored and as they are read."""

from django.db import models


class Hand(models.TextChoices):
    RIGHT = "right", "right"
    LEFT = "left", "left"


class PlayerKind(models.TextChoices):
    MAN = "man", "man"
    WOMAN = "woman", "woman"
    JUNIOR = "junior", "junior"
    SENIOR = "senior", "senior"


class SlotRole(models.TextChoices):
    FULL_SHOT = "full_shot", "full-shot club"
    TOUCH = "touch", "touch club"


class Swing(models.TextChoices):
    FULL = "full", "Full"
    FLAT_OUT = "flat_out", "Full, flat out"
    THREE_QUARTER = "three_quarter", "Three-quarter"
    HALF = "half", "Half"
    CHIP = "chip", "Chip"
    PITCH = "pitch", "Pitch"
    FLOP = "flop", "Flop"
    SAND = "sand", "Sand"


class HitFrom(models.TextChoices):
    MAT = "mat", "mat"
    TEE = "tee", "tee"
    FAIRWAY = "fairway", "fairway"
    TIGHT = "tight", "tight"
    ROUGH = "rough", "rough"
    SAND_FLUFFY = "sand_fluffy", "sand, fluffy"
    SAND_FIRM = "sand_firm", "sand, firm"
    SAND_WET = "sand_wet", "sand, wet"
    PLUGGED = "plugged", "sand, plugged"


class Ground(models.TextChoices):
    FIRM = "firm", "firm"
    NORMAL = "normal", "normal"
    SOFT = "soft", "soft"


class Wetness(models.TextChoices):
    DRY = "dry", "dry"
    WET = "wet", "wet"


class Face(models.TextChoices):
    SQUARE = "square", "square"
    LITTLE_OPEN = "little_open", "a little open"
    WIDE_OPEN = "wide_open", "wide open"


class Ball(models.TextChoices):
    PREMIUM = "premium", "premium"
    RANGE = "range", "range"
    LIMITED = "limited", "limited-flight"
    MARKED = "marked", "marked"


class CarryGot(models.TextChoices):
    SEEN = "seen", "seen to land"
    TRACKED = "tracked", "tracked"
    CALCULATED = "calculated", "calculated"


class SpinGot(models.TextChoices):
    NONE = "none", "not given"
    MEASURED = "measured", "measured"
    ESTIMATED = "estimated", "estimated"


class AsFlown(models.TextChoices):
    UNANSWERED = "unanswered", "not answered"
    AS_FLOWN = "as_flown", "as flown"
    NORMALISED = "normalised", "normalised by the device"


class Strike(models.TextChoices):
    CLEAN = "clean", "Clean"
    FAT = "fat", "Fat"
    THIN = "thin", "Thin"
    HEEL = "heel", "Heel"
    TOE = "toe", "Toe"


class Turf(models.TextChoices):
    DIGS = "digs", "Digs"
    CLEAN = "clean", "Clean"
    SKIDS = "skids", "Skids"


class Divot(models.TextChoices):
    DEEP = "deep", "deep"
    THIN = "thin", "thin"
    NONE = "none", "none"


class FlightWindow(models.TextChoices):
    LOW = "low", "lower than asked"
    NORMAL = "normal", "as asked"
    HIGH = "high", "higher than asked"


class LeftOut(models.TextChoices):
    """Why a shot counts in nothing. A bad strike is no reason: it is kept and counted."""

    MISREAD = "misread", "Misread"
    MISTYPED = "mistyped", "Mistyped"
    UNDONE = "undone", "Undone"


# What was typed twice or taken back was no second ball; a misread was one.
NO_BALL = (LeftOut.MISTYPED, LeftOut.UNDONE)


class Grooves(models.TextChoices):
    FRESH = "fresh", "fresh"
    WORN = "worn", "worn"
    UNKNOWN = "unknown", "not looked at"


class Availability(models.TextChoices):
    AVAILABLE = "available", "available"
    TO_ORDER = "to_order", "to order"
    DISCONTINUED = "discontinued", "discontinued"


class Relief(models.IntegerChoices):
    NONE = 0, "none"
    SLIGHT = 1, "slight"
    CLEAR = 2, "clear"
    STRONG = 3, "strong"


class Camber(models.TextChoices):
    FLAT = "flat", "flat"
    SLIGHT = "slight", "slight camber"
    MEDIUM = "medium", "medium camber"
    FULL = "full", "full camber"


class TipKind(models.TextChoices):
    TAPER = "taper", "taper"
    PARALLEL = "parallel", "parallel"


class Outcome(models.TextChoices):
    KEEP = "keep", "Keep the club played now"
    BUILD = "build", "Build"
    COME_BACK = "come_back", "Come back on grass"
    NONE_SHOWN = "none_shown", "None shown better"


class ClubSource(models.TextChoices):
    NEW = "new", "new"
    OWN_KEPT = "own_kept", "own, kept"
    OWN_ADJUSTED = "own_adjusted", "own, adjusted"


class LengthMethod(models.TextChoices):
    RULES = "rules", "on the 60 degree plane (Rules)"
    RULER = "ruler", "bench ruler along the shaft"
