"""A fitting with two slots decided, for the tests of spec, summary and finish. Invented people.

A right-hander with a 46-degree pitching wedge that carries 110 m: slot 1 keeps his own 50,
slot 2 is a new head stamped 56, tried on grass.
"""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal

from fitshop.actor import Actor, ActorKind, Role
from fitshop.models import Location, Shop, Staff, StaffLocation, StaffRole
from sessions.models import (
    BagEntry,
    Block,
    Club,
    Consent,
    Decision,
    Grip,
    Head,
    LoftPlan,
    OtherClubs,
    PlanSlot,
    Player,
    Shaft,
    Shot,
    Trial,
    TrialHead,
    TrialShaft,
    Visit,
)

AT = datetime(2027, 5, 7, 9, 30, tzinfo=UTC)


def staff_actor(location: Location, name: str = "Mara Quill", role: Role = Role.FITTER) -> Actor:
    return Actor(
        kind=ActorKind.STAFF,
        name=name,
        roles=frozenset({role}),
        location_ids=frozenset({location.pk}),
    )


def signed_in(location: Location, username: str = "mara", role: str = "fitter") -> Staff:
    person = Staff.objects.create_user(username=username, password="grass and sand 7")
    person.display_name = "Mara Quill"
    person.save()
    StaffRole.objects.create(staff=person, role=role)
    StaffLocation.objects.create(staff=person, location=location)
    return person


def shop(paper: str = "A4", unit: str = "in") -> Shop:
    return Shop.objects.create(name="Low Meadow Golf", paper=paper, length_unit=unit)


def a_head(loft: str = "56", bounce: str = "12", **more) -> Head:
    values = {
        "maker": "Orrin Vale",
        "model": "Sedge",
        "hand": "right",
        "stamped_loft_deg": Decimal(loft),
        "bounce_deg": Decimal(bounce),
        "lie_deg": Decimal(64),
        "mass_g": Decimal(305),
        "making": "forged low-carbon steel",
        "sole_width_mm": Decimal(21),
        "camber": "medium",
        "relief_heel": 2,
        "bore_mm": Decimal("9.017"),
    } | more
    return Head.objects.create(**values)


def a_shaft(**more) -> Shaft:
    values = {
        "maker": "Ravensworth",
        "model": "Steel 125",
        "material": "steel",
        "flex": "firm",
        "tip_kind": "taper",
        "tip_mm": Decimal("9.017"),
        "butt_mm": Decimal("15.24"),
        "raw_length_mm": Decimal("939.8"),
        "mass_g": Decimal(125),
    } | more
    return Shaft.objects.create(**values)


def a_grip() -> Grip:
    return Grip.objects.create(
        maker="Wexcombe", model="Cord", size="standard", core_mm=Decimal("15.24"),
        mass_g=Decimal(50), length_mm=Decimal(270), cap_mm=Decimal(5),
    )  # fmt: skip


class Room:
    """Everything one visit needs, with the rows at hand by name."""

    def __init__(self, *, kind: str = "man", email: str = "ivo@players.invalid") -> None:
        self.location = Location.objects.create(name="Low Meadow", zone="Europe/Dublin")
        self.fitter = staff_actor(self.location)
        self.player = Player.objects.create(
            given_name="Ivo", family_name="Brandvold", email=email, hand="right", kind=kind,
            carry_unit="yd", created_at=AT,
        )  # fmt: skip
        self.visit = Visit.objects.create(
            player=self.player, location=self.location, starts_at=AT, state="open",
            opened_at=AT, created_at=AT,
        )  # fmt: skip
        self.sequence = 0
        self._bag()
        self._plan()
        self._trial()
        self._decide()

    def next(self) -> int:
        self.sequence += 1
        return self.sequence

    def _bag(self) -> None:
        self.pitching = self._own("PW", "pitching_wedge", "46", "46.0", carry=110.0)
        self.fifty = self._own("50", "wedge", "50", "50.5", carry=100.0, lie="63.5")
        self.old = self._own("56", "wedge", "56", "57.0", carry=86.0)
        for kind, count in {"driver": 1, "fairway": 2, "long_iron": 6, "putter": 1}.items():
            OtherClubs.objects.create(visit=self.visit, kind=kind, count=count)

    def _own(self, label, kind, stamped, loft, *, carry, lie="64") -> Club:
        club = Club.objects.create(
            player=self.player, kind=kind, label=label, maker="Tollard", model="Hearth",
            hand="right", stamped_loft_deg=Decimal(stamped), stamped_bounce_deg=Decimal(8),
            making="cast 304 or 431 stainless", created_at=AT,
        )  # fmt: skip
        BagEntry.objects.create(
            visit=self.visit, sequence=self.next(), club=club, loft_deg=Decimal(loft),
            lie_deg=Decimal(lie), length_mm=Decimal("901.7"), stock_carry_m=carry,
            recorded_at=AT, recorded_by="Mara Quill",
        )  # fmt: skip
        return club

    def _plan(self) -> None:
        self.plan = LoftPlan.objects.create(
            visit=self.visit, baseline_loft_deg=46, baseline_carry_m=110.0, baseline_balls=6,
            chosen_at=AT, chosen_by="Mara Quill",
        )  # fmt: skip
        for slot, role, loft in ((1, "full_shot", "50.5"), (2, "touch", "55")):
            PlanSlot.objects.create(
                plan=self.plan, slot=slot, role=role, target_loft_deg=Decimal(loft)
            )

    def _trial(self) -> None:
        self.head, self.shaft, self.grip = a_head(), a_shaft(), a_grip()
        thing = TrialHead.objects.create(mark="H1", location=self.location, head=self.head)
        test_shaft = TrialShaft.objects.create(
            mark="S1", location=self.location, shaft=self.shaft, grip=self.grip,
            playing_length_mm=Decimal("895.35"),
        )  # fmt: skip
        self.trial = Trial.objects.create(
            visit=self.visit, sequence=self.next(), number=1, purpose="candidate", slot=2,
            role="touch", state="finished", trial_head=thing, trial_shaft=test_shaft,
            head_name="Orrin Vale Sedge 56", stamped_loft_deg=56, stamped_bounce_deg=12,
            loft_deg=Decimal("55.2"), lie_deg=Decimal("63.1"), length_mm=Decimal("895.35"),
            swing_weight_points=Decimal(4), head_tight_checked_at=AT, started_at=AT,
        )  # fmt: skip
        block = Block.objects.create(
            trial=self.trial, sequence=self.next(), number=1, swing="full", hit_from="fairway",
            ground="normal", wetness="dry", face="square", ball="premium", carry_got="seen",
            started_at=AT,
        )  # fmt: skip
        for number, carry in enumerate((88.0, 90.0, 89.0, 91.0, 87.0), start=1):
            Shot.objects.create(
                block=block, sequence=self.next(), number=number, carry_m=carry,
                recorded_at=AT, recorded_by="Mara Quill",
            )  # fmt: skip

    def _decide(self) -> None:
        shared = {"visit": self.visit, "code_version": "test", "decided_at": AT,
                  "decided_by": "Mara Quill"}  # fmt: skip
        Decision.objects.create(
            slot=1, role="full_shot", outcome="keep", kept_club=self.fifty,
            reason="already right", **shared,
        )  # fmt: skip
        Decision.objects.create(
            slot=2, role="touch", outcome="build", chosen_trial=self.trial, leaves_bag=self.old,
            reason="cleaner out of turf",
            keep_fix=[
                {"kind": "fix", "what": "sand", "label": "Sand", "answer": "fixed"}
            ], **shared,
        )  # fmt: skip

    def agree_to_mail(self, given_by: str = "player") -> Consent:
        return Consent.objects.create(
            player=self.player, about="email", text_version="1", given_by=given_by, given_at=AT,
            created_at=AT,
        )  # fmt: skip
