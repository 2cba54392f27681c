"""Every door, sent a form after its session ended: asks for the sign-in, keeps, stores nothing.

And forms of each building filled again as they were typed, where many look alike on one page.
"""

import re
import uuid

import pytest
from django.core.signing import Signer
from django.urls import reverse

from fitshop.models import Location, Shop, Staff, StaffLocation, StaffRole
from fitshop.views import kept
from orders.models import Reading
from tests.order_room import Workshop
from tests.spec_room import Room, shop, signed_in
from tests.web.test_doors import OPEN, addresses, rows_of_everything

pytestmark = pytest.mark.django_db

# Doors that take no form of a page.
NO_FORM = OPEN | {"today", "visit_state", "visit_commands"}
PAGE = "/search"


@pytest.fixture
def manager(settings):
    settings.DEMO = True  # no second factor
    Shop.objects.create(name="Larkhill")
    location = Location.objects.create(name="Larkhill range", zone="Europe/Dublin")
    person = Staff.objects.create_user(username="mara", display_name="Mara Quill")
    StaffRole.objects.create(staff=person, role="manager")
    StaffLocation.objects.create(staff=person, location=location)
    return person


def seal(person, page):
    return Signer(salt="who typed this form").sign_object([str(person.pk), page])


def some_address(name, pattern):
    made_up = {"kind": "head", "step": "picked", "number": 2001, "slot": 1}
    return reverse(
        name, kwargs={p: made_up.get(p, uuid.uuid4()) for p in pattern.pattern.converters}
    )


def test_every_door_keeps_what_was_typed_and_asks_for_the_sign_in(client, manager):
    wrong = []
    before = rows_of_everything()
    for name, pattern in addresses().items():
        if name in NO_FORM:
            continue
        url = some_address(name, pattern)
        client.logout()
        answer = client.post(url, {"typed_by": seal(manager, PAGE), "why": f"words for {name}"})
        if answer.get("Location") != f"/account/login/?next={PAGE}%23kept-form":
            wrong.append(f"{name}: {answer.status_code} {answer.get('Location')}")
            continue
        assert [form["action"] for form in client.session[kept.IN_SESSION]] == [url]
        client.force_login(manager)
        shown = client.get(PAGE).text
        if f"words for {name}" not in shown or "This was not saved" not in shown:
            wrong.append(f"{name}: not shown again")
    assert rows_of_everything() == before
    assert not wrong, "\n".join(wrong)


def form_on(page, action):
    """The first form on a page that posts there: its text."""
    start = page.index(f'action="{action}')
    return page[page.rindex("<form", 0, start) : page.index("</form>", start)]


def sealed(page, action):
    return re.search(r'name="typed_by" value="([^"]*)"', form_on(page, action))[1]


def test_a_club_of_the_spec_comes_back_as_typed_in_its_own_form(client):
    shop()
    room = Room()
    person = signed_in(room.location)
    client.force_login(person)
    client.post(reverse("spec_draft", args=[room.visit.pk]))
    spec = room.visit.specs.get()
    page = reverse("spec", args=[room.visit.pk])
    action = reverse("spec_club", args=[room.visit.pk, spec.clubs.get(slot=2).pk])
    typed = {"typed_by": sealed(client.get(page).text, action), "slot2-edition": "1",
             "slot2-name": "Bunker", "slot2-target_loft_deg": "55,5", "slot2-role": "full_shot",
             "slot2-notes": "a note & more", "slot2-length_method": "floor"}  # fmt: skip
    client.logout()
    client.post(action, typed)
    client.force_login(person)
    text = client.get(page).text
    own = form_on(text, action)
    assert 'value="Bunker"' in own
    assert 'value="55,5"' in own
    assert "a note &amp; more" in own
    assert re.search(r'<option value="full_shot" selected="">', own)
    assert "press <b>Save slot 2</b> again" in own
    assert text.count("Nothing has been saved yet") == 1
    assert re.search(r'<details class="more" open=""><summary>[^/]*/?[^/]*', text)
    assert spec.clubs.get(slot=2).name != "Bunker"


def test_a_reading_comes_back_among_many_forms_with_the_same_address(client):
    shop()
    room = Workshop()
    room.released()
    builder = signed_in(room.location, username="odo", role="builder")
    client.force_login(builder)
    page = reverse("bench_club", args=[2001, 1])
    action = reverse("bench_reading", args=[2001, 1])
    given = str(uuid.uuid4())
    typed = {"typed_by": sealed(client.get(page).text, action), "reading_id": given,
             "stage": "as_received", "measure": "lie", "value": "sixty four"}  # fmt: skip
    client.logout()
    client.post(action, typed)
    client.force_login(builder)
    text = client.get(page).text
    filled = text[text.index('id="kept-form"') : text.index("</form>", text.index("kept-form"))]
    assert 'value="sixty four"' in filled
    assert f'value="{given}"' in filled
    assert re.search(r'<input[^>]*name="measure"[^>]*value="lie"', filled)
    assert text.count("sixty four") == 1
    assert not Reading.objects.exists()


def test_the_settings_come_back_as_typed(client, manager):
    client.force_login(manager)
    text = client.get(reverse("set_up")).text
    field = re.search(r'<input[^>]*name="([a-z_.]+minutes)"[^>]*>', text)[1]
    typed = {"typed_by": re.findall(r'name="typed_by" value="([^"]*)"', text)[-1], field: "often"}
    client.logout()
    client.post(reverse("set_up"), typed)
    client.force_login(manager)
    text = client.get(reverse("set_up")).text
    assert re.search(rf'<input[^>]*name="{re.escape(field)}"[^>]*value="often"', text)
    assert "Nothing has been saved yet" in text


def test_every_field_for_a_secret_has_a_name_that_is_never_kept():
    from django import forms as django_forms

    import fitshop.forms

    secrets = {
        name
        for form in vars(fitshop.forms).values()
        if isinstance(form, type) and issubclass(form, django_forms.Form)
        for name, field in form.base_fields.items()
        if isinstance(field.widget, django_forms.PasswordInput)
    }
    assert secrets == {"password", "own_password", "pin"}
    assert all(kept.SECRET.search(name) for name in secrets)
