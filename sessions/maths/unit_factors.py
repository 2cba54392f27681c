"""Exact factors between what people type and what is stored, and what is still believable.

Factors are decimals written as text, so 35 7/16 in is 900.1125 mm and nothing else: NIST SP 811,
Appendix B, the exact ones (key ``nist-sp-811``). Limits are metric pairs (lowest, highest), both
still believed. Nothing is read or shown here: ``units`` and ``shown`` do that.
"""

from decimal import Decimal
from typing import Literal

MM_PER_INCH = Decimal("25.4")
MM_PER_CM = Decimal("10")
M_PER_YARD = Decimal("0.9144")
M_PER_FOOT = Decimal("0.3048")
MPS_PER_MPH = Decimal("0.44704")
KMH_PER_MPS = Decimal("3.6")
G_PER_OUNCE = Decimal("28.349523125")

Limits = tuple[Decimal, Decimal]
LengthUnit = Literal["in", "mm", "cm"]
DistanceUnit = Literal["yd", "m"]
SpeedUnit = Literal["mph", "m/s", "km/h"]
MassUnit = Literal["g", "oz"]
BendAxis = Literal["loft", "lie"]

# Believable ranges: data-entry guards of ours, not limits of the Rules.
CARRY_LIMITS_M: Limits = (5 * M_PER_YARD, 350 * M_PER_YARD)
SIDE_LIMITS_M: Limits = (-100 * M_PER_YARD, 100 * M_PER_YARD)
HEIGHT_LIMITS_M: Limits = (Decimal("0"), 80 * M_PER_YARD)
LENGTH_LIMITS_MM: Limits = (18 * MM_PER_INCH, 48 * MM_PER_INCH)
LOFT_LIMITS_DEG: Limits = (Decimal("15"), Decimal("75"))
# Seated players have clubs built far flatter than stock; nobody's shaft lies lower than this.
LIE_LIMITS_DEG: Limits = (Decimal("40"), Decimal("80"))
BOUNCE_LIMITS_DEG: Limits = (Decimal("-6"), Decimal("25"))
BEND_LIMITS_DEG: Limits = (Decimal("-6"), Decimal("6"))
ATTACK_LIMITS_DEG: Limits = (Decimal("-20"), Decimal("15"))
LAUNCH_LIMITS_DEG: Limits = (Decimal("-5"), Decimal("70"))
CLUB_MASS_LIMITS_G: Limits = (Decimal("250"), Decimal("650"))
HEAD_MASS_LIMITS_G: Limits = (Decimal("200"), Decimal("400"))
PART_MASS_LIMITS_G: Limits = (Decimal("0"), Decimal("200"))
SPEED_LIMITS_MPS: Limits = (10 * MPS_PER_MPH, 230 * MPS_PER_MPH)
SPIN_LIMITS_RPM: Limits = (Decimal("0"), Decimal("16000"))
COUNT_LIMITS: Limits = (Decimal("0"), Decimal("1000"))
# Points above D0: A0 is -30, G9 is 39.
SWING_WEIGHT_LIMITS: Limits = (Decimal("-30"), Decimal("39.9"))
