"""Files from measuring devices: read, mapped, taken over once, undone in one go."""

import pytest

from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import FileMapping, Shot, ShotExclusion, ShotFile
from sessions.rules.shot_mapping import time_of_day
from sessions.rules.shot_table import FileUnreadable, shot_table
from sessions.selectors.evidence import visit_evidence
from sessions.selectors.shot_files import LEAVE_OUT, suggested_clubs
from sessions.services.shot_files import shot_file_import, shot_file_read, shot_file_undo
from sessions.services.visits import visit_book
from tests.fixtures_decide import AT, Room

pytestmark = pytest.mark.django_db
PLAIN = b"No,Carry,Off line,Ball speed\n,yd,yd,mph\n1,100,3,80\n2,101,-4,81\n3,99,0,79.5\n"
GERMAN = "Nr;Länge [m];Seite [m]\n1;91,5;2,0\n2;92,25;-1,5\n".encode("cp1252")


@pytest.fixture
def room():
    return Room()


@pytest.fixture
def block(room):
    return room.block(room.head_trial(room.head("54"), slot=2))


def read(room, content=PLAIN, name="range.csv"):
    return shot_file_read(visit=room.visit, name=name, content=content, by=room.by, at=AT)


def mapping(*columns, mark=".", right=True):
    return {
        "columns": [{"index": i, "measure": m, "unit": u} for i, m, u in columns],
        "decimal_mark": mark,
        "right_is_positive": right,
    }


FULL = mapping((1, "carry", "yd"), (2, "side", "yd"), (3, "ball_speed", "mph"))


def take(room, row, block, how=FULL):
    return shot_file_import(shot_file=row, mapping=how, block=block, by=room.by, at=AT)


def test_rows_become_shots_in_metric_with_the_right_side_positive(room, block):
    take(room, read(room), block)
    shots = list(Shot.objects.order_by("sequence"))
    # 100 yd are 91.44 m, 3 yd 2.7432 m and 80 mph 35.7632 m/s (NIST SP 811, exact factors).
    assert [s.carry_m for s in shots] == pytest.approx([91.44, 92.3544, 90.5256])
    assert [s.side_m for s in shots] == pytest.approx([2.7432, -3.6576, 0.0])
    assert shots[0].ball_speed_ms == pytest.approx(35.7632)
    assert [s.file_row for s in shots] == [3, 4, 5]
    assert shots[0].as_typed["carry"] == "100 yd"


def test_where_left_is_positive_the_side_turns_round(room, block):
    take(room, read(room), block, FULL | {"right_is_positive": False})
    assert Shot.objects.order_by("sequence").first().side_m == pytest.approx(-2.7432)


def test_letters_say_the_side_whatever_the_sign(room, block):
    row = read(room, b"Carry (yd),Side (yd)\n100,3 L\n101,4R\n")
    take(room, row, block, mapping((0, "carry", "yd"), (1, "side", "yd"), right=False))
    sides = [s.side_m for s in Shot.objects.order_by("sequence")]
    assert sides == pytest.approx([-2.7432, 3.6576])


def test_importing_twice_writes_once(room, block):
    row = read(room)
    take(room, row, block)
    take(room, row, block)
    assert Shot.objects.count() == 3
    assert read(room).pk == row.pk


def test_an_undone_import_counts_in_nothing_and_may_be_taken_over_again(room, block):
    row = take(room, read(room), block)
    shot_file_undo(shot_file=row, by=room.by, at=AT)
    assert ShotExclusion.objects.filter(reason="undone").count() == 3
    assert visit_evidence(room.visit).clubs[0].shots == 0
    with pytest.raises(StateRefused):
        take(room, row, block)
    again = read(room)
    assert again.pk != row.pk
    take(room, again, block)
    assert visit_evidence(room.visit).clubs[0].shots == 3


def test_comma_decimals_semicolons_and_old_windows_letters_are_read_with_a_note(room, block):
    table = shot_table(GERMAN)
    assert (table.delimiter, table.encoding) == (";", "cp1252")
    assert table.note.startswith("The letters were read as Windows text")
    assert table.header[1] == "Länge [m]"
    assert table.units == ("", "m", "m")
    row = read(room, GERMAN)
    take(room, row, block, mapping((1, "carry", "m"), (2, "side", "m"), mark=","))
    assert [s.carry_m for s in Shot.objects.order_by("sequence")] == [91.5, 92.25]


@pytest.mark.parametrize(
    ("text", "delimiter"),
    [("a\tb\n1\t2\n3\t4\n", "\t"), ("a|b\n1|2\n3|4\n", "|"), ("Club;X\n1,5;2,5\n1,6;2,6\n", ";"),
     ("Report of 7 May\n\na,b,c\n1,2,3\n4,5,6\n", ",")],
)  # fmt: skip
def test_the_delimiter_is_the_one_that_makes_columns(text, delimiter):
    assert shot_table(text.encode()).delimiter == delimiter


def test_a_byte_order_mark_is_no_part_of_the_first_name():
    assert shot_table("\ufeffCarry,Side\n1,2\n".encode()).header == ("Carry", "Side")


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "empty"),
        (b"  \r\n ", "empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "no text file"),
        (b"PK\x03\x04rest", "Save it as CSV"),
        (b"Dear Sir\nplease find\nnothing here\n", "No columns"),
        (b"Name,Club\nImke,wedge\nOdo,iron\n", "No column of this file holds numbers"),
    ],
)
def test_what_is_no_table_of_shots_is_said_in_a_sentence(room, content, sentence):
    with pytest.raises(FileUnreadable, match=sentence):
        shot_table(content)
    with pytest.raises(FieldsRefused, match=sentence):
        read(room, content)
    assert not ShotFile.objects.exists()


def test_a_file_above_five_megabytes_is_refused(room):
    with pytest.raises(FieldsRefused, match="larger than 5 MB"):
        read(room, b"a,b\n" + b"1,2\n" * (5 * 1024 * 1024 // 4))


@pytest.mark.parametrize(
    ("how", "field"),
    [
        (mapping((1, "carry", "")), "unit_1"),
        (mapping((1, "carry", "mph")), "unit_1"),
        (mapping((1, "carry", "yd"), (3, "carry", "yd")), "measure_3"),
        (mapping((1, "carry", "yd"), (2, "side", "yd"), right=None), "right_is_positive"),
        (mapping((1, "carry", "yd"), mark=""), "decimal_mark"),
        (mapping(), "columns"),
    ],
)
def test_what_a_mapping_lacks_is_said_beside_its_field(room, block, how, field):
    with pytest.raises(FieldsRefused) as refused:
        take(room, read(room), block, how)
    assert field in refused.value.errors
    assert not Shot.objects.exists()


def test_rows_that_do_not_fit_are_kept_as_rejects_with_their_reason(room, block):
    text = b"Carry (yd),Spin (rpm)\n100,9000\n9999,9000\n101,abc\nAverage,9000\n102,9100,7\n"
    row = take(room, read(room, text), block,
               mapping((0, "carry", "yd"), (1, "spin", "rpm")))  # fmt: skip
    assert Shot.objects.count() == 1
    assert [r["row"] for r in row.rejects] == [3, 4, 5, 6]
    reasons = " / ".join(r["reason"] for r in row.rejects)
    for part in ("9999 yd is not believable", "“abc” is no figure", "line of sums", "3 columns"):
        assert part in reasons


def test_the_mapping_is_kept_for_the_next_file_with_this_header(room, block):
    take(room, read(room), block)
    saved = FileMapping.objects.get()
    assert saved.header_key == shot_table(PLAIN).key
    assert saved.mapping["columns"][0] == {"index": 1, "measure": "carry", "unit": "yd"}


def test_a_block_of_another_visit_is_refused(room):
    row = read(room)
    elsewhere = visit_book(
        player=room.player, location=room.location, bay=None, fitter=None,
        starts_at=AT, minutes=60, is_walk_in=True, by=room.by, at=AT,
    )  # fmt: skip
    mine, room.visit = room.visit, elsewhere
    block = room.block(room.head_trial(room.head("58")))
    room.visit = mine
    with pytest.raises(FieldsRefused, match="another visit"):
        take(room, row, block)


BY_CLUB = (
    b"Time,Club,Carry (yd)\n10:41:00,LW,80\n10:42:00,GW,101\n10:43:30,GW,103\n"
    b"10:44:00,Driver,230\n10:45:00,,90\n"
)
SEVERAL = mapping((2, "carry", "yd")) | {"club_column": 1, "time_column": 0}


@pytest.fixture
def two_blocks(room):
    first = room.block(room.head_trial(room.head("54"), slot=2))
    return first, room.block(room.head_trial(room.head("60"), slot=3))


def take_clubs(room, row, clubs):
    return shot_file_import(
        shot_file=row, mapping=SEVERAL, clubs=clubs, by=room.by, at=AT
    )  # fmt: skip


def test_a_column_of_clubs_spreads_a_file_over_several_blocks(room, two_blocks):
    gap, lob = two_blocks
    room.hit(gap, 100)
    row = take_clubs(room, read(room, BY_CLUB), {"GW": gap, "LW": lob, "Driver": None, "": None})
    taken = list(Shot.objects.filter(file=row).order_by("sequence"))
    assert [(s.block_id, s.number, s.file_row) for s in taken] == [
        (lob.pk, 1, 2), (gap.pk, 2, 3), (gap.pk, 3, 4),
    ]  # fmt: skip
    # 10:41 on the wall in Dublin is 09:41 UTC in May.
    assert taken[0].device_time.isoformat() == "2027-05-07T09:41:00+00:00"
    assert [(r["row"], r["code"], r["club"]) for r in row.rejects] == [
        (5, "club_left_out", "Driver"), (6, "club_left_out", ""),
    ]  # fmt: skip
    for head, balls in ((gap.trial.trial_head, 3), (lob.trial.trial_head, 1)):
        head.refresh_from_db()
        assert head.shot_count == balls


def test_a_club_of_the_file_that_has_no_place_is_asked_for_and_nothing_imported(room, two_blocks):
    gap, lob = two_blocks
    with pytest.raises(FieldsRefused) as refused:
        take_clubs(room, read(room, BY_CLUB), {"GW": gap, "LW": lob})
    assert refused.value.code == "shot_file.club_not_chosen"
    assert set(refused.value.errors) == {"club_2", "club_3"}
    assert not Shot.objects.exists()


def test_undo_takes_back_an_import_of_several_clubs_whole(room, two_blocks):
    gap, lob = two_blocks
    row = take_clubs(room, read(room, BY_CLUB), {"GW": gap, "LW": lob, "Driver": None, "": lob})
    shot_file_undo(shot_file=row, by=room.by, at=AT)
    assert Shot.objects.filter(file=row).counted().count() == 0
    for block in (gap, lob):
        block.trial.trial_head.refresh_from_db()
        assert block.trial.trial_head.shot_count == 0


def test_the_clubs_names_are_remembered_for_the_next_file(room, two_blocks):
    gap, lob = two_blocks
    where = {"GW": gap, "LW": lob, "Driver": None, "": None}
    take_clubs(room, read(room, BY_CLUB), where)
    again = read(room, BY_CLUB.replace(b"101", b"102"))
    found = suggested_clubs(again, ["GW", "LW", "Driver", "5i"], [lob, gap])
    assert found == {"GW": str(gap.pk), "LW": str(lob.pk), "Driver": LEAVE_OUT, "5i": ""}
    names = FileMapping.objects.get().mapping["clubs"]
    assert (names["GW"], names["Driver"]) == ("Orrin Vale Sedge 54°", "")


@pytest.mark.parametrize("cell", ["25:00", "10.41", "10:61:00", "13:00 PM", "soon"])
def test_what_is_no_time_of_day_is_rejected_with_its_row(cell):
    assert time_of_day(cell) is None
