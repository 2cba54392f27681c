"""Comparisons: neutral numbers, what is blind, ratings before and after the reveal."""

from uuid import uuid4

import pytest

from fitshop.models import AuditEntry
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import Comparison, ComparisonArm, Peek, Rating
from sessions.selectors.capture_trials import balance_words
from sessions.selectors.evidence import visit_evidence
from sessions.services.comparisons import (
    comparison_open,
    comparison_peek,
    comparison_rate,
    comparison_reveal,
)
from tests.fixtures_decide import AT, Room

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return Room()


def opened(room, trials, covered=True, seed=7, **more):
    return comparison_open(
        visit=room.visit, comparison_id=uuid4(), slot=2, trials=trials, covered=covered,
        seed=seed, by=room.by, at=AT, **more,
    )  # fmt: skip


def three_soles(room):
    return [room.head_trial(room.head("56", b, m)) for m, b in
            (("Sedge", "8"), ("Reed", "10"), ("Rush", "12"))]  # fmt: skip


def test_numbers_have_two_digits_and_the_order_ends_with_its_first_club(room):
    comparison = opened(room, three_soles(room))
    codes = sorted(comparison.arms.values_list("code", flat=True))
    assert len(set(codes)) == 3
    assert min(codes) >= 10
    assert max(codes) <= 99
    assert sorted(comparison.order[:-1]) == codes
    assert comparison.order[-1] == comparison.order[0]


def test_a_neutral_number_never_comes_twice_in_a_visit(room):
    trials = three_soles(room)
    # One seed all the time: only what was used makes the next numbers others.
    drawn = [run(room, trials, seed=11) for _ in range(4)]
    drawn += [run(room, trials, seed=11, kind="head_to_head") for _ in range(3)]
    codes = [arm.code for one in drawn for arm in one.arms.all()]
    assert len(codes) == 4 * 3 + 3 * 2
    assert len(set(codes)) == len(codes)


def test_when_the_neutral_numbers_are_used_up_the_draw_is_refused(room):
    trials = three_soles(room)
    spent = opened(room, trials)
    comparison_reveal(comparison=spent, by=room.by, at=AT)
    free = sorted(set(range(10, 100)) - set(spent.arms.values_list("code", flat=True)))
    others = [room.own_trial(room.club("wedge", str(code), None)) for code in free[2:]]
    ComparisonArm.objects.bulk_create(
        ComparisonArm(comparison=spent, trial=trial, code=code)
        for trial, code in zip(others, free[2:], strict=True)
    )
    with pytest.raises(FieldsRefused) as refused:
        opened(room, trials)
    assert (refused.value.code, list(refused.value.errors)) == (
        "comparison.not_drawn", ["trial_ids"],
    )  # fmt: skip
    assert sorted(opened(room, trials[:2]).order[:-1]) == free[:2]


def test_clubs_that_differ_in_several_things_are_drawn_only_knowingly(room):
    sole = [room.head_trial(room.head("56", b, m)) for m, b in (("Sedge", "8"), ("Rush", "12"))]
    several = [*sole, room.head_trial(room.head("52", "12", "Reed"))]
    with pytest.raises(FieldsRefused) as refused:
        opened(room, several)
    assert refused.value.code == "comparison.several_differ"
    assert list(refused.value.errors) == ["knowingly"]
    assert "clubs 1 and 3 in loft and sole" in refused.value.errors["knowingly"]
    assert not Comparison.objects.exists()
    comparison_reveal(comparison=opened(room, sole), by=room.by, at=AT)
    knowingly = opened(room, several, knowingly=True)
    audited = AuditEntry.objects.filter(action="fitting.comparison.opened").latest("pk").after
    assert audited["several_differ"] == [[str(several[0].pk), str(several[2].pk), ["loft", "sole"]]]
    assert knowingly.arms.count() == 3


def run(room, trials, seed, **more):
    comparison = opened(room, trials, seed=seed, **more)
    comparison_reveal(comparison=comparison, by=room.by, at=AT)
    return comparison


def test_later_comparisons_of_the_same_clubs_fill_the_square(room):
    trials = three_soles(room)
    # One seed all the time: only what was used makes the next order another.
    run_ones = [run(room, trials if turn % 2 else trials[::-1], seed=7) for turn in range(6)]
    assert sorted(one.row for one in run_ones) == [0, 1, 2, 3, 4, 5]
    assert len({one.trials_in_turn() for one in run_ones}) == 6
    assert {one.kind for one in run_ones} == {"all_against_all"}
    # Full: the next square begins, with numbers of its own seed.
    assert run(room, trials, seed=8).row in range(6)


def test_head_to_head_goes_over_all_pairs_and_then_the_other_way_round(room):
    trials = three_soles(room)
    met = [run(room, trials, seed, kind="head_to_head") for seed in range(6)]
    turns = [one.trials_in_turn() for one in met]
    assert [one.arms.count() for one in met] == [2] * 6
    assert len({frozenset(turn) for turn in turns[:3]}) == 3
    assert len(set(turns)) == 6
    assert {(len(one.chosen), one.seed, one.order[0] == one.order[-1]) for one in met} == {
        (3, seed, True) for seed in range(6)
    }


def test_only_the_two_that_meet_have_to_look_alike(room):
    trials = three_soles(room)
    black = room.head_trial(room.head("54", "10", "Coot", finish="black"))
    first = run(room, [*trials[:2], black], seed=1, kind="head_to_head", knowingly=True)
    is_black_in = str(black.pk) in first.trials_in_turn()
    assert first.hiding == ("hidden_order" if is_black_in else "blind")


def test_another_kind_other_clubs_and_an_abandoned_draw_use_up_nothing(room):
    trials = three_soles(room)
    run(room, trials[:2], seed=1, kind="head_to_head")
    run(room, trials, seed=2)
    abandoned = opened(room, trials[:2], seed=3)
    Comparison.objects.filter(pk=abandoned.pk).update(state="abandoned")
    told = run(room, trials[:2], seed=3)
    assert told.row == abandoned.row
    assert balance_words(list(room.visit.comparisons.all())) == (
        "1 of 2 orders used; balanced when all are."
    )


def test_how_far_balance_goes_is_said_and_claimed_for_the_whole_square_only(room):
    trials = three_soles(room)[:2]
    said = []
    for seed in range(3):
        run(room, trials, seed)
        said.append(balance_words(list(room.visit.comparisons.all())))
    assert said == [
        "1 of 2 orders used; balanced when all are.",
        "All 2 orders used: balanced.",
        "1 of 2 orders used again; balanced when all are.",
    ]


def test_of_three_heads_six_meetings_make_the_balance(room):
    run(room, three_soles(room), 1, kind="head_to_head")
    assert balance_words(list(room.visit.comparisons.all())) == (
        "1 of 6 meetings used; balanced when all are."
    )


def test_a_comparison_from_before_orders_were_numbered_says_nothing_of_balance(room):
    comparison = run(room, three_soles(room), seed=1)
    Comparison.objects.filter(pk=comparison.pk).update(row=None, chosen=[])
    assert balance_words(list(room.visit.comparisons.all())) == ""


def test_a_kind_that_is_none_is_refused_beside_its_field(room):
    with pytest.raises(FieldsRefused) as refused:
        opened(room, three_soles(room), kind="knockout")
    assert list(refused.value.errors) == ["kind"]


def test_covered_soles_alike_in_finish_grip_and_shaft_are_blind(room):
    assert opened(room, three_soles(room)).hiding == Comparison.Hiding.BLIND


def test_uncovered_or_unlike_clubs_are_only_in_hidden_order(room):
    first = opened(room, three_soles(room), covered=False)
    assert first.hiding == Comparison.Hiding.HIDDEN_ORDER
    comparison_reveal(comparison=first, by=room.by, at=AT)
    unlike = [
        room.head_trial(room.head("54", "8", "Teal")),
        room.head_trial(room.head("54", "10", "Coot", finish="black")),
    ]
    assert opened(room, unlike).hiding == Comparison.Hiding.HIDDEN_ORDER


def test_ratings_are_marked_as_before_or_after_the_reveal(room):
    comparison = opened(room, three_soles(room))
    code = comparison.order[0]
    before = comparison_rate(comparison=comparison, rating_id=uuid4(), code=code, about="turf",
                             score=4, by=room.by, at=AT)  # fmt: skip
    comparison.refresh_from_db()
    assert comparison.state == "running"
    comparison_reveal(comparison=comparison, by=room.by, at=AT)
    after = comparison_rate(comparison=comparison, rating_id=uuid4(), code=code, about="feel",
                            score=2, by=room.by, at=AT)  # fmt: skip
    assert before.before_reveal is True
    assert after.before_reveal is False
    assert before.trial_id == comparison.arms.get(code=code).trial_id


def test_rating_twice_with_one_id_is_rating_once(room):
    comparison = opened(room, three_soles(room))
    rating = {"comparison": comparison, "rating_id": uuid4(), "code": comparison.order[0],
              "about": "look", "score": 5, "by": room.by, "at": AT}  # fmt: skip
    comparison_rate(**rating)
    comparison_rate(**rating)
    assert Rating.objects.count() == 1


def rate(room, comparison, code, score, about="feel", **more):
    return comparison_rate(comparison=comparison, rating_id=uuid4(), code=code, about=about,
                           score=score, by=room.by, at=AT, **more)  # fmt: skip


def test_the_first_club_is_rated_anew_when_it_comes_again(room):
    comparison = opened(room, three_soles(room))
    code, last = comparison.order[0], len(comparison.order) - 1
    first = rate(room, comparison, code, 5, turn=0)
    again = rate(room, comparison, code, 2, turn=last)
    assert (first.turn, again.turn, first.trial_id) == (0, 3, again.trial_id)
    # A tablet that was loaded earlier says no turn: it is the club's first.
    assert rate(room, comparison, comparison.order[1], 3).turn == 1
    with pytest.raises(FieldsRefused) as refused:
        rate(room, comparison, code, 4, turn=1)
    assert refused.value.code == "comparison.other_turn"

    comparison_reveal(comparison=comparison, by=room.by, at=AT)
    (club,) = [c for c in visit_evidence(room.visit).clubs if first.trial_id in c.trial_ids]
    rounds = {asked.round: score for asked, score in club.ratings.items()}
    assert rounds == {str(comparison.pk): 5, f"{comparison.pk} again": 2}


def test_a_rating_is_stored_with_the_situation_that_it_was_given_in(room):
    trials = three_soles(room)[:2]
    room.block(trials[0], hit_from="rough")
    comparison = opened(room, trials)
    code = comparison.arms.get(trial=trials[0]).code
    # What was hit before the draw is not what was just felt.
    assert rate(room, comparison, code, 3).swing == ""
    room.block(trials[0], swing="half", hit_from="tight", ground="firm", target_m=45.72)
    told = rate(room, comparison, code, 3)
    assert (told.swing, told.hit_from, told.ground, told.target_m) == (
        "half", "tight", "firm", 45.72,
    )  # fmt: skip
    chosen = rate(room, comparison, code, 3, situation={
        "swing": "sand", "hit_from": "sand_firm", "ground": "normal", "wetness": "dry",
        "face": "wide_open",
    })  # fmt: skip
    assert (chosen.swing, chosen.face, chosen.target_m) == ("sand", "wide_open", None)
    with pytest.raises(FieldsRefused) as refused:
        rate(room, comparison, code, 3, situation={"swing": "swipe"})
    assert list(refused.value.errors) == ["swing"]


@pytest.mark.parametrize(
    ("about", "score", "field"), [("turf", 0, "score"), ("turf", 6, "score"), ("smell", 3, "about")]
)
def test_a_rating_off_the_scale_is_refused_beside_its_field(room, about, score, field):
    comparison = opened(room, three_soles(room))
    with pytest.raises(FieldsRefused) as refused:
        comparison_rate(comparison=comparison, rating_id=uuid4(), code=comparison.order[0],
                        about=about, score=score, by=room.by, at=AT)  # fmt: skip
    assert list(refused.value.errors) == [field]
    assert not Rating.objects.exists()


def test_a_look_behind_a_number_is_recorded_and_refused_once_revealed(room):
    comparison = opened(room, three_soles(room))
    comparison_peek(comparison=comparison, code=comparison.order[1], by=room.by, at=AT)
    assert Peek.objects.get().peeked_by == "Mara Quill"
    comparison_reveal(comparison=comparison, by=room.by, at=AT)
    with pytest.raises(StateRefused):
        comparison_peek(comparison=comparison, code=comparison.order[1], by=room.by, at=AT)


def test_a_comparison_is_revealed_once_and_only_one_runs(room):
    trials = three_soles(room)
    comparison = opened(room, trials)
    with pytest.raises(StateRefused, match="reveal it first"):
        opened(room, trials)
    comparison_reveal(comparison=comparison, by=room.by, at=AT)
    with pytest.raises(StateRefused):
        comparison_reveal(comparison=comparison, by=room.by, at=AT)
    assert AuditEntry.objects.filter(action="fitting.comparison.revealed").count() == 1


def test_one_club_is_no_comparison(room):
    with pytest.raises(FieldsRefused, match="2 to 8 heads"):
        opened(room, [room.head_trial(room.head("56"))])


def test_evidence_names_no_head_before_the_reveal(room):
    trials = three_soles(room)
    room.hit(room.block(trials[0]), 80, 82)
    comparison = opened(room, trials)
    hidden = visit_evidence(room.visit)
    assert all(club.name.startswith("Number ") for club in hidden.clubs)
    assert not any(c.loft_words or c.bounce_words or c.sole_words for c in hidden.clubs)
    comparison_reveal(comparison=comparison, by=room.by, at=AT)
    assert {"Sedge", "Reed", "Rush"} == {
        club.name.split()[2] for club in visit_evidence(room.visit).clubs
    }
