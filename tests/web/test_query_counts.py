"""Every page asks the database as often for fifty rows as for one.

Each address that answers a GET stands in GROWN with what its page lists, or in ONE_THING with the
reason why it lists nothing that grows.
"""

from __future__ import annotations

import copy
import datetime as dt
import hashlib
import uuid
from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.db.models.base import ModelState
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from fitshop.models import (
    AuditEntry,
    Bay,
    MessageAttachment,
    OutgoingMessage,
    SettingsVersion,
    SettingValue,
    Staff,
    StaffLocation,
    StaffRole,
    Tablet,
)
from orders.models import (
    BenchStep,
    BuildOrder,
    Check,
    Concession,
    Gauge,
    GaugeCheck,
    OrderClub,
    Reading,
    Resin,
    Telling,
)
from orders.selectors.cures import resin_values
from sessions.models import (
    Acceptance,
    Adapter,
    Answer,
    BagEntry,
    Consent,
    Interview,
    MeasuringDevice,
    Rating,
    ShotFile,
    SpecFinding,
    TrialHead,
    TrialShaft,
    Visit,
)
from tests.order_room import AT, MIXED, Workshop
from tests.spec_room import shop, signed_in
from tests.web.test_doors import addresses

pytestmark = pytest.mark.django_db

MORE = 49


def clones(row: Any, count: int = MORE, **changes: Any) -> list[Any]:
    """So many copies of a row in one insert; a callable change is given the copy's number."""
    made = []
    for number in range(1, count + 1):
        one = copy.copy(row)
        one._state = ModelState()
        one.pk = uuid.uuid4()
        for name, value in changes.items():
            setattr(one, name, value(number) if callable(value) else value)
        made.append(one)
    return type(row)._default_manager.bulk_create(made)


class Shop(Workshop):
    """A visit with a bag, a trial, a signed spec and a released order, and one of all else."""

    def __init__(self) -> None:
        super().__init__()
        self.order = self.released()
        self.revision = self.order.revisions.get(is_current=True)
        self.club = self.revision.clubs.get()
        self.read(self.club, "as_received", "loft", "56")
        self.bay = Bay.objects.create(location=self.location, name="Bay 1")
        self.gauge = Gauge.objects.create(
            location=self.location, name="G0", measure="loft", repeatability="0.2"
        )
        GaugeCheck.objects.create(
            gauge=self.gauge, off_by="0.5", checked_at=AT + dt.timedelta(days=9), checked_by="Odo"
        )
        self.adapter = Adapter.objects.create(mark="A1", location=self.location, mass_g=7)
        self.device = MeasuringDevice.objects.create(name="Radar", location=self.location)
        self.booked = Visit.objects.create(
            player=self.player, location=self.location, bay=self.bay, minutes=60,
            starts_at=AT + dt.timedelta(days=3), created_at=AT,
        )  # fmt: skip
        self.letter = OutgoingMessage.objects.create(
            kind="ready", subject_type="order", subject_id="1", occasion="0", status="dead",
            recipient_email="ivo@players.invalid", mail_subject="Ready", body_text="Words.",
            message_id="<0@shop.invalid>", created_at=AT, due_at=AT,
        )  # fmt: skip
        self.file = ShotFile.objects.create(
            visit=self.visit, sha256="0" * 64, name="range.csv", content=b"Carry (yd),Side\n98,1\n",
            encoding="utf-8", delimiter=",", header_key="1" * 64, read_at=AT, read_by="Mara Quill",
        )  # fmt: skip

        SettingsVersion.objects.create(number=1, made_at=AT, made_by="Mara Quill")
        SettingValue.objects.create(version_id=1, key="visit.minutes", text="50")
        self.attachment = MessageAttachment.objects.create(
            message=self.letter, name="0.pdf", content_type="application/pdf", sha256="0" * 64,
            content=b"",
        )  # fmt: skip
        self.consent = Consent.objects.create(
            player=self.player, about="email", text_version="1", given_by="player", given_at=AT,
            withdrawn_at=AT, created_at=AT,
        )  # fmt: skip
        self.answer = Answer.objects.create(
            interview=Interview.objects.create(visit=self.visit, started_at=AT),
            question="handicap", value="12", sequence=3000, said_at=AT, recorded_by="Mara Quill",
        )  # fmt: skip
        self.rating = Rating.objects.create(
            visit=self.visit, trial=self.trial, about="feel", score=4, sequence=4000, rated_at=AT,
            recorded_by="Mara Quill",
        )  # fmt: skip
        said = {"spec": self.spec, "rule": "SPEC-E012", "fields": ["slot1.loft"], "sentence": "So."}
        self.finding = SpecFinding.objects.create(severity="look at this", found_at=AT, **said)
        self.acceptance = Acceptance.objects.create(
            reason="seen", accepted_by="Mara Quill", accepted_at=AT, **said
        )
        self.check = Check.objects.create(
            revision=self.revision, result="rework", cause="loft", signed_by="Ines Ravn",
            signed_at=AT,
        )  # fmt: skip
        self.concession = Concession.objects.create(
            club=self.club, measure="loft", target=55, accepted_value=57, reason="seen",
            signed_by="Mara Quill", signed_at=AT,
        )  # fmt: skip

    # What grows, by what a page lists.

    def staff(self) -> None:
        people = [
            Staff(username=f"person{n}", display_name=f"Person {n}", password="!")
            for n in range(MORE)
        ]
        Staff.objects.bulk_create(people)
        StaffRole.objects.bulk_create(StaffRole(staff=one, role="fitter") for one in people)
        StaffLocation.objects.bulk_create(
            StaffLocation(staff=one, location=self.location) for one in people
        )

    def deeds(self) -> None:
        AuditEntry.objects.bulk_create(
            AuditEntry(
                at=AT, actor_kind="staff", actor_name="Mara", action="shop.staff.signed_in",
                object_type="shop.staff", object_id=str(n), after={"from": "10.0.0.7"},
            )
            for n in range(MORE)
        )  # fmt: skip

    def tablets(self) -> None:
        Tablet.objects.bulk_create(
            Tablet(name=f"Bay {n}", location=self.location, token_sha256=str(n), enrolled_at=AT)
            for n in range(MORE)
        )

    def settings(self) -> None:
        for number in range(2, MORE + 2):
            version = SettingsVersion.objects.create(number=number, made_at=AT, made_by="Mara")
            SettingValue.objects.create(version=version, key="visit.minutes", text=str(30 + number))

    def letters(self) -> None:
        clones(self.letter, occasion=str, message_id=lambda n: f"<{n}@shop.invalid>")

    def attachments(self) -> None:
        clones(self.attachment, name=lambda n: f"{n}.pdf")

    def players(self) -> None:
        clones(
            self.player,
            given_name=lambda n: f"Ivo {n}",
            search_text=lambda n: f"ivo {n} brandvold\nbrandvold ivo {n}",
        )

    def of_the_player(self) -> None:
        clones(self.booked, starts_at=lambda n: AT + dt.timedelta(days=n + 3))
        clones(self.fifty, label=lambda n: f"Own {n}")
        clones(self.consent)
        self.versions()

    def rooms(self) -> None:
        clones(self.bay, name=lambda n: f"Bay {n + 1}")
        self.staff()

    def day(self) -> None:
        self.rooms()
        clones(self.booked, starts_at=lambda n: self.booked.starts_at + dt.timedelta(minutes=n))
        clones(
            self.visit, state="open", starts_at=lambda n: AT - dt.timedelta(days=n), last_sequence=0
        )

    def equipment(self) -> None:
        clones(self.head, model=lambda n: f"Sedge {n}")
        clones(self.shaft, model=lambda n: f"Steel {n}")
        clones(self.grip, model=lambda n: f"Cord {n}")
        clones(TrialHead.objects.get(mark="H1"), mark=lambda n: f"H{n + 1}")
        clones(TrialShaft.objects.get(mark="S1"), mark=lambda n: f"S{n + 1}")
        clones(self.adapter, mark=lambda n: f"A{n + 1}")
        clones(self.device, name=lambda n: f"Radar {n}")

    def captured(self) -> None:
        """Fifty clubs in the bag, trials, blocks and shots, answers and ratings."""
        entry = BagEntry.objects.get(club=self.fifty)
        clubs = clones(self.fifty, label=lambda n: f"Own {n}")
        clones(entry, club=lambda n: clubs[n - 1], sequence=lambda n: 1000 + n)
        trials = clones(self.trial, number=lambda n: n + 1, sequence=lambda n: 2000 + n)
        block = self.trial.blocks.get()
        blocks = clones(block, trial=lambda n: trials[n - 1])
        for shot in block.shots.all():
            clones(shot, block=lambda n: blocks[n - 1])
        clones(self.answer, sequence=lambda n: 3000 + n)
        clones(self.rating, sequence=lambda n: 4000 + n)

    def everything_tried(self) -> None:
        self.equipment()
        self.captured()

    def files(self) -> None:
        clones(self.file, sha256=lambda n: hashlib.sha256(str(n).encode()).hexdigest())
        self.captured()

    def versions(self) -> None:
        clones(self.spec, version=lambda n: n + 1, state="superseded")

    def findings(self) -> None:
        self.versions()
        clones(self.finding)
        clones(self.acceptance)

    def orders(self) -> None:
        visits = clones(self.visit, last_sequence=0)
        orders = clones(
            self.order, number=lambda n: 3000 + n, visit=lambda n: visits[n - 1],
            state=lambda n: ("released", "ready", "in_build")[n % 3],
        )  # fmt: skip
        revisions = clones(self.revision, order=lambda n: orders[n - 1])
        clones(self.club, revision=lambda n: revisions[n - 1])
        clones(self.check, revision=lambda n: revisions[n - 1])
        BuildOrder.objects.update(ready_at=MIXED)
        self.tellings(orders)

    def tellings(self, orders) -> None:
        """A letter and a call for each."""
        letters = clones(
            self.letter, len(orders), occasion=lambda n: f"{n} again",
            message_id=lambda n: f"<{n} again@shop.invalid>",
        )  # fmt: skip
        Telling.objects.bulk_create(
            Telling(order=order, at=MIXED, by="Pia Holm", **what)
            for order, letter in zip(orders, letters, strict=True)
            for what in ({"how": "letter", "letter": letter},
                         {"how": "telephone", "outcome": "no_answer"})
        )  # fmt: skip

    def glued(self) -> None:
        self.orders()
        made = {"hours": 24, "least_hours": 6, "full_speed_c": 20, "double_at_c": 15, "least_c": 10}
        resins = Resin.objects.bulk_create(
            Resin(name=f"Harrow {n}", speed="slow", created_at=AT, **made) for n in range(50)
        )
        resin = Resin.objects.get(pk=resins[0].pk)
        values = {"temperature_c": "21", "batch": "H 117", "resin": resin_values(resin)}
        for club in OrderClub.objects.all():
            BenchStep.objects.filter(club=club, step="epoxy").delete()
            club.steps.create(step="epoxy", values=values, done_at=MIXED, done_by="Odo Lark")

    def of_the_order(self) -> None:
        clones(self.club, 3, slot=lambda n: n + 1)
        clones(self.revision, 20, letter=lambda n: chr(ord("B") + n), is_current=False)
        clones(Reading.objects.get(), value=lambda n: 50 + n % 3)
        clones(self.check)
        clones(self.concession)
        self.tellings([self.order] * 5)
        clones(self.gauge, name=lambda n: f"G{n}")

    def cancelled_orders(self) -> None:
        orders = clones(self.order, number=lambda n: 3000 + n, state="cancelled")
        clones(self.revision, order=lambda n: orders[n - 1])


Grow = Callable[[Shop], None]
# Address, query, and what its page lists fifty of.
GROWN: dict[str, list[tuple[str, Grow]]] = {
    "readyz": [("", Shop.letters)],
    "today": [("", Shop.letters)],
    "set_up": [("", Shop.settings)],
    "staff": [("", Shop.staff)],
    "tablets": [("", Shop.tablets)],
    "record": [("", Shop.deeds)],
    "messages": [("", Shop.letters)],
    "message": [("", Shop.attachments)],
    "players": [("", Shop.players), ("?q=ivo", Shop.players)],
    "player": [("", Shop.of_the_player)],
    "player_merge": [("?q=ivo", Shop.players)],
    "visit_new": [("?q=ivo", Shop.players), ("?player={player}", Shop.rooms)],
    "visit": [("?stay=1", Shop.everything_tried)],
    "visit_move": [("", Shop.rooms)],
    "visit_state": [("", Shop.everything_tried)],
    "fitting_today_panel": [("?day=2027-05-10", Shop.day), ("", Shop.day)],
    "fitting_search_panel": [("?q=ivo", Shop.players)],
    "first_clubs": [("", Shop.everything_tried)],
    "parts": [
        (f"?show={shown}", Shop.equipment) for shown in ("trial", "heads", "shafts", "grips")
    ],
    "plan": [("", Shop.everything_tried)],
    "shot_files": [("", Shop.files)],
    "shot_file": [("", Shop.files)],
    "verdicts": [("", Shop.captured)],
    "decision": [("?slot=2", Shop.captured)],
    "spec": [("", Shop.findings)],
    "finish": [("", Shop.everything_tried)],
    "bench": [("", Shop.orders)],
    "gauges": [("", Shop.of_the_order)],
    "recalls": [("", Shop.of_the_order), ("?gauge={gauge}", Shop.of_the_order)],
    "gauge_edit": [("", Shop.of_the_order)],
    "resins": [("?batch=H 117", Shop.glued)],
    "order": [("", Shop.of_the_order)],
    "bench_club": [("", Shop.of_the_order)],
    "workshop_today_panel": [("", Shop.orders)],
    "workshop_search_panel": [("?q=brandvold", Shop.orders)],
    "workshop_player_panel": [("", Shop.orders)],
    "workshop_clubs_panel": [("", Shop.of_the_player)],
    "workshop_spec_panel": [("", Shop.cancelled_orders)],
    "workshop_reports_panel": [("", Shop.orders)],
}
ONE_THING: dict[str, str] = {
    "livez": "asks the database nothing: tests/web/test_frame.py",
    "visit_commands": "takes commands and answers no GET",
    "room": "the same bytes for everyone: asks the database nothing",
    "own_pin": "one person",
    "staff_person": "one person, with the shop's few places",
    "first_start": "before there is any row",
    "search": "lists nothing itself: its two panels do",
    "reports": "lists nothing itself: its panel does",
    "player_new": "an empty form",
    "player_edit": "one player",
    "equipment_check": "one thing",
    "rule_book": "the rules, as many in every shop",
    "order_new": "one visit, one spec",
    "spec_sheet": "a PDF of what was frozen when the spec was signed",
    "as_built": "a PDF of one revision, measured when it was built",
    "ticket": "a PDF of one revision, copied when it was made",
    "gauge_new": "an empty form",
    "resin_new": "an empty form",
    "resin_edit": "one resin",
    "sheet": "leads on to the order or its only club",
}


@pytest.fixture
def room(client, settings):
    settings.DEMO = True  # no second factor
    shop()
    room = Shop()
    client.force_login(signed_in(room.location, role="manager"))
    return room


def address(room: Shop, name: str, query: str) -> str:
    values = {
        "visit_id": room.booked.pk if name == "visit_move" else room.visit.pk,
        "player_id": room.player.pk,
        "message_id": room.letter.pk,
        "file_id": room.file.pk,
        "number": room.order.number,
        "slot": room.club.slot,
        "gauge_id": room.gauge.pk,
    }
    wanted = addresses()[name].pattern.converters
    return reverse(name, kwargs={each: values[each] for each in wanted}) + query.format(
        player=room.player.pk, gauge=room.gauge.pk
    )


def queries_of(client, url: str) -> list[str]:
    with CaptureQueriesContext(
        connection,
    ) as asked:
        answer = client.get(url)
    assert answer.status_code == 200, (url, answer.status_code)
    return [each["sql"] for each in asked.captured_queries]


CASES = [(name, query, grow) for name, each in GROWN.items() for query, grow in each]


@pytest.mark.parametrize(
    ("name", "query", "grow"), CASES, ids=[f"{name}{query}" for name, query, _ in CASES]
)
def test_a_page_asks_as_often_for_fifty_rows_as_for_one(client, room, name, query, grow):
    url = address(room, name, query)
    client.get(url)  # what a process reads once is read
    with_one = queries_of(client, url)
    grow(room)
    with_fifty = queries_of(client, url)
    more = with_fifty.copy()
    for sql in with_one:
        if sql in more:
            more.remove(sql)
    assert len(with_fifty) == len(with_one), "\n".join(more[:12])


def test_every_page_is_counted_or_lists_one_thing(client, room):
    shown = set()
    for name, pattern in addresses().items():
        made_up = {"kind": "head", "step": "trials", "number": 9, "slot": 9}
        keywords = {each: made_up.get(each, uuid.uuid4()) for each in pattern.pattern.converters}
        if client.get(reverse(name, kwargs=keywords)).status_code != 405:
            shown.add(name)
    assert set(GROWN) | set(ONE_THING) == shown
    assert not set(GROWN) & set(ONE_THING)
