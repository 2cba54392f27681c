"""A device's file on its pages: read, looked at, taken over, rows not taken, undone."""

from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from sessions.models import Shot, ShotFile
from sessions.services.comparisons import comparison_open
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


SEVERAL = b"Club,Carry (yd)\nGW,100\nLW,80\nGW,102\n"
COLUMNS = {"measure_0": "club", "measure_1": "carry", "unit_1": "yd", "decimal_mark": "."}


def test_the_visits_page_leads_to_its_files(room, client):
    page = client.get(reverse("visit", args=[room.visit.pk]), {"stay": "1"}).content.decode()
    assert f'href="{reverse("shot_files", args=[room.visit.pk])}"' in page


def test_the_block_in_the_hand_is_chosen_already(room, client):
    room.block(room.head_trial(room.head("50"), slot=1))
    block = room.block(room.head_trial(room.head("54"), slot=2))
    page = client.get(upload(room, client)["Location"])
    assert page.context["picked"] == str(block.pk)


def test_two_blocks_of_one_club_in_one_situation_can_be_told_apart(room, client):
    trial = room.head_trial(room.head("54"), slot=2)
    for _ in range(2):
        room.block(trial)
    other = room.block(room.head_trial(room.head("60"), slot=1))
    blocks = client.get(upload(room, client)["Location"]).context["blocks"]
    words = {each["id"]: each["words"] for each in blocks}
    assert len(set(words.values())) == 3
    assert "situation" not in words[str(other.pk)]


def test_each_club_of_a_file_goes_to_its_own_block(room, client):
    gap = room.block(room.head_trial(room.head("50"), slot=1))
    lob = room.block(room.head_trial(room.head("60"), slot=2))
    page = upload(room, client, SEVERAL)["Location"]
    asked = client.post(page, COLUMNS | {"action": "take"})
    assert asked.status_code == 422
    assert [club.name for club, error in asked.context["clubs"] if error] == ["GW", "LW"]
    client.post(page, COLUMNS | {
        "action": "take", "name_0": "GW", "club_0": str(gap.pk), "name_1": "LW",
        "club_1": str(lob.pk),
    })  # fmt: skip
    assert (gap.shots.count(), lob.shots.count()) == (2, 1)


def test_the_columns_stay_chosen_when_a_situation_is_begun(room, client):
    trial = room.head_trial(room.head("54"), slot=2)
    page = upload(room, client, SEVERAL)["Location"]
    answer = client.post(page, COLUMNS | {
        "action": "block", "trial": str(trial.pk), "swing": "full", "hit_from": "fairway",
        "ground": "normal", "wetness": "dry", "face": "square", "ball": "premium",
        "carry_got": "tracked", "spin_got": "none", "as_flown": "as_flown", "target_m": "",
    })  # fmt: skip
    back = client.get(answer["Location"])
    assert back.context["given"]["club_column"] == 0
    assert back.context["given"]["columns"] == [{"index": 1, "measure": "carry", "unit": "yd"}]


def test_a_hidden_club_is_a_number_on_the_files_page(room, client):
    trials = [room.head_trial(room.head(loft), slot=2) for loft in ("50", "54")]
    for trial in trials:
        room.block(trial)
    comparison_open(
        visit=room.visit, comparison_id=uuid4(), slot=2, trials=trials,
        covered=False, seed=7, by=room.by, at=room.at,
    )  # fmt: skip
    page = client.get(upload(room, client)["Location"]).content.decode()
    assert "Sedge" not in page
    assert "Number" in page


def test_a_target_stays_in_the_unit_that_the_page_showed(room, client):
    trial = room.head_trial(room.head("54"), slot=2)
    page = upload(room, client)["Location"]
    shown = client.get(page).context["block_form"]
    assert shown["target_unit"].value() == "yd"
    room.player.carry_unit = "m"
    room.player.save(update_fields=["carry_unit"])
    client.post(page, MAPPING | {
        "action": "block", "trial": str(trial.pk), "swing": "pitch", "hit_from": "fairway",
        "ground": "normal", "wetness": "dry", "face": "square", "ball": "premium",
        "carry_got": "tracked", "spin_got": "none", "as_flown": "as_flown", "target_m": "50",
        "target_unit": "yd",
    })  # fmt: skip
    # 50 yd are 45.72 m (NIST SP 811).
    assert trial.blocks.get().target_m == pytest.approx(45.72)
