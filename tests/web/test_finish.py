"""The end of a visit: what is open, the summary, the close."""

import pytest
from django.urls import reverse

from fitshop.models import OutgoingMessage, Shop
from sessions.documents import spec_sheet
from sessions.models import Decision, Visit
from sessions.models.specs import READ_BACK
from sessions.services.specs import spec_check, spec_draft, spec_sign, warning_accept
from tests.spec_room import AT, Room, shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(client):
    shop()
    room = Room()
    client.force_login(signed_in(room.location))
    return room


def signed(room):
    spec = spec_draft(visit=room.visit, by=room.fitter, at=AT)
    for finding in spec_check(spec=spec, by=room.fitter, at=AT):
        if finding.wants_a_look:
            warning_accept(
                spec=spec, rule=finding.id, fields=finding.fields, reason="liked",
                by=room.fitter, at=AT,
            )  # fmt: skip
    return spec_sign(spec=spec, edition=spec.edition, read_back=READ_BACK, by=room.fitter, at=AT)


def page(client, room):
    return client.get(reverse("finish", args=[room.visit.pk])).content.decode()


def test_an_unsigned_spec_and_an_open_trial_are_said(client, room):
    room.trial.state = "open"
    room.trial.save()
    spec_draft(visit=room.visit, by=room.fitter, at=AT)
    text = page(client, room)
    assert "Trial 1 is still in the player&#x27;s hand." in text
    assert "The spec is not signed." in text
    assert "There is no signed spec" in text


def test_without_consent_the_page_says_why_nothing_will_go(client, room):
    signed(room)
    text = page(client, room)
    assert "It will not be sent." in text
    assert "The player has not agreed to e-mail." in text


def test_closing_sends_the_summary_that_could_be_read_before(client, room):
    signed(room)
    room.agree_to_mail()
    text = page(client, room)
    assert "ivo@players.invalid" in text
    assert "Hello Ivo," in text
    client.post(reverse("visit_close", args=[room.visit.pk]))
    assert Visit.objects.get(pk=room.visit.pk).state == "closed"
    assert OutgoingMessage.objects.count() == 1
    assert "waiting" in page(client, room)


def test_a_consent_given_afterwards_still_sends_it(client, room):
    signed(room)
    client.post(reverse("visit_close", args=[room.visit.pk]))
    assert not OutgoingMessage.objects.exists()
    room.agree_to_mail()
    client.post(reverse("summary_send", args=[room.visit.pk]))
    assert OutgoingMessage.objects.count() == 1


def test_the_letter_is_shown_as_it_was_queued(client, room):
    signed(room)
    room.agree_to_mail()
    client.post(reverse("visit_close", args=[room.visit.pk]))
    Decision.objects.update(reason="something else")
    text = page(client, room)
    assert "Why: cleaner out of turf" in text
    assert "something else" not in text


def test_a_sheet_printed_again_is_the_one_that_went_with_the_letter(client, room):
    spec = signed(room)
    room.agree_to_mail()
    client.post(reverse("visit_close", args=[room.visit.pk]))
    (attached,) = OutgoingMessage.objects.get().attachments
    went = spec_sheet.pdf(attached["values"])
    Decision.objects.update(reason="something else")
    Shop.objects.update(name="Another name")
    again = client.get(reverse("spec_sheet", args=[room.visit.pk, spec.pk]))
    assert again.content == went


def test_the_sheet_of_a_version_that_was_replaced_is_on_the_specs_page(client, room):
    first = signed(room)
    signed(room)
    text = client.get(reverse("spec", args=[room.visit.pk])).content.decode()
    assert reverse("spec_sheet", args=[room.visit.pk, first.pk]) in text


def test_a_replaced_letter_of_unknown_fate_offers_no_second_sending(client, room, settings):
    settings.SECOND_FACTOR_ROLES = ()
    signed(room)
    room.agree_to_mail()
    client.post(reverse("visit_close", args=[room.visit.pk]))
    letter = OutgoingMessage.objects.get()
    OutgoingMessage.objects.update(status="unknown")
    client.force_login(signed_in(room.location, "pia", "desk"))
    address = reverse("message", args=[letter.pk])
    assert "Send again" in client.get(address).content.decode()
    signed(room)
    text = client.get(address).content.decode()
    assert "Send again" not in text
    assert "It was delivered" in text
    assert "no longer holds" in text
