"""Comparisons: neutral numbers, what is blind, ratings before and after the reveal."""

from uuid import uuid4

import pytest

from fitshop.models import AuditEntry
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import Comparison, Peek, Rating
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


def test_the_same_seed_draws_the_same_numbers(room):
    trials = three_soles(room)
    first = opened(room, trials, seed=11)
    comparison_reveal(comparison=first, by=room.by, at=AT)
    second = opened(room, trials, seed=11)
    assert [(a.trial_id, a.code) for a in first.arms.all()] == [
        (a.trial_id, a.code) for a in second.arms.all()
    ]


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
