"""A fitting in progress for the tests of what is captured: invented people, makers and marks."""

from __future__ import annotations

import datetime as dt
import uuid
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from fitshop.actor import Actor, ActorKind, Role
from fitshop.models import Bay, Location, Shop, Staff, StaffLocation, StaffRole
from sessions.models import (
    Adapter,
    Grip,
    Head,
    MeasuringDevice,
    Player,
    Shaft,
    TrialHead,
    TrialShaft,
    Visit,
)

AT = dt.datetime(2027, 3, 2, 10, 40, tzinfo=dt.UTC)
PASSWORD = "a long enough word for tests"


def staff(username: str, *roles: Role, at: Location) -> Staff:
    person = Staff.objects.create_user(
        username=username, password=PASSWORD, display_name=username.title()
    )
    for role in roles:
        StaffRole.objects.create(staff=person, role=role.value)
    StaffLocation.objects.create(staff=person, location=at)
    return person


def actor_for(person: Staff) -> Actor:
    return Actor(
        kind=ActorKind.STAFF,
        name=str(person),
        staff_id=person.pk,
        roles=frozenset(Role(row.role) for row in person.role_rows.all()),
        location_ids=frozenset(row.location_id for row in person.location_rows.all()),
    )


def head(maker: str, model: str, loft: str, **more: Any) -> Head:
    values: dict[str, Any] = {
        "hand": "right",
        "bounce_deg": Decimal(10),
        "lie_deg": Decimal(64),
        "mass_g": Decimal(300),
        "making": "forged low-carbon steel",
        "finish": "satin",
        "sole_width_mm": Decimal("19.5"),
        "camber": "medium",
        "bore_mm": Decimal("9.4"),
    }
    return Head.objects.create(
        maker=maker, model=model, stamped_loft_deg=Decimal(loft), **{**values, **more}
    )


@dataclass
class Fitting:
    """One open visit with two trial heads, a shaft, an adapter and a device."""

    location: Location
    fitter_person: Staff
    fitter: Actor
    builder: Actor
    player: Player
    visit: Visit
    head: TrialHead
    other_head: TrialHead
    shaft: TrialShaft
    adapter: Adapter
    device: MeasuringDevice

    def trial(self, **changes: Any) -> dict[str, Any]:
        """What `trial_start` takes for a trial head that is tight."""
        return {
            "visit": self.visit,
            "trial_id": uuid.uuid4(),
            "purpose": "candidate",
            "trial_head": self.head,
            "trial_shaft": self.shaft,
            "adapter": self.adapter,
            "slot": 2,
            "role": "touch",
            "changed": [],
            "head_tight": True,
            "by": self.fitter,
            "at": AT,
            **changes,
        }


SITUATION = {
    "swing": "full",
    "hit_from": "fairway",
    "ground": "normal",
    "wetness": "dry",
    "face": "square",
    "ball": "premium",
    "carry_got": "tracked",
    "spin_got": "measured",
    "as_flown": "as_flown",
}


def a_fitting() -> Fitting:
    Shop.objects.create(name="Heath Fitting")
    location = Location.objects.create(name="Heath Range", zone="Europe/Dublin")
    person = staff("odo", Role.FITTER, at=location)
    builder = staff("bram", Role.BUILDER, at=location)
    player = Player.objects.create(
        given_name="Imke",
        family_name="Brandvold",
        hand="right",
        kind="woman",
        carry_unit="yd",
        created_at=AT,
    )
    visit = Visit.objects.create(
        player=player,
        location=location,
        bay=Bay.objects.create(location=location, name="Bay 2"),
        fitter=person,
        starts_at=AT - dt.timedelta(minutes=25),
        minutes=90,
        state="open",
        opened_at=AT - dt.timedelta(minutes=20),
        created_at=AT,
    )
    shaft = Shaft.objects.create(
        maker="Ferrin", model="Reed 105", material="steel", flex="firm", tip_kind="taper",
        tip_mm=Decimal("9.0"), butt_mm=Decimal("15.2"), raw_length_mm=Decimal(940),
        mass_g=Decimal(105),
    )  # fmt: skip
    grip = Grip.objects.create(
        maker="Tolva", model="Cord", size="standard", core_mm=Decimal("14.7"),
        mass_g=Decimal(50), length_mm=Decimal(270), cap_mm=Decimal(5),
    )  # fmt: skip
    return Fitting(
        location=location,
        fitter_person=person,
        fitter=actor_for(person),
        builder=actor_for(builder),
        player=player,
        visit=visit,
        head=TrialHead.objects.create(
            mark="T-17", location=location, head=head("Corvane", "Delta", "54"),
            measured_loft_deg=Decimal("53"), measured_lie_deg=Decimal("63.5"),
            measured_mass_g=Decimal("301.5"),
        ),
        other_head=TrialHead.objects.create(
            mark="T-18", location=location,
            head=head("Oskel", "Bract", "56", bounce_deg=Decimal(12), relief_heel=2),
        ),
        shaft=TrialShaft.objects.create(
            mark="S-4", location=location, shaft=shaft, grip=grip,
            playing_length_mm=Decimal("895.35"), measured_mass_g=Decimal("150"),
        ),
        adapter=Adapter.objects.create(mark="A-3", location=location, mass_g=Decimal("7.5")),
        device=MeasuringDevice.objects.create(name="Radar by the bay", location=location),
    )  # fmt: skip
