"""The interview: each answer is added to what was said before, the last one counts."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused
from fitshop.services.audit import audit_record
from sessions.maths.loft_binding import MOST_WEDGES
from sessions.models import Answer, Interview, Overruling, Visit
from sessions.rules.interview import answer_refusal
from sessions.rules.interview_questions import BY_KEY
from sessions.rules.plan_wedges import wedges_said
from sessions.rules.slot_suggestions import Suggestion, Topic
from sessions.services.capture import refuse_another, refuse_other_words, visit_locked
from sessions.services.visits import sequence_take


@transaction.atomic
def interview_answer(
    *,
    visit: Visit,
    answer_id: UUID,
    question: str,
    value: Any,
    ask_later: bool = False,
    said_by: str = Answer.SaidBy.PLAYER,
    said_where: str = Answer.SaidWhere.SHOP,
    by: Actor,
    at: datetime,
) -> Answer:
    """Add an answer, or that a question is to be asked later. It may come after the close.

    Asked later, the answer that stands goes on standing, with who said it.

    Raises Refused, StateRefused, FieldsRefused. Writes Interview, Answer, AuditEntry.
    """
    visit = visit_locked(visit, by=by)
    known = Answer.objects.filter(pk=answer_id).first()
    if known is not None:
        refuse_another(
            known, question=question, ask_later=ask_later, **({} if ask_later else {"value": value})
        )
        return known

    asked = BY_KEY.get(question)
    if asked is None:
        raise FieldsRefused({"question": "This question is not in the interview."})
    refuse_other_words(
        {"said_by": said_by, "said_where": said_where},
        {"said_by": Answer.SaidBy, "said_where": Answer.SaidWhere},
    )
    interview = _begun(visit, at)
    earlier = interview.answers.filter(question=question).order_by("-sequence").first()
    stands = earlier if ask_later else None
    kept = stands.value if stands else (None if ask_later else value)
    refusal = answer_refusal(asked, kept)
    if refusal is not None:
        raise FieldsRefused({"value": refusal}, code="interview.no_answer")

    answer = Answer.objects.create(
        id=answer_id,
        interview=interview,
        sequence=sequence_take(visit),
        question=question,
        value=kept,
        ask_later=ask_later,
        said_by=(stands.said_by if stands else said_by) or Answer.SaidBy.PLAYER,
        said_where=(stands.said_where if stands else said_where) or Answer.SaidWhere.SHOP,
        said_at=at,
        recorded_by=by.name,
    )
    audit_record(
        action="fitting.interview.answered",
        subject=answer,
        before={"value": earlier.value} if earlier else None,
        after={"question": question, "value": kept, "ask_later": ask_later},
        by=by,
        at=at,
    )
    return answer


@transaction.atomic
def interview_close(*, visit: Visit, by: Actor, at: datetime) -> Interview:
    """Say that the interview is done; what was put off stays open to be asked.

    Raises Refused, StateRefused. Writes Interview, AuditEntry.
    """
    visit = visit_locked(visit, by=by)
    interview = _begun(visit, at)
    if interview.closed_at is not None:
        return interview

    interview.closed_at = at
    interview.closed_by = by.name
    interview.save(update_fields=["closed_at", "closed_by"])
    audit_record(action="fitting.interview.closed", subject=interview, by=by, at=at)
    return interview


@transaction.atomic
def suggestion_overrule(
    *,
    visit: Visit,
    slot: int,
    suggestion: Suggestion,
    instead: str,
    reason: str,
    by: Actor,
    at: datetime,
) -> Overruling:
    """Set a slot's suggestion aside with a reason; without `instead` it counts again.

    Raises Refused, StateRefused, FieldsRefused. Writes Interview, Overruling, AuditEntry.
    """
    visit = visit_locked(visit, by=by)
    instead, reason = instead.strip(), reason.strip()
    _refuse_texts({"instead": (instead, 200, False), "reason": (reason, 300, True)})
    if suggestion.topic is Topic.WEDGES and instead and wedges_said(instead) is None:
        raise FieldsRefused({"instead": f"Say how many wedges: 1 to {MOST_WEDGES}."})

    row = Overruling.objects.create(
        interview=_begun(visit, at),
        sequence=sequence_take(visit),
        slot=slot,
        topic=suggestion.topic.value,
        suggested=suggestion.words,
        instead=instead,
        reason=reason,
        overruled_by=by.name,
        overruled_at=at,
    )
    audit_record(
        action="fitting.suggestion.overruled",
        subject=row,
        before={"suggested": suggestion.words},
        after={"slot": slot, "topic": row.topic, "instead": instead, "reason": reason},
        by=by,
        at=at,
    )
    return row


def _refuse_texts(typed: dict[str, tuple[str, int, bool]]) -> None:
    """Refuse texts by field: what was typed, how many letters fit, whether it must be there."""
    wrong = {}
    for field, (text, most, is_needed) in typed.items():
        if len(text) > most:
            wrong[field] = f"That is {len(text)} letters; at most {most} fit."
        elif is_needed and not text:
            wrong[field] = "Say why: whoever reads it later wasn't there."
    if wrong:
        raise FieldsRefused(wrong)


def _begun(visit: Visit, at: datetime) -> Interview:
    interview, _ = Interview.objects.get_or_create(visit=visit, defaults={"started_at": at})
    return interview
