"""As flown or normalised, answered afterwards: added to the visit, only while it is recorded."""

import pytest

from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused
from sessions.models import FiguresAnswer, Visit
from sessions.services.figures import figures_answer
from tests.fixtures_decide import Room

pytestmark = pytest.mark.django_db


def test_answers_are_added_and_keep_their_order() -> None:
    room = Room()
    for answer in ("normalised", "as_flown"):
        figures_answer(visit=room.visit, answer=answer, by=room.by, at=room.at)
    rows = FiguresAnswer.objects.filter(visit=room.visit)
    assert [row.answer for row in rows] == ["normalised", "as_flown"]
    assert rows[1].answered_by == "Mara Quill"
    assert rows[1].sequence > rows[0].sequence


@pytest.mark.parametrize("answer", ["", "unanswered", "perhaps"])
def test_only_the_two_answers_are_taken(answer: str) -> None:
    room = Room()
    with pytest.raises(FieldsRefused):
        figures_answer(visit=room.visit, answer=answer, by=room.by, at=room.at)
    assert not FiguresAnswer.objects.exists()


def test_a_closed_visit_is_answered_no_more() -> None:
    room = Room()
    Visit.objects.filter(pk=room.visit.pk).update(state="closed", closed_at=room.at)
    with pytest.raises(Refused):
        figures_answer(visit=room.visit, answer="as_flown", by=room.by, at=room.at)
    assert not FiguresAnswer.objects.exists()
