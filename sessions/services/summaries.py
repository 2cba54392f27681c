"""The fitting summary: due once for each visit and signed spec, with or without an order."""

from __future__ import annotations

from datetime import datetime

from django.db import transaction

from fitshop.actor import Actor
from fitshop.models import OutgoingMessage
from fitshop.refusals import StateRefused
from fitshop.services.audit import audit_record
from fitshop.services.messages import message_queue, messages_withdraw
from sessions.documents import summary
from sessions.models import Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.finish import SUBJECT, SUMMARY, summary_messages, summary_occasion
from sessions.selectors.people import addressee_of
from sessions.selectors.spec_sheet import letter_values, sheet_values, summary_refusal
from sessions.selectors.specs import signed_spec


class SummaryRefused(StateRefused):
    """No signed spec, no consent or no address; `sentence` says which."""


@transaction.atomic
def summary_queue(*, visit: Visit, by: Actor, at: datetime) -> OutgoingMessage:
    """Make the summary of a visit due, with its spec sheet as promised.

    Asked again for the same signed spec: the same letter. Where a letter about an earlier version
    may have reached the player, this one says that it replaces it. Raises Refused, SummaryRefused.
    Writes OutgoingMessage, AuditEntry.
    """
    room = Visit.objects.select_for_update(of=("self",)).get(pk=visit.pk)
    FITTING_POLICY.require(by, FittingAction.SUMMARY_QUEUE, location_id=room.location_id)
    why_not = summary_refusal(room)
    spec = signed_spec(room)
    addressee = addressee_of(room.player)
    if why_not is not None or spec is None or addressee is None:
        raise SummaryRefused(why_not or "There is no signed spec.")
    occasion = summary_occasion(spec)
    known = summary_messages(room).filter(occasion=occasion).first()
    if known is not None:
        return known

    letter = letter_values(spec)
    message = message_queue(
        kind=SUMMARY,
        subject_type=SUBJECT,
        subject_id=str(room.pk),
        occasion=occasion,
        recipient_email=addressee.email,
        recipient_name=addressee.name,
        mail_subject=summary.subject(letter)[:200],
        body_text=summary.text(letter),
        body_html=summary.html(letter),
        attachments=[
            {
                "name": f"spec-sheet-version-{spec.version}.pdf",
                "document": "spec_sheet",
                "values": sheet_values(spec),
            }
        ],
        by=by,
        at=at,
    )
    audit_record(
        action="fitting.summary.queued",
        subject=room,
        after={"spec": spec.version, "message": str(message.pk)},
        by=by,
        at=at,
    )
    return message


def summaries_withdraw(visit: Visit, *, by: Actor, at: datetime) -> None:
    """Stop the summaries that have not left, since their spec no longer holds.

    Part of signing the next version; the letters' own audit rows are its trace.
    """
    messages_withdraw(kind=SUMMARY, subject_type=SUBJECT, subject_id=str(visit.pk), by=by, at=at)
