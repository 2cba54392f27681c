"""The fitting summary: once for each visit and signed spec, and refused in words."""

from datetime import timedelta
from decimal import Decimal

import pytest
from django.db.models import F

from fitshop.actor import Role, system_actor
from fitshop.models import AuditEntry, OutgoingMessage, Shop
from fitshop.services.mail_transport import Fate, Outcome
from fitshop.services.messages import MessageIsDecided, message_decide, message_queue
from fitshop.services.sweep import sweep
from sessions.documents import spec_sheet
from sessions.models import Block, Consent, Decision, FinalSpec, Shot, ShotExclusion, Trial
from sessions.models.specs import READ_BACK
from sessions.rules.player_words import said_to_the_player
from sessions.selectors.spec_sheet import sheet_values
from sessions.services.players import consent_withdraw
from sessions.services.specs import spec_check, spec_draft, spec_sign, warning_accept
from sessions.services.summaries import SummaryRefused, summary_queue
from sessions.services.visits import visit_close, visit_open
from tests.spec_room import AT, Room, a_shaft, shop, staff_actor

pytestmark = pytest.mark.django_db


def signed(room, at=AT):
    spec = spec_draft(visit=room.visit, by=room.fitter, at=at)
    for finding in spec_check(spec=spec, by=room.fitter, at=at):
        if finding.wants_a_look:
            warning_accept(
                spec=spec, rule=finding.id, fields=finding.fields, reason="tried and liked",
                by=room.fitter, at=at,
            )  # fmt: skip
    return spec_sign(spec=spec, edition=spec.edition, read_back=READ_BACK, by=room.fitter, at=at)


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
        "2. Sand wedge, 55° (stamped 56, one degree of loft taken off): new, to be built.",
        "Why: cleaner out of turf",
        "1. Your 50, 50.5° (stamped 50): yours, stays as it is.",
        "YOUR BAG\n- Your old 56 leaves the bag.",
        "- Your shots from sand: that day's balls don't show it. Mara's view: better than before.",
        "HOW YOU HIT THAT DAY (full stock swings, in yards)\n- Sand wedge, 55°: ",
        "- Pitching wedge, 46°: 120 yd, as you told us",
        "- Your 50, 50.5°: ",
        "Bent for you: Sand wedge.",
        "give or take",
        "groove check",
        "Mara Quill\nLow Meadow Golf",
    ):
        assert said in letter.body_text
    assert "\n\n\n" not in letter.body_text
    assert "55° (stamped 56, one degree of loft taken off)" in letter.body_html
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


class Keeps:
    """A mail server that answers as told, and keeps what it was given."""

    def __init__(self, fate=Fate.DELIVERED, meanwhile=lambda: None):
        self.fate, self.meanwhile, self.letters = fate, meanwhile, []

    def send(self, letter, *, before_data):
        self.meanwhile()
        before_data()
        self.letters.append(letter)
        return Outcome(self.fate, "as told")


def swept(mail, at):
    # What is attached is looked at elsewhere: here nothing is rendered.
    OutgoingMessage.objects.update(attachments=[])
    return sweep(transport=mail, clock=lambda: at, by=system_actor("message sweep")).counts


def closed(room, at):
    return visit_close(visit=room.visit, by=room.fitter, at=at)


def fitted_again(room, at):
    """Reopened, a new version signed; not closed yet."""
    visit_open(visit=room.visit, by=room.fitter, at=at)
    return signed(room, at)


def states():
    return dict(OutgoingMessage.objects.values_list("occasion", "status"))


LATER = AT + timedelta(hours=1)


def test_a_summary_that_has_not_left_is_cancelled_by_the_next_version_and_only_that_goes(room):
    signed(room)
    closed(room, AT)
    fitted_again(room, LATER)
    assert states() == {"spec 1": "cancelled"}
    trace = AuditEntry.objects.get(action="shop.message.withdrawn")
    assert (trace.before, trace.after) == ({"status": "pending"}, {"status": "cancelled"})
    assert (trace.actor_name, trace.at) == ("Mara Quill", LATER)
    closed(room, LATER)
    mail = Keeps()
    assert swept(mail, LATER) == {"sent": 1}
    assert states() == {"spec 1": "cancelled", "spec 2": "sent"}
    (letter,) = mail.letters
    assert "replace" not in letter.get_body(("plain",)).get_content()


def test_one_that_left_stays_and_the_next_says_that_it_replaces_it(room):
    signed(room)
    closed(room, AT)
    assert swept(Keeps(), AT) == {"sent": 1}
    fitted_again(room, LATER)
    closed(room, LATER)
    assert states() == {"spec 1": "sent", "spec 2": "pending"}
    letter = OutgoingMessage.objects.get(occasion="spec 2")
    said = "This letter and its sheet, version 2, replace version 1 of Fri 7 May 2027."
    assert said in letter.body_text
    assert said in letter.body_html


def test_one_that_may_have_left_is_said_too_and_is_never_sent_again(room):
    signed(room)
    closed(room, AT)
    assert swept(Keeps(Fate.UNKNOWN), AT) == {"unknown": 1}
    fitted_again(room, LATER)
    closed(room, LATER)
    assert states() == {"spec 1": "unknown", "spec 2": "pending"}
    assert "replace version 1 of" in OutgoingMessage.objects.get(occasion="spec 2").body_text
    first = OutgoingMessage.objects.get(occasion="spec 1")
    desk = staff_actor(room.location, "Pia Holm", Role.DESK)
    with pytest.raises(MessageIsDecided, match="It was stopped for good"):
        message_decide(message=first, decision="resend", by=desk, at=LATER)
    message_decide(message=first, decision="was delivered", by=desk, at=LATER)
    assert states()["spec 1"] == "sent"


def test_one_that_a_sweep_has_in_hand_is_stopped_before_its_content_is_offered(room):
    signed(room)
    closed(room, AT)
    mail = Keeps(meanwhile=lambda: fitted_again(room, LATER))
    assert swept(mail, LATER) == {}
    assert mail.letters == []
    assert states() == {"spec 1": "cancelled"}


def test_one_that_the_server_puts_off_after_it_was_replaced_is_not_tried_again(room):
    signed(room)
    closed(room, AT)

    class PutsOff(Keeps):
        def send(self, letter, *, before_data):
            before_data()
            fitted_again(room, LATER)
            return Outcome(Fate.LATER, "451 come back")

    assert swept(PutsOff(), LATER) == {"cancelled": 1}
    assert states() == {"spec 1": "cancelled"}


def test_a_failed_one_waits_for_nobody_once_it_is_replaced(room):
    signed(room)
    closed(room, AT)
    assert swept(Keeps(Fate.REFUSED), AT) == {"dead": 1}
    fitted_again(room, LATER)
    assert states() == {"spec 1": "cancelled"}


def test_a_waiting_letter_is_stopped_when_the_consent_to_e_mail_is_taken_back(room):
    signed(room)
    letter = queued(room)
    other = message_queue(
        kind="summary", subject_type="visit", subject_id="another", occasion="spec 1",
        recipient_email="tuva@players.invalid", recipient_name="Tuva", mail_subject="Wedges",
        body_text="What we chose.", by=room.fitter, at=AT,
    )  # fmt: skip
    record = Consent.objects.create(
        player=room.player, about="record", text_version="1", given_by="player", given_at=AT,
        created_at=AT,
    )  # fmt: skip
    consent_withdraw(consent=record, by=room.fitter, at=LATER)
    letter.refresh_from_db()
    assert letter.status == "pending"
    consent_withdraw(consent=room.player.consents.get(about="email"), by=room.fitter, at=LATER)
    letter.refresh_from_db()
    other.refresh_from_db()
    assert (letter.status, other.status) == ("cancelled", "pending")
    assert AuditEntry.objects.get(action="shop.message.withdrawn").object_id == str(letter.pk)


def test_the_letter_speaks_to_whom_it_goes_though_the_sheet_was_signed_before():
    shop()
    room = Room(kind="junior")
    signed(room)
    room.agree_to_mail("guardian")
    room.player.guardian_name, room.player.guardian_email = "Ane Brandvold", "ane@players.invalid"
    room.player.save()
    assert "Hello Ane Brandvold, about Ivo's clubs," in queued(room).body_text


def test_the_sheet_is_what_was_signed_whatever_was_changed_since(room):
    spec = signed(room)
    promised = sheet_values(spec)
    Decision.objects.update(reason="something else")
    Shop.objects.update(name="Another name", length_unit="mm")
    room.player.carry_unit = "m"
    room.player.save()
    later = FinalSpec.objects.get(pk=spec.pk)
    assert sheet_values(later) == promised
    assert promised["clubs"][1]["why"] == "cleaner out of turf"
    assert promised["unit"] == "yards"
    (attached,) = queued(room).attachments
    assert attached["values"] == promised


def test_a_sheet_that_was_replaced_says_so_and_keeps_its_figures(room):
    first = signed(room)
    promised = sheet_values(first)
    signed(room, LATER)
    again = sheet_values(FinalSpec.objects.get(pk=first.pk))
    assert again == promised | {"replaced_by": 2}
    assert "Spec sheet, version 1: replaced by version 2" in spec_sheet.html(again)


def bases(spec):
    """What each carry of the sheet rests on, by the club's name."""
    return {
        row["name"].rpartition(", ")[0]: (row["basis"]["kind"], row["basis"]["balls"])
        for row in sheet_values(spec)["gaps"]
    }


def test_only_clubs_that_were_hit_carry_as_they_were_hit_with_their_count(room):
    """Five full balls with the trial at 55.2, built at 55; the pitching wedge was only said."""
    spec = signed(room)
    expected = {"Pitching wedge": ("said", 0), "Own 50": ("forecast", 0), "Sand wedge": ("hit", 5)}
    assert bases(spec) == expected
    letter = said_to_the_player(sheet_values(spec))
    assert [row["basis"]["balls"] for row in letter["hit"]] == [5]
    assert [gap["is_forecast"] for gap in letter["gaps"]] == [True, True]


def test_a_club_built_at_another_loft_than_it_was_hit_at_is_a_forecast(room):
    spec = spec_draft(visit=room.visit, by=room.fitter, at=AT)
    # Hit at 55.2: 54.7 is within half a degree, 54.5 isn't.
    for loft, kind in (("54.7", "hit"), ("54.5", "hit_otherwise")):
        spec.clubs.filter(slot=2).update(target_loft_deg=Decimal(loft))
        assert bases(spec)["Sand wedge"] == (kind, 5)
    assert sheet_values(spec)["gaps"][-1]["basis"]["hit_at"] == "55.2°"


def test_a_club_built_on_another_shaft_than_it_was_hit_with_is_a_forecast(room):
    spec = spec_draft(visit=room.visit, by=room.fitter, at=AT)
    spec.clubs.filter(slot=2).update(shaft=a_shaft(model="Steel 130"))
    assert bases(spec)["Sand wedge"] == ("hit_other_shaft", 5)


def test_a_club_hit_from_elsewhere_is_a_forecast_that_is_not_said_to_be_unhit(room):
    """Five range balls with the pitching wedge; the trial's five were premium."""
    pitching = Trial.objects.create(
        visit=room.visit, sequence=room.next(), number=2, purpose="baseline", state="finished",
        club=room.pitching, loft_deg=Decimal(46), started_at=AT,
    )  # fmt: skip
    block = Block.objects.create(
        trial=pitching, sequence=room.next(), number=1, swing="full", hit_from="mat",
        ground="normal", wetness="dry", face="square", ball="range", carry_got="seen",
        started_at=AT,
    )  # fmt: skip
    for number, carry in enumerate((108, 110, 109, 111, 112), 1):
        Shot.objects.create(
            block=block, sequence=room.next(), number=number, carry_m=carry, recorded_at=AT
        )
    kept = bases(signed(room))
    assert kept["Pitching wedge"] == ("hit", 5)
    assert kept["Sand wedge"] == ("hit_elsewhere", 5)


def test_a_misread_ball_is_not_counted(room):
    shot = Shot.objects.filter(block__trial=room.trial).first()
    ShotExclusion.objects.create(
        shot=shot, sequence=room.next(), reason="misread", excluded_at=AT, excluded_by="Mara Quill"
    )
    assert bases(signed(room))["Sand wedge"] == ("hit", 4)


def test_what_the_balls_showed_and_what_the_fitter_says_are_two_things(room):
    both = [
        {"kind": "fix", "what": "sand", "label": "Sand", "answer": "fixed", "shown": "not_shown"},
        {"kind": "keep", "what": "chip", "label": "Chip", "answer": "kept", "shown": "kept"},
        {"kind": "fix", "what": "full", "label": "Full", "answer": "fixed", "shown": "not_fixed"},
    ]
    Decision.objects.filter(slot=2).update(keep_fix=both)
    rows = {row["label"]: row for row in sheet_values(signed(room))["keep_fix"]}
    view = [{"by": "Mara Quill", "answer": "fixed"}]
    assert (rows["Sand"]["shown"], rows["Sand"]["views"]) == ("not_shown", view)
    assert (rows["Chip"]["shown"], rows["Chip"]["views"]) == ("kept", [])
    assert (rows["Full"]["shown"], rows["Full"]["views"]) == ("not_fixed", view)


def test_of_two_slots_that_show_otherwise_the_less_good_one_is_said(room):
    for slot, shown in ((1, "lost"), (2, "kept")):
        item = {"kind": "keep", "what": "chip", "label": "Chip", "answer": shown, "shown": shown}
        Decision.objects.filter(slot=slot).update(keep_fix=[item])
    (row,) = sheet_values(signed(room))["keep_fix"]
    assert (row["shown"], row["views"]) == ("lost", [])


def test_a_bent_head_is_named_and_an_unbent_one_is_not(room):
    spec = spec_draft(visit=room.visit, by=room.fitter, at=AT)
    assert sheet_values(spec)["bent"] == [2]
    spec.clubs.filter(slot=2).update(
        target_loft_deg=F("stamped_loft_deg"), target_lie_deg=F("stock_lie_deg")
    )
    assert sheet_values(spec)["bent"] == []


def test_a_sheet_signed_before_carries_had_a_basis_reads_as_it_was_signed(room):
    spec = signed(room)
    sheet = dict(spec.sheet)
    del sheet["bent"]
    sheet["clubs"] = [
        {key: value for key, value in club.items() if key != "carry_basis"}
        for club in sheet["clubs"]
    ]
    sheet["gaps"] = [["Pitching wedge, 46°", "120 yd", "13 yd"], ["Own 50, 50.5°", "107 yd", ""]]
    sheet["keep_fix"] = [["Fix", "Sand", "fixed"]]
    FinalSpec.objects.filter(pk=spec.pk).update(sheet=sheet)
    values = sheet_values(FinalSpec.objects.get(pk=spec.pk))
    assert "13 yd" in spec_sheet.html(values)
    body = queued(room).body_text
    assert "- Pitching wedge, 46°: 120 yd; to the next 13 yd" in body
    assert "HOW YOU HIT" not in body
