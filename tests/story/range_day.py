"""A device's file of 60 shots, of our own invention: headings in plain words, a row of units.

The columns stand in no order that the shop would choose, and left is positive, as some devices
have it. Carries run from 103 to 108 yards, sides from 4 yards right to 5 yards left.
"""

from __future__ import annotations

HEADINGS = ("Ball no.", "Height at the top", "Flew", "Off the line", "Turned", "Left the face at",
            "Went up at", "Club")  # fmt: skip
UNITS = ("", "yd", "yd", "yd", "rpm", "mph", "deg", "")
SHOTS = 60


def range_day() -> str:
    """The file's text: 2 head lines and 60 shots."""
    lines = [HEADINGS, UNITS]
    for number in range(1, SHOTS + 1):
        lines.append(
            (
                str(number),
                f"{26 + number % 5}.{number % 10}",
                f"{103 + number * 7 % 6}.{number * 3 % 10}",
                f"{number * 3 % 10 - 4}.0",
                str(8600 + number * 37 % 700),
                f"{82 + number % 4}.{number * 7 % 10}",
                f"{28 + number % 3}.{number * 9 % 10}",
                "52",
            )
        )
    return "\n".join(",".join(line) for line in lines) + "\n"
