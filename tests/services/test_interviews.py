"""The interview: added to, put off, and only as one may answer."""

import dataclasses
import uuid

import pytest

from fitshop.models import AuditEntry
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import Answer, Visit
from sessions.selectors.heard import answers_of
from sessions.services.interviews import interview_answer, interview_close
from tests.fixtures_capture import AT, a_fitting

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return a_fitting()


def say(room, **changes):
    values = {
        "visit": room.visit, "answer_id": uuid.uuid4(), "question": "attack", "value": "steep",
        "ask_later": False, "by": room.fitter, "at": AT,
    }  # fmt: skip
    return interview_answer(**{**values, **changes})


def test_an_answer_is_stored_with_who_said_it_and_leaves_a_trace(room):
    answer = say(room, said_by="fitter")
    assert (answer.value, answer.said_by, answer.recorded_by, answer.sequence) == (
        "steep", "fitter", "Odo", 1,
    )  # fmt: skip
    trace = AuditEntry.objects.get(action="fitting.interview.answered")
    assert trace.object_id == str(answer.pk)


def test_a_later_answer_is_added_and_the_first_one_stays(room):
    say(room)
    say(room, value="shallow")
    assert list(Answer.objects.order_by("sequence").values_list("value", flat=True)) == [
        "steep", "shallow",
    ]  # fmt: skip


def test_the_same_answer_twice_is_stored_once(room):
    answer_id = uuid.uuid4()
    first = say(room, answer_id=answer_id)
    again = say(room, answer_id=answer_id)
    assert first == again
    assert Answer.objects.count() == 1


def test_the_same_id_for_another_answer_is_refused(room):
    answer_id = uuid.uuid4()
    say(room, answer_id=answer_id)
    with pytest.raises(StateRefused, match="recorded before with other values"):
        say(room, answer_id=answer_id, value="medium")
    assert Answer.objects.get().value == "steep"


def test_a_question_may_be_put_off(room):
    answer = say(room, value=None, ask_later=True)
    assert (answer.value, answer.ask_later) == (None, True)


def test_asking_later_never_blanks_an_answer_that_stands(room):
    say(room, value="steep", said_by="fitter")
    put_off = say(room, value=None, ask_later=True, said_by="player")
    assert (put_off.value, put_off.ask_later, put_off.said_by) == ("steep", True, "fitter")
    assert answers_of(room.visit) == {"attack": "steep"}
    # Sent again by a tablet that got no receipt.
    assert say(room, answer_id=put_off.pk, value=None, ask_later=True) == put_off


def test_what_was_to_be_asked_later_is_answered_anew(room):
    say(room, value="steep")
    say(room, value=None, ask_later=True)
    say(room, value="shallow")
    last = Answer.objects.order_by("sequence").last()
    assert (last.value, last.ask_later) == ("shallow", False)
    assert answers_of(room.visit) == {"attack": "shallow"}


def test_an_answer_outside_its_range_is_refused_beside_the_field(room):
    with pytest.raises(FieldsRefused) as refused:
        say(room, question="attack_deg", value="-40")
    assert refused.value.errors == {"value": "At least -20 degrees: -40 can't be right."}
    assert not Answer.objects.exists()


def test_a_question_that_is_not_in_the_interview_is_refused(room):
    with pytest.raises(FieldsRefused, match="not in the interview"):
        say(room, question="shoe_size")


def test_closing_twice_keeps_the_first_time_and_answers_still_come_in(room):
    interview_close(visit=room.visit, by=room.fitter, at=AT)
    later = AT.replace(hour=11)
    assert interview_close(visit=room.visit, by=room.fitter, at=later).closed_at == AT
    assert say(room).question == "attack"


def test_a_builder_may_not_record_a_fitting(room):
    with pytest.raises(Refused, match=r"Your account can't record a fitting\. Ask"):
        say(room, by=room.builder)
    assert not Answer.objects.exists()


def test_a_fitter_of_another_location_may_not_either(room):
    stranger = dataclasses.replace(room.fitter, location_ids=frozenset({uuid.uuid4()}))
    with pytest.raises(Refused, match="a location where you don't work"):
        say(room, by=stranger)


def test_a_closed_visit_refuses_with_its_sentence(room):
    Visit.objects.filter(pk=room.visit.pk).update(state="closed", closed_at=AT)
    with pytest.raises(StateRefused, match=r"The visit is not open\. Open it"):
        say(room)
