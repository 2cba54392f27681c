"""What a spec and its decisions say, put to the player: no word that only a workshop knows.

A signed sheet keeps texts, not figures, so that it reads the same for ever; they are put in the
player's words here, each time that a sheet or a letter is made of them. Common practice.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from itertools import pairwise
from typing import Any

from sessions.rules.wording import figure

_BEND = re.compile(r"bent (?P<much>\d+(?:\.\d+)?) (?P<way>weak|strong|upright|flat)\b")
_WAYS = {
    "weak": "{} of loft added",
    "strong": "{} of loft taken off",
    "upright": "{} more upright",
    "flat": "{} flatter",
}
_SAID_PLAINLY = {
    "on the 60 degree plane (Rules)": "sole to grip end, as the Rules measure it",
    "bench ruler along the shaft": "along the shaft, by a ruler",
    " (reckoned from the bend)": " (worked out, not measured)",
}
_SHOTS = {
    "full": "full shots",
    "three-quarter": "three-quarter shots",
    "half": "half shots",
    "pitch": "pitches",
    "chip": "chips",
    "flop": "flop shots",
    "sand": "shots from sand",
}
_ANSWERS = {
    ("keep", "kept"): "as good as before.",
    ("keep", "lost"): "not as good as before.",
    ("keep", "not shown"): "that day's balls don't show it, so we can't say.",
    ("fix", "fixed"): "better than before.",
    ("fix", "not fixed"): "no better than before.",
    ("fix", "not shown"): "that day's balls don't show it, so we can't say.",
}
# What the fitter says, where that day's balls show nothing or something else.
_VIEWS = {
    ("keep", "kept"): "as good as before.",
    ("keep", "lost"): "not as good as before.",
    ("keep", "not_shown"): "it can't be said.",
    ("fix", "fixed"): "better than before.",
    ("fix", "not_fixed"): "no better than before.",
    ("fix", "not_shown"): "it can't be said.",
}
# Reasons that the fitter taps, where they speak of the player.
_REASONS = {"The player trusts it": "You trust it"}
# Kinds of club that a bag holds more than one of.
_MANY = ("fairway woods", "hybrids", "irons above the 9")
_ONE = ("driver", "putter")


def degrees_said(value: Decimal) -> str:
    """`half a degree`, `one degree`, `1.5 degrees`.

    >>> degrees_said(Decimal("0.5")), degrees_said(Decimal("0.7")), degrees_said(Decimal(2))
    ('half a degree', '0.7 of a degree', '2 degrees')
    """
    said = {Decimal("0.25"): "a quarter of a degree", Decimal("0.5"): "half a degree"}
    said[Decimal(1)] = "one degree"
    if value in said:
        return said[value]
    return f"{figure(value)} of a degree" if value < 1 else f"{figure(value)} degrees"


def plainly(text: str) -> str:
    """A line of a club without the workshop's words.

    >>> plainly("54.5° (stamped 54, bent 0.5 weak)")
    '54.5° (stamped 54, half a degree of loft added)'
    """
    for trade, plain in _SAID_PLAINLY.items():
        text = text.replace(trade, plain)
    return _BEND.sub(lambda bend: _WAYS[bend["way"]].format(degrees_said(Decimal(bend["much"]))),
                     text)  # fmt: skip


def to_its_owner(text: str) -> str:
    """`Own 60` is `Your 60` to its owner; `own Old 56, Maker` is `your old 56, Maker`."""
    first, _, rest = text.partition(" ")
    if first.casefold() != "own" or not rest:
        return text
    rest = f"old {rest[4:]}" if rest.startswith("Old ") else rest
    return f"{'Your' if first[0] == 'O' else 'your'} {rest}"


def leaves_the_bag(words: str) -> str:
    """What comes out of the bag: an own club by its label, or one of a kind.

    >>> leaves_the_bag("52"), leaves_the_bag("hybrids")
    ('Your old 52 leaves the bag.', 'One of your hybrids leaves the bag.')
    """
    kind = words.casefold()
    if kind.startswith("another of the "):
        return f"Another of your {words[len('another of the ') :]} leaves the bag."
    if kind in _MANY:
        return f"One of your {words} leaves the bag."
    if kind in _ONE:
        return f"Your {words} leaves the bag."
    label = words[4:] if kind.startswith("old ") else words
    return f"Your old {label} leaves the bag."


def wish_answered(kind: str, label: str, answer: str) -> str:
    """A thing to keep or to fix, and what became of it; the wish alone where nothing is known.

    >>> wish_answered("Keep", "Chip", "not shown")
    "Your chips: that day's balls don't show it, so we can't say."
    """
    shots = _SHOTS.get(label.casefold(), label[:1].lower() + label[1:])
    said = _ANSWERS.get((kind.casefold(), answer.casefold().replace("_", " ")))
    if said is None:
        wish = "keep" if kind.casefold() == "keep" else "improve"
        return f"You wanted to {wish} your {shots}."
    return f"Your {shots}: {said}"


def wish_shown(row: Mapping[str, Any]) -> str:
    """A wish: what that day's balls showed of it, and apart from it what the fitter says.

    >>> wish_shown({"kind": "fix", "label": "Sand", "shown": "not_shown",
    ...             "views": [{"by": "Tadhg Sweetman", "answer": "fixed"}]})
    "Your shots from sand: that day's balls don't show it. Tadhg's view: better than before."
    """
    kind, label = str(row["kind"]).casefold(), str(row["label"])
    shots = _SHOTS.get(label.casefold(), label[:1].lower() + label[1:])
    shown = str(row["shown"]).replace("_", " ")
    words = _ANSWERS.get((kind, shown), "")
    if shown != "not shown":
        said = f"Your {shots}: {words[:-1]}, by that day's balls."
    elif row["views"]:
        said = f"Your {shots}: that day's balls don't show it."
    else:
        said = f"Your {shots}: {words}"
    views = [
        f"{view['by'].split(' ')[0]}'s view: {_VIEWS.get((kind, view['answer']), '')}"
        for view in row["views"]
    ]
    return " ".join([said, *views])


def basis_words(basis: Mapping[str, Any]) -> str:
    """What a carry rests on, beside it.

    >>> basis_words({"kind": "hit_otherwise", "balls": 5, "hit_at": "56°"})
    'a forecast from 5 balls at 56°'
    """
    balls = f"{basis['balls']} {'ball' if basis['balls'] == 1 else 'balls'}"
    return {
        "hit": f"from {balls}",
        "hit_otherwise": f"a forecast from {balls} at {basis['hit_at']}",
        "hit_other_shaft": f"a forecast from {balls} with another shaft",
        "hit_elsewhere": f"a forecast: its {balls} can't be held against the pitching wedge's",
        "said": "as you told us",
        "forecast": "a forecast: not hit that day",
    }.get(str(basis["kind"]), "")


def said_to_the_player(values: Mapping[str, Any]) -> dict[str, Any]:
    """The values of a spec sheet as its player reads them; the frozen ones are left alone.

    A sheet signed before carries had a basis keeps its rows as they are, in `rows_before`.
    """
    clubs = [_club(club) for club in values["clubs"]]
    renamed = {
        club["name"]: told["name"]
        for club, told in zip(values["clubs"], clubs, strict=True)
        if club["name"] != told["name"]
    }
    rows = [row for row in values["gaps"] if isinstance(row, Mapping)]
    carries = [
        {**row, "name": _renamed(row["name"], renamed), "words": basis_words(row["basis"])}
        for row in rows
    ]
    before = [row for row in values["gaps"] if not isinstance(row, Mapping)]
    return {
        **values,
        "clubs": clubs,
        "rows_before": [[_renamed(row[0], renamed), *row[1:]] for row in before],
        "hit": [row for row in carries if row["basis"]["kind"] == "hit"],
        "not_hit": [row for row in carries if row["basis"]["kind"] != "hit"],
        "gaps": _gaps(carries),
        "leaving": [leaves_the_bag(words) for words in values["leaving"]],
        "keep_fix": [
            wish_shown(row) if isinstance(row, Mapping) else wish_answered(*row)
            for row in values["keep_fix"]
        ],
        "bent": [club["name"] for club in clubs if club["slot"] in values.get("bent", ())],
    }


def _gaps(carries: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """From each club to the next: a forecast unless both were hit that day."""
    return [
        {
            "from": row["name"].rpartition(", ")[0] or row["name"],
            "to": after["name"].rpartition(", ")[0] or after["name"],
            "gap": row["gap"],
            "is_forecast": {row["basis"]["kind"], after["basis"]["kind"]} != {"hit"},
        }
        for row, after in pairwise(carries)
    ]


def _club(club: Mapping[str, Any]) -> dict[str, Any]:
    is_own = str(club["source"]).startswith("yours")
    return {
        **club,
        "name": to_its_owner(club["name"]) if is_own else club["name"],
        "loft": plainly(club["loft"]),
        "why": _REASONS.get(club["why"], club["why"]),
        "carry_words": basis_words(club["carry_basis"]) if "carry_basis" in club else "",
        "lines": [[label, _line(label, words, is_own)] for label, words in club["lines"]],
    }


def _line(label: str, words: str, is_own: bool) -> str:
    return to_its_owner(words) if is_own and label == "Head" else plainly(words)


def _renamed(name: str, renamed: Mapping[str, str]) -> str:
    """A row of the gaps begins with its club's name, then a comma and the loft."""
    club, comma, loft = name.rpartition(", ")
    return f"{renamed.get(club, club)}{comma}{loft}" if comma else renamed.get(name, name)
