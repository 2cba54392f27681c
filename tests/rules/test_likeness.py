"""What of two clubs is alike, typed by hand."""

from sessions.rules.likeness import Aspect, Likeness, held_words


def beside(*aspects):
    return Likeness("your 56", aspects)


LOFT = Aspect("loft", "54°", "56°", is_alike=False)
LIE = Aspect("lie", "64°", "63°", is_alike=False)
LENGTH = Aspect("length", "35 in", "35 in", is_alike=True)
GRIP = Aspect("grip", "Cord", "", is_alike=None)


def test_one_change_proves_what_it_proves_and_two_are_said():
    assert beside(LOFT, LENGTH).caution == ""
    assert beside(LOFT, LIE).caution == "2 things differ: there is no telling which of them did it."


def test_alike_not_alike_and_not_known_are_three_things():
    two = beside(LOFT, LENGTH, GRIP)
    assert two.words == "Alike: length. Not alike: loft. Not known: grip."
    assert two.detail == "Alike: length. Not alike: loft 54° against 56°. Not known: grip."


def test_a_comparison_held_what_is_alike_in_all_its_clubs():
    same_loft = Aspect("loft", "56°", "56°", is_alike=True)
    pairs = [beside(same_loft, LENGTH, GRIP), beside(LOFT, LENGTH, GRIP)]
    assert held_words(pairs) == "Held the same: length. Not the same: loft."
    assert held_words([]) == ""
