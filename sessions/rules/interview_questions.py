"""What a fitter asks before and while a player warms up, in plain words.

Keys are stored with the answers and never change their meaning.
"""

from __future__ import annotations

from decimal import Decimal

from sessions.rules.interview import Choice, Group, Question


def _chips(*labels: str) -> tuple[Choice, ...]:
    """Chips whose stored word is the label in small letters with underscores."""
    return tuple(
        Choice(label.lower().replace(" ", "_").replace("-", "_").replace("'", ""), label)
        for label in labels
    )


_SHOTS = _chips("Full", "Three-quarter", "Half", "Chip", "Pitch", "Flop", "Sand")
_GROUND = _chips("Firm", "Normal", "Soft")
_YES_NO = _chips("Yes", "No")

_REASON = (
    Question("reason", "What brings you here?", "text", Group.REASON),
    Question(
        "keep",
        "Which shots with your wedges do you like as they are?",
        "several",
        Group.REASON,
        choices=_SHOTS,
        help="What already works is kept.",
    ),
    Question(
        "fix",
        "Which would you like to be better at?",
        "several",
        Group.REASON,
        choices=_SHOTS,
    ),
    Question(
        "fix_words",
        "What goes wrong there?",
        "text",
        Group.REASON,
        help="For example: digs in the sand, comes out too low, runs too far.",
    ),
)

_GAME = (
    Question("club_full", "Which wedge do you swing fully, and how far?", "text", Group.GAME),
    Question("club_three_quarter", "Which for a three-quarter swing?", "text", Group.GAME),
    Question("club_half", "Which for half a swing?", "text", Group.GAME),
    Question("club_chip", "Which do you chip with?", "text", Group.GAME),
    Question("club_pitch", "Which do you pitch with?", "text", Group.GAME),
    Question("club_flop", "Which for a high, soft shot?", "text", Group.GAME),
    Question("club_sand", "Which out of the sand?", "text", Group.GAME),
    Question(
        "face_opened",
        "How often do you open the face?",
        "chips",
        Group.GAME,
        choices=_chips("Never", "Sometimes", "Often"),
    ),
    Question(
        "flight",
        "How high do your wedges usually fly?",
        "chips",
        Group.GAME,
        choices=_chips("Low", "Normal", "High"),
    ),
    Question(
        "miss",
        "What do your misses look like?",
        "several",
        Group.GAME,
        choices=_chips("Left", "Right", "Short", "Long", "Fat", "Thin", "Heel", "Toe"),
    ),
)

_SWING = (
    Question(
        "attack",
        "Angle of attack on a full wedge swing",
        "chips",
        Group.SWING,
        choices=_chips("Steep", "Medium", "Shallow"),
        askable_at_home=False,
        help="By eye, until it is measured.",
    ),
    Question(
        "attack_deg",
        "Angle of attack, measured",
        "number",
        Group.SWING,
        askable_at_home=False,
        unit="degrees",
        low=Decimal("-20"),
        high=Decimal("15"),
        help="Downward is negative. It counts before the estimate by eye.",
    ),
    Question(
        "divot",
        "What do your divots look like?",
        "chips",
        Group.SWING,
        choices=_chips("Deep", "Thin", "None"),
    ),
    Question(
        "grip_down",
        "Do you hold the club shorter?",
        "chips",
        Group.SWING,
        choices=_chips("Never", "On short shots", "Always"),
    ),
)

_GROUND_AND_SAND = (
    Question(
        "ground_summer",
        "Ground where you mostly play, in summer",
        "chips",
        Group.GROUND,
        choices=_GROUND,
    ),
    Question(
        "ground_winter",
        "Ground where you mostly play, in winter",
        "chips",
        Group.GROUND,
        choices=(*_GROUND, Choice("not_played", "I don't play then")),
    ),
    Question("grass", "Grass", "chips", Group.GROUND, choices=_chips("Fine", "Coarse")),
    Question(
        "sand",
        "Sand where you mostly play",
        "several",
        Group.GROUND,
        choices=_chips("Fluffy", "Soft", "Firm", "Coarse", "Wet", "Thin over base"),
        help="More than one if the bunkers differ.",
    ),
)

_SHORT_GAME = (
    Question(
        "hands_in_sand",
        "How does the player hold the hands in sand?",
        "chips",
        Group.SWING,
        choices=_chips("Low", "Normal", "High"),
        askable_at_home=False,
        help="Low hands ask for a flatter lie in the club that is opened.",
    ),
    Question(
        "chips_on",
        "How does the club sit when the player chips?",
        "chips",
        Group.SWING,
        choices=_chips("On its sole", "On the toe"),
        askable_at_home=False,
    ),
)

_PRACTICE = (
    Question(
        "rounds_a_year",
        "Rounds a year",
        "number",
        Group.PRACTICE,
        unit="rounds",
        low=Decimal(0),
        high=Decimal(500),
    ),
    Question(
        "season",
        "Which months do you play?",
        "chips",
        Group.PRACTICE,
        choices=_chips("All year", "April to October", "October to April"),
    ),
    Question(
        "balls_a_week",
        "Balls hit with wedges in a week",
        "number",
        Group.PRACTICE,
        unit="balls",
        low=Decimal(0),
        high=Decimal(5000),
    ),
    Question(
        "mats",
        "Where do you practise?",
        "chips",
        Group.PRACTICE,
        choices=_chips("Mostly on mats", "Half and half", "Mostly on grass", "I don't practise"),
    ),
    Question(
        "sand_practice",
        "Do you practise in sand?",
        "chips",
        Group.PRACTICE,
        choices=_chips("Never", "Sometimes", "Often"),
    ),
    Question("ball", "Which ball do you play?", "text", Group.PRACTICE),
    Question(
        "groove_rule",
        "Do you play events under the groove rule?",
        "chips",
        Group.PRACTICE,
        choices=(*_YES_NO, Choice("not_sure", "Not sure")),
    ),
)

_CLUBS = (
    Question(
        "wedge_age",
        "How old are your wedges?",
        "number",
        Group.CLUBS,
        unit="years",
        low=Decimal(0),
        high=Decimal(60),
    ),
    Question(
        "wedges_wanted",
        "How many wedges beside the pitching wedge?",
        "chips",
        Group.CLUBS,
        choices=_chips("One", "Two", "Three", "Four"),
        help="As the player wishes; the plan says what fits.",
    ),
    Question("iron_shaft", "Shaft in your irons", "text", Group.CLUBS),
    Question(
        "iron_shaft_material",
        "Steel or graphite in your irons",
        "chips",
        Group.CLUBS,
        choices=_chips("Steel", "Graphite"),
    ),
    Question(
        "iron_shaft_g",
        "Weight of the shaft in your irons",
        "number",
        Group.CLUBS,
        askable_at_home=False,
        unit="g",
        low=Decimal(30),
        high=Decimal(160),
        help="As its label or the maker says, uncut.",
    ),
    Question(
        "iron_length",
        "Length of your irons",
        "text",
        Group.CLUBS,
        help="In figures if you know them, or “as bought”.",
    ),
    Question("iron_lie", "Lie of your irons", "text", Group.CLUBS),
    Question(
        "iron_lie_deg",
        "Lie of your irons against stock",
        "number",
        Group.CLUBS,
        askable_at_home=False,
        unit="degrees",
        low=Decimal("-20"),
        high=Decimal(15),
        help="Flat is negative, upright positive, stock is 0.",
    ),
    Question(
        "irons_changing",
        "Are you about to change your irons?",
        "chips",
        Group.CLUBS,
        choices=(*_YES_NO, Choice("perhaps", "Perhaps")),
    ),
    Question(
        "look_disliked",
        "Is there a look that you dislike when you stand over a wedge?",
        "text",
        Group.CLUBS,
    ),
)

_BODY = (
    Question(
        "glove",
        "Do you wear gloves?",
        "chips",
        Group.BODY,
        choices=_chips("None", "One", "Both hands"),
    ),
    Question(
        "hands",
        "Do your hands or fingers hurt, or are they stiff?",
        "chips",
        Group.BODY,
        choices=_chips("No", "A little", "Yes"),
    ),
    Question(
        "posture",
        "How do you play?",
        "chips",
        Group.BODY,
        choices=_chips("Standing", "Seated", "One arm"),
    ),
    Question(
        "pain",
        "Does anything hurt when you swing?",
        "text",
        Group.BODY,
        help="If it does: stop. A doctor or physiotherapist decides.",
    ),
)

QUESTIONS: tuple[Question, ...] = (
    *_REASON,
    *_GAME,
    *_SWING,
    *_SHORT_GAME,
    *_GROUND_AND_SAND,
    *_PRACTICE,
    *_CLUBS,
    *_BODY,
)

BY_KEY: dict[str, Question] = {question.key: question for question in QUESTIONS}

# What a sole is suggested from: a spec says which of these are still open.
NEEDED_FOR_A_SOLE: tuple[str, ...] = (
    "attack",
    "ground_summer",
    "ground_winter",
    "sand",
    "face_opened",
)
