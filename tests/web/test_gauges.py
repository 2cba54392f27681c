"""The gauges' pages: entered with its method, refused beside the field, named once."""

from uuid import uuid4

import pytest
from django.urls import reverse

from orders.models import Gauge
from tests.order_room import Workshop
from tests.spec_room import shop, signed_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def builder(client):
    shop()
    room = Workshop()
    client.force_login(signed_in(room.location, username="odo", role="builder"))
    client.location = room.location
    return client


def typed(builder, **changes):
    return {
        "gauge_id": uuid4(), "name": "Long ruler", "measure": "length", "length_method": "ruler",
        "repeatability": "0.5", "checked_on": "2027-05-01", "location": builder.location.pk,
    } | changes  # fmt: skip


def test_a_ruler_is_entered_with_its_method_and_stands_in_the_list(builder):
    data = typed(builder)
    for _ in range(2):  # sent twice it is one gauge
        assert builder.post(reverse("gauge_new"), data).status_code == 302
    assert Gauge.objects.get().length_method == "ruler"
    text = builder.get(reverse("gauges")).content.decode()
    assert "Long ruler" in text
    assert "bench ruler along the shaft" in text


@pytest.mark.parametrize(
    ("field", "changes"),
    [
        ("length_method", {"length_method": ""}),
        ("length_method", {"measure": "loft"}),
        ("measure", {"measure": "colour"}),
        ("repeatability", {"repeatability": "-1"}),
        ("repeatability", {"repeatability": "near"}),
        ("checked_on", {"checked_on": "9999-12-31"}),
        ("name", {"name": " "}),
        ("location", {"location": uuid4()}),
    ],
)
def test_a_gauge_that_makes_no_sense_is_refused_beside_its_field_and_stays_typed(
    builder, field, changes
):
    answer = builder.post(reverse("gauge_new"), typed(builder, **changes))
    assert answer.status_code == 422
    text = answer.content.decode()
    assert f'id="id_{field}_error"' in text
    if field != "name":
        assert 'value="Long ruler"' in text
    assert not Gauge.objects.exists()
