"""The catalogue and the trial equipment are entered once, by people who may."""

from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from fitshop.actor import Actor, ActorKind, Role, system_actor
from fitshop.models import AuditEntry, Bay, Location
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused
from fitshop.services.places import bay_enter
from orders.models import Gauge
from orders.services.gauges import gauge_enter
from sessions.models import Head, TrialHead
from sessions.services.catalogue import (
    adapter_enter,
    device_enter,
    grip_enter,
    head_enter,
    shaft_enter,
    trial_head_enter,
    trial_shaft_enter,
)

pytestmark = pytest.mark.django_db
AT = datetime(2027, 5, 7, 9, 0, tzinfo=UTC)
CLOCKWORK = system_actor("test")

HEAD = {
    "maker": "Quorn Hollow",
    "model": "Plover",
    "hand": "right",
    "stamped_loft_deg": Decimal("54"),
    "bounce_deg": Decimal("10"),
    "lie_deg": Decimal("64"),
    "mass_g": Decimal("299.5"),
    "making": "forged low-carbon steel",
    "sole_width_mm": Decimal("19"),
    "camber": "medium",
    "bore_mm": Decimal("9.017"),
}
SHAFT = {
    "maker": "Quorn Hollow",
    "model": "Stalk",
    "material": "steel",
    "flex": "medium",
    "tip_kind": "taper",
    "tip_mm": Decimal("9.017"),
    "butt_mm": Decimal("15.24"),
    "raw_length_mm": Decimal("939.8"),
    "mass_g": Decimal("120"),
}
GRIP = {
    "maker": "Quorn Hollow",
    "model": "Bark",
    "size": "standard",
    "core_mm": Decimal("15.24"),
    "mass_g": Decimal("50"),
    "length_mm": Decimal("266"),
    "cap_mm": Decimal("3.5"),
}


@pytest.fixture
def location():
    return Location.objects.create(name="North range", zone="Europe/Dublin")


def staff(*roles: Role, location: Location | None = None) -> Actor:
    places = frozenset({location.pk}) if location else frozenset()
    return Actor(ActorKind.STAFF, "Someone", roles=frozenset(roles), location_ids=places)


def head(**changed):
    return head_enter(values=HEAD | changed, by=CLOCKWORK, at=AT)


def test_a_head_is_entered_with_a_trace_of_its_figures():
    row = head()
    assert row.stamped_loft_deg == Decimal("54")
    trace = AuditEntry.objects.get(action="fitting.head.entered")
    assert (trace.object_id, trace.actor_name) == (str(row.pk), "test")
    assert trace.after["mass_g"] == "299.5"


def test_the_same_head_is_not_entered_twice():
    head()
    with pytest.raises(FieldsRefused):
        head()
    assert Head.objects.count() == 1


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("making", "forged_low_carbon"),
        ("making", ""),
        ("hand", "both"),
        ("camber", "round"),
        ("relief_heel", 4),
        ("mass_g", None),
        ("maker", ""),
    ],
)
def test_what_does_not_fit_is_said_beside_its_field(field, value):
    with pytest.raises(FieldsRefused) as refused:
        head(**{field: value})
    assert field in refused.value.errors
    assert not Head.objects.exists()


@pytest.mark.parametrize(
    ("field", "value"), [("stamped_loft_deg", "90"), ("bounce_deg", "30"), ("mass_g", "40")]
)
def test_a_figure_that_is_not_believable_is_refused(field, value):
    with pytest.raises(FieldsRefused):
        head(**{field: Decimal(value)})
    assert not Head.objects.exists()


def test_a_builder_may_enter_parts_and_the_desk_may_not():
    head_enter(values=HEAD, by=staff(Role.BUILDER), at=AT)
    for refused in (staff(Role.DESK), staff(Role.FITTER)):
        with pytest.raises(Refused):
            shaft_enter(values=SHAFT, by=refused, at=AT)


def test_equipment_is_entered_only_where_one_works(location):
    row = head()
    values = {"mark": "K 1", "head": row, "location": location}
    with pytest.raises(Refused):
        trial_head_enter(values=values, by=staff(Role.MANAGER), at=AT)
    item = trial_head_enter(values=values, by=staff(Role.MANAGER, location=location), at=AT)
    assert TrialHead.objects.get() == item


def test_equipment_without_a_place_is_refused():
    with pytest.raises(FieldsRefused) as refused:
        trial_head_enter(values={"mark": "K 1", "head": head()}, by=CLOCKWORK, at=AT)
    assert "location" in refused.value.errors


def test_two_things_never_carry_one_mark(location):
    values = {"mark": "K 1", "mass_g": Decimal("8"), "location": location}
    adapter_enter(values=values, by=CLOCKWORK, at=AT)
    with pytest.raises(FieldsRefused) as refused:
        adapter_enter(values=values, by=CLOCKWORK, at=AT)
    assert "mark" in refused.value.errors


def test_every_kind_leaves_its_own_trace(location):
    row = head()
    shaft = shaft_enter(values=SHAFT, by=CLOCKWORK, at=AT)
    grip = grip_enter(values=GRIP, by=CLOCKWORK, at=AT)
    place = {"location": location}
    trial_head_enter(values=place | {"mark": "K 1", "head": row}, by=CLOCKWORK, at=AT)
    trial_shaft_enter(
        values=place
        | {"mark": "K 2", "shaft": shaft, "grip": grip, "playing_length_mm": Decimal("901.7")},
        by=CLOCKWORK,
        at=AT,
    )
    adapter_enter(values=place | {"mark": "K 3", "mass_g": Decimal("8")}, by=CLOCKWORK, at=AT)
    device_enter(values=place | {"name": "Bay device"}, by=CLOCKWORK, at=AT)
    assert list(AuditEntry.objects.order_by("pk").values_list("action", flat=True)) == [
        "fitting.head.entered",
        "fitting.shaft.entered",
        "fitting.grip.entered",
        "fitting.trial_head.entered",
        "fitting.trial_shaft.entered",
        "fitting.adapter.entered",
        "fitting.device.entered",
    ]


def gauge(location, **changed):
    values = {
        "name": "Bench loft gauge",
        "measure": "loft",
        "location": location,
        "repeatability": Decimal("0.25"),
        "checked_on": date(2027, 5, 1),
    }
    return gauge_enter(**(values | changed), by=CLOCKWORK, at=AT)


def test_a_gauge_is_entered_with_its_repeatability(location):
    assert gauge(location).repeatability == Decimal("0.25")
    assert AuditEntry.objects.get().action == "orders.gauge.entered"


@pytest.mark.parametrize(
    ("field", "value"),
    [("name", " "), ("measure", "colour"), ("repeatability", Decimal("-0.01"))],
)
def test_a_gauge_that_makes_no_sense_is_refused(location, field, value):
    with pytest.raises(FieldsRefused) as refused:
        gauge(location, **{field: value})
    assert field in refused.value.errors
    assert not Gauge.objects.exists()


def test_a_gauge_is_named_once(location):
    gauge(location)
    with pytest.raises(FieldsRefused) as refused:
        gauge(location, name="bench LOFT gauge")
    assert "name" in refused.value.errors


def test_a_bay_is_named_once_at_its_location(location):
    bay_enter(location=location, name="Tee", is_indoors=False, by=CLOCKWORK, at=AT)
    with pytest.raises(FieldsRefused):
        bay_enter(location=location, name=" tee ", is_indoors=False, by=CLOCKWORK, at=AT)
    with pytest.raises(Refused):
        bay_enter(location=location, name="Loft", is_indoors=True, by=staff(Role.MANAGER), at=AT)
    assert Bay.objects.count() == 1
