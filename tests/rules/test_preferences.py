"""The order in which one player liked the clubs, and how sure it is."""

from uuid import uuid4

from sessions.rules.club_evidence import Asked, ClubEvidence, Situation
from sessions.rules.evidence import SlotEvidence
from sessions.rules.preferences import preferred_words


def club(name, ratings, is_hidden=False):
    return ClubEvidence(key=name, trial_ids=(uuid4(),), name=name, is_own=False,
                        ratings=ratings, is_hidden=is_hidden)  # fmt: skip


def said(*clubs):
    return preferred_words(SlotEvidence(1, tuple(clubs), None, ()))


def test_wins_are_counted_by_order_and_the_doubt_is_said():
    text = said(
        club("Rush", {Asked("feel", "one"): 5, Asked("turf", "one"): 4}),
        club("Sedge", {Asked("feel", "one"): 1, Asked("turf", "one"): 3}),
    )
    # Two of two with a belief of standard deviation 1: surer than even, far from certain.
    assert text.startswith(
        "The player preferred, of the times that two were told apart: "
        "Rush (2 of 2) and Sedge (0 of 2). Asked again, Rush before Sedge about "
    )
    assert 60 <= int(text.split("about ")[1].split()[0]) <= 75
    assert text.endswith(" times in 100. With the rounds so far it could still be either.")


def test_after_six_of_six_it_is_no_longer_said_that_it_could_be_either():
    rounds = ("one", "two", "three", "four", "five", "six")
    text = said(
        club("Rush", {Asked("feel", round_): 5 for round_ in rounds}),
        club("Sedge", {Asked("feel", round_): 2 for round_ in rounds}),
    )
    assert "Rush (6 of 6) and Sedge (0 of 6)" in text
    assert text.endswith("Rush before Sedge about 82 times in 100.")


def test_ratings_alike_one_club_or_outside_a_comparison_prefer_none():
    assert (
        said(club("Rush", {Asked("feel", "one"): 4}), club("Sedge", {Asked("feel", "one"): 4}))
        == ""
    )
    assert said(club("Rush", {Asked("feel", "one"): 4})) == ""
    assert said(club("Rush", {Asked("feel", ""): 5}), club("Sedge", {Asked("feel", ""): 1})) == ""


def test_a_club_behind_a_number_is_not_spoken_of():
    hidden = club("Number 42", {Asked("feel", "one"): 5}, is_hidden=True)
    assert said(hidden, club("Sedge", {Asked("feel", "one"): 1})) == ""


def test_what_was_said_in_one_situation_prefers_nothing_in_another():
    full = Situation("full", "Full", "fairway", "fairway")
    sand = Situation("sand", "Sand", "sand_firm", "sand, firm")
    text = said(
        club("Rush", {Asked("feel", "one", full): 5, Asked("feel", "one", sand): 2}),
        club("Sedge", {Asked("feel", "one", full): 1, Asked("feel", "one", sand): 4}),
    )
    # Mixed they would be one win each, and no order at all.
    of_full, of_sand = text.split("Sand from sand, firm: ")
    assert of_full.startswith("Full from fairway: ")
    assert "Rush (1 of 1) and Sedge (0 of 1)" in of_full
    assert "Sedge (1 of 1) and Rush (0 of 1)" in of_sand
    # One club rated in one, the other in the other: nothing to compare.
    apart = said(
        club("Rush", {Asked("feel", "one", full): 5}),
        club("Sedge", {Asked("feel", "one", sand): 1}),
    )
    assert apart == ""
