"""The fitting summary: once for each visit and signed spec, and refused in words."""

from datetime import timedelta

import pytest

from fitshop.models import AuditEntry, OutgoingMessage
from sessions.models import Decision
from sessions.services.specs import spec_check, spec_draft, spec_sign, warning_accept
from sessions.services.summaries import SummaryRefused, summary_queue
from sessions.services.visits import visit_close
from tests.spec_room import AT, Room, shop

pytestmark = pytest.mark.django_db


def signed(room, at=AT):
    spec = spec_draft(visit=room.visit, by=room.fitter, at=at)
    for finding in spec_check(spec=spec, by=room.fitter, at=at):
        if finding.wants_a_look:
            warning_accept(
                spec=spec, rule=finding.id, fields=finding.fields, reason="tried and liked",
                by=room.fitter, at=at,
            )  # fmt: skip
    return spec_sign(spec=spec, edition=spec.edition, by=room.fitter, at=at)


@pytest.fixture
def room():
    shop()
    room = Room()
    room.agree_to_mail()
    return room


def queued(room):
    return summary_queue(visit=room.visit, by=room.fitter, at=AT)


def test_the_letter_says_what_was_chosen_why_and_what_leaves(room):
    signed(room)
    letter = queued(room)
    assert (letter.recipient_email, letter.recipient_name) == (
        "ivo@players.invalid", "Ivo Brandvold",
    )  # fmt: skip
    assert letter.mail_subject == "Your wedge fitting at Low Meadow Golf, Fri 7 May 2027"
    for said in (
        "Hello Ivo,",
        "2. Sand wedge, 55° (stamped 56, bent 1 strong): new, to be built.",
        "Why: cleaner out of turf",
        "1. Own 50, 50.5° (stamped 50): yours, stays as it is.",
        "LEAVES THE BAG\n- 56",
        "- Fix: Sand, fixed",
        "give or take",
        "groove check",
        "Mara Quill\nLow Meadow Golf",
    ):
        assert said in letter.body_text
    assert "\n\n\n" not in letter.body_text
    assert "55° (stamped 56, bent 1 strong)" in letter.body_html
    assert "<style" not in letter.body_html
    assert "src=" not in letter.body_html


def test_the_sheet_goes_along_as_frozen_values(room):
    signed(room)
    letter = queued(room)
    (attached,) = letter.attachments
    assert (attached["name"], attached["document"]) == ("spec-sheet-version-1.pdf", "spec_sheet")
    Decision.objects.update(reason="something else")
    letter.refresh_from_db()
    assert letter.attachments[0]["values"]["clubs"][1]["why"] == "cleaner out of turf"


def test_asked_twice_it_goes_once(room):
    signed(room)
    assert queued(room).pk == queued(room).pk
    assert AuditEntry.objects.filter(action="fitting.summary.queued").count() == 1


def test_a_later_spec_has_a_letter_of_its_own(room):
    signed(room)
    first = queued(room)
    signed(room, AT + timedelta(hours=1))
    second = queued(room)
    assert (first.occasion, second.occasion) == ("spec 1", "spec 2")


def test_closing_the_visit_makes_it_due(room):
    signed(room)
    visit_close(visit=room.visit, by=room.fitter, at=AT)
    assert OutgoingMessage.objects.get().occasion == "spec 1"


def test_a_visit_without_a_signed_spec_closes_without_a_letter(room):
    visit_close(visit=room.visit, by=room.fitter, at=AT)
    assert not OutgoingMessage.objects.exists()
    with pytest.raises(SummaryRefused, match="no signed spec"):
        queued(room)


def test_without_consent_nothing_goes(room):
    signed(room)
    room.player.consents.update(withdrawn_at=AT)
    with pytest.raises(SummaryRefused, match="not agreed to e-mail"):
        queued(room)
    visit_close(visit=room.visit, by=room.fitter, at=AT)
    assert not OutgoingMessage.objects.exists()


def test_without_an_address_nothing_goes(room):
    signed(room)
    room.player.email = ""
    room.player.save()
    with pytest.raises(SummaryRefused, match="player's e-mail address is not recorded"):
        queued(room)


def test_a_child_s_letter_goes_to_the_guardian_who_agreed():
    shop()
    room = Room(kind="junior", email="child@players.invalid")
    signed(room)
    consent = room.agree_to_mail()
    with pytest.raises(SummaryRefused, match="guardian's consent"):
        queued(room)
    consent.given_by = "guardian"
    consent.save()
    with pytest.raises(SummaryRefused, match="guardian's e-mail"):
        queued(room)
    room.player.guardian_email = "ane@players.invalid"
    room.player.guardian_name = "Ane Brandvold"
    room.player.save()
    letter = queued(room)
    assert (letter.recipient_email, letter.recipient_name) == (
        "ane@players.invalid", "Ane Brandvold",
    )  # fmt: skip
    assert "Hello Ane Brandvold, about Ivo's clubs," in letter.body_text
    assert "Growing players outgrow clubs" in letter.body_text
