"""Every address with every role: the matrix is typed by hand, and an address missing from it fails.

An allowed pair shows its page on the demo shop's data; a denied one is told so and changes no row.
"""

import datetime as dt
import uuid

import pytest
from django.apps import apps
from django.core.management import call_command
from django.db import transaction
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from fitshop.models import OutgoingMessage, Staff, Tablet
from orders.models import Concession, Gauge, Reading, Resin
from sessions.models import Consent, Player, ShotFile, TrialHead, Visit

pytestmark = pytest.mark.django_db

F, B, D, M = "fitter", "builder", "desk", "manager"
ROLES = (F, B, D, M)
ALL = {F, B, D, M}

BEFORE_IT_OPENS = {"visit_move", "visit_open", "visit_cancel", "visit_no_show"}

# Open without sign-in, or another library's own pages.
OPEN = {"livez", "readyz", "first_start", "room", "pin_sign_in"}

MATRIX: dict[str, set[str]] = {
    "today": ALL,
    "search": ALL,
    "kept_form_let_go": ALL,
    "set_up": {M},
    "staff": {M},
    "record": {M},
    "tablets": {M},
    "tablet_withdraw": {M},
    "own_pin": ALL,
    "staff_person": {M},
    "staff_help": {M},
    "messages": {F, D, M},
    "message": {F, D, M},
    "message_decide": {D, M},
    "reports": {M},
    "players": {F, D, M},
    "player_new": {F, D, M},
    "player": {F, D, M},
    "player_edit": {F, D, M},
    "player_merge": {D, M},
    "player_consent": {F, D, M},
    "player_consent_withdraw": {F, D, M},
    "visit_new": {F, D, M},
    "visit": ALL,
    "visit_move": {F, D, M},
    "visit_open": {F, M},
    "visit_cancel": {F, D, M},
    "visit_no_show": {F, D, M},
    "visit_state": ALL,
    # Each command is refused by itself, with a receipt: tests/api/test_commands.py.
    "visit_commands": ALL,
    "fitting_today_panel": ALL,
    "fitting_search_panel": {F, D, M},
    "parts": {F, B, M},
    "equipment_withdraw": {F, B, M},
    "equipment_check": {F, B, M},
    "plan": ALL,
    "first_clubs": ALL,
    "shot_files": {F, M},
    "shot_file": {F, M},
    "verdicts": ALL,
    "decision": ALL,
    "spec": ALL,
    "spec_draft": {F, M},
    "spec_club": {F, M},
    "spec_check": {F, M},
    "spec_accept": {F, M},
    "spec_sign": {F, M},
    "spec_sheet": ALL,
    "finish": ALL,
    "visit_close": {F, M},
    "summary_send": {F, D, M},
    "rule_book": ALL,
    "bench": ALL,
    "gauges": ALL,
    "recalls": {B, D, M},
    "gauge_new": {B, M},
    "gauge_edit": {B, M},
    "resins": ALL,
    "resin_new": {B, M},
    "resin_edit": {B, M},
    "cure_temperature": {B, M},
    "cure_correction": {B, M},
    "order_new": {F, D, M},
    "sheet": ALL,
    "order": ALL,
    "ticket": ALL,
    "as_built": ALL,
    "order_release": {F, D, M},
    "order_revise": {F, M},
    "order_cancel": {D, M},
    "order_wait": {B, D, M},
    "order_arrived": {B, D, M},
    "order_check": {B, M},
    "order_ready": {B, D, M},
    "order_due": ALL,
    "order_called": {F, D, M},
    "order_told": {F, D, M},
    "order_letter": {F, D, M},
    "order_tell_by": {F, D, M},
    "order_rounds": {F, D, M},
    "order_hand_over": {F, D, M},
    "bench_club": ALL,
    "bench_step": {B, M},
    "bench_reading": {B, M},
    "reading_strike_out": {B, M},
    "concession": {F, M},
    "order_step_accept": {F, M},
    "concession_words": {F, M},
    "workshop_today_panel": ALL,
    "workshop_search_panel": ALL,
    "workshop_player_panel": ALL,
    "workshop_clubs_panel": {F, D, M},
    "workshop_spec_panel": ALL,
    "workshop_reports_panel": {M},
}


def addresses(resolver=None, prefix=()) -> dict[str, URLPattern]:
    """Every named address of our own; the sign-in library's pages stand apart."""
    found: dict[str, URLPattern] = {}
    for pattern in (resolver or get_resolver()).url_patterns:
        if isinstance(pattern, URLResolver):
            if str(pattern.pattern) != "account/":
                found |= addresses(pattern)
        else:
            found[pattern.name] = pattern
    return found


@pytest.fixture
def demo(settings, db):
    """The demo shop, and for every parameter of an address a row that is really there."""
    settings.DEMO = True
    call_command("load_demo", verbosity=0)
    return Things()


class Things:
    """Finds the object an address asks for: of the fullest visit there is."""

    def __init__(self) -> None:
        visits = Visit.objects.filter(trials__isnull=False).distinct()
        self.visit = visits.order_by("-last_sequence").first() or Visit.objects.first()
        self.booked = Visit.objects.filter(state="booked").first()
        self.player = self.visit.player
        self.consent = Consent.objects.filter(player=self.player).first() or Consent.objects.first()
        self.spec = self.visit.specs.first()
        self.order = self.visit.build_orders.first()
        self.concession = Concession.objects.create(
            club=self.order.revisions.get(is_current=True).clubs.first(),
            measure="loft",
            target=54,
            accepted_value=55,
            reason="seen",
            signed_at=dt.datetime(2027, 3, 2, tzinfo=dt.UTC),
            signed_by="a test",
        )
        self.reading = Reading.objects.create(
            club=self.order.revisions.get(is_current=True).clubs.first(),
            stage="as_received",
            measure="head_mass",
            value=301,
            read_at=dt.datetime(2027, 3, 2, tzinfo=dt.UTC),
            read_by="a test",
        )
        self.file, _ = ShotFile.objects.get_or_create(
            visit=self.visit,
            sha256="0" * 64,
            defaults={
                "name": "range.csv",
                "content": b"Carry (yd)\n98\n99\n97\n",
                "encoding": "utf-8",
                "delimiter": ",",
                "header_key": "1" * 64,
                "read_at": dt.datetime(2027, 3, 2, tzinfo=dt.UTC),
                "read_by": "a test",
            },
        )
        self.message = OutgoingMessage.objects.first() or OutgoingMessage.objects.create(
            kind="test",
            subject_type="visit",
            subject_id=str(self.visit.pk),
            occasion="doors",
            recipient_email="someone@example.org",
            mail_subject="A letter",
            body_text="Words.",
            message_id=f"<{uuid.uuid4()}@example.org>",
            created_at=dt.datetime(2027, 3, 2, tzinfo=dt.UTC),
            due_at=dt.datetime(2027, 3, 2, tzinfo=dt.UTC),
        )

    def urls(self) -> list[tuple[str, str]]:
        return [
            (name, reverse(name, kwargs=self.kwargs(name, list(pattern.pattern.converters))))
            for name, pattern in addresses().items()
            if name not in OPEN
        ]

    def kwargs(self, name: str, parameters: list[str]) -> dict[str, object]:
        values: dict[str, object] = {
            "visit_id": self.booked.pk if name in BEFORE_IT_OPENS else self.visit.pk,
            "player_id": self.consent.player_id
            if name.startswith("player_consent")
            else self.player.pk,
            "consent_id": self.consent.pk,
            "message_id": self.message.pk,
            "spec_id": self.spec and self.spec.pk,
            "club_id": self.spec and self.spec.clubs.first().pk,
            "file_id": self.file.pk,
            "person_id": Staff.objects.get(username=F).pk,
            "deed": "sign-out",
            "tablet_id": Tablet.objects.get_or_create(
                name="Bay 1",
                location=self.visit.location,
                defaults={
                    "token_sha256": "0" * 64,
                    "enrolled_at": dt.datetime(2027, 3, 2, tzinfo=dt.UTC),
                },
            )[0].pk,
            "kind": "head",
            "item_id": TrialHead.objects.filter(withdrawn_at__isnull=True).first().pk,
            "step": "picked" if name == "bench_step" else "trials",
            "number": self.order and self.order.number,
            "slot": self.order and self.order.revisions.get(is_current=True).clubs.first().slot,
            "letter": "A",
            "concession_id": self.concession and self.concession.pk,
            "gauge_id": Gauge.objects.first().pk,
            "resin_id": Resin.objects.first().pk,
            "reading_id": self.reading and self.reading.pk,
        }
        return {parameter: values[parameter] for parameter in parameters}


def rows_of_everything() -> dict[str, int]:
    own = ("shop", "fitting", "orders")
    return {
        model._meta.label: model._default_manager.count()
        for label in own
        for model in apps.get_app_config(label).get_models()
    }


POSTED = {
    "player_consent": {"about": "email", "given_by": "player"},
    "bench_reading": {"stage": "as_received", "measure": "loft", "value": "54"},
}


def answer_of(client, name, url):
    """GET, or POST where the address takes only that."""
    if name == "visit_commands":
        return client.post(url, {"device": "", "commands": []}, content_type="application/json")
    answer = client.get(url)
    return client.post(url, POSTED.get(name, {})) if answer.status_code == 405 else answer


def test_every_address_stands_in_the_matrix():
    assert set(addresses()) - OPEN == set(MATRIX)


def test_each_role_gets_through_its_own_doors_and_no_others(client, demo):
    """One load of the demo shop for all of it: the walk is long, the loading longer."""
    wrong = []
    for role in ROLES:
        client.force_login(Staff.objects.get(username=role))
        for name, url in demo.urls():
            if role in MATRIX[name]:
                with transaction.atomic():
                    answer = answer_of(client, name, url)
                    transaction.set_rollback(True)
                if answer.status_code in {401, 403, 404, 405, 500}:
                    wrong.append(f"{role} should get through {name}: {answer.status_code}")
            else:
                before = rows_of_everything()
                answer = answer_of(client, name, url)
                if answer.status_code != 403:
                    wrong.append(f"{role} got into {name}: {answer.status_code}")
                if rows_of_everything() != before:
                    wrong.append(f"{role} changed rows at {name}")
    client.logout()
    for name, url in demo.urls():
        answer = answer_of(client, name, url)
        location = answer.get("Location", "")
        if not location.startswith(reverse("account_login")) and answer.status_code != 401:
            wrong.append(f"a stranger got into {name}: {answer.status_code}")
    assert not wrong, "\n".join(wrong)


def test_what_belongs_to_another_location_is_not_found(client, demo):
    from fitshop.models import Location, StaffLocation

    elsewhere = Location.objects.create(name="Elsewhere", zone="Europe/Dublin")
    fitter = Staff.objects.get(username=F)
    StaffLocation.objects.filter(staff=fitter).update(location=elsewhere)
    client.force_login(fitter)
    shown = []
    for name in (
        "visit",
        "plan",
        "first_clubs",
        "decision",
        "spec",
        "finish",
        "verdicts",
        "visit_state",
    ):
        answer = client.get(reverse(name, kwargs={"visit_id": demo.visit.pk}))
        if answer.status_code != 404:
            shown.append(f"{name}: {answer.status_code}")
    assert not shown
    assert Player.objects.exists()
