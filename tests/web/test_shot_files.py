"""A device's file on its pages: read, looked at, taken over, rows not taken, undone."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from sessions.models import Shot, ShotFile
from tests.fixtures_decide import Room

pytestmark = pytest.mark.django_db
CONTENT = b"Carry (yd),Off line,Note\n100,3,\n101,-4,\n9999,1,=2+2\n"
MAPPING = {
    "measure_0": "carry", "unit_0": "yd", "measure_1": "side", "unit_1": "yd",
    "decimal_mark": ".", "positive": "right",
}  # fmt: skip


@pytest.fixture
def room(client):
    room = Room()
    room.signed_in(client)
    return room


def upload(room, client, content=CONTENT):
    return client.post(
        reverse("shot_files", args=[room.visit.pk]),
        {"file": SimpleUploadedFile("range.csv", content)},
    )


def test_a_file_is_read_looked_at_taken_over_and_undone(room, client):
    block = room.block(room.head_trial(room.head("54"), slot=2))
    page = upload(room, client)["Location"]
    looked = client.post(page, MAPPING | {"action": "look"}).content.decode()
    assert "2 shots, 1 row not taken" in looked
    assert "3 yd right" in looked
    assert not Shot.objects.exists()
    client.post(page, MAPPING | {"action": "take", "block": str(block.pk)})
    assert Shot.objects.count() == 2
    rejects = client.get(page + "?rejects=csv").content.decode()
    assert "9999 yd is not believable" in rejects
    assert "'=2+2" in rejects
    client.post(page, {"action": "undo"})
    assert ShotFile.objects.get().state == "undone"


def test_without_a_block_nothing_is_taken_over(room, client):
    page = upload(room, client)["Location"]
    answer = client.post(page, MAPPING | {"action": "take"})
    assert answer.status_code == 422
    assert "Choose the club and situation" in answer.content.decode()


def test_a_situation_can_be_begun_for_the_file(room, client):
    trial = room.head_trial(room.head("54"), slot=2)
    page = upload(room, client)["Location"]
    answer = client.post(page, {
        "action": "block", "trial": str(trial.pk), "swing": "full", "hit_from": "fairway",
        "ground": "normal", "wetness": "dry", "face": "square", "ball": "premium",
        "carry_got": "tracked", "spin_got": "none", "as_flown": "as_flown", "target_m": "",
    })  # fmt: skip
    assert answer["Location"].endswith(f"?block={trial.blocks.get().pk}")


@pytest.mark.parametrize(
    ("content", "sentence"),
    [(b"", "This file is empty."), (b"\x00\x01\x02", "no text file"),
     (b"Name,Club\nA,b\nC,d\n", "holds numbers")],
)  # fmt: skip
def test_what_is_no_table_is_said_beside_the_file(room, client, content, sentence):
    answer = upload(room, client, content)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
