"""Files from measuring devices: choose one, say what its columns are, look, take over, undo."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID, uuid4

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from fitshop.actor import Actor
from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.views.doors import staff_page
from sessions.forms.decide import BlockForm, FileForm
from sessions.maths.shown import show_distance, show_side, show_speed
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import Block, ShotFile, Visit
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.shot_mapping import (
    BY_KEY,
    CLUB,
    MEASURES,
    TIME,
    UNIT_LABELS,
    club_words,
    guessed_decimal_mark,
    guessed_roles,
    mapping_errors,
    mapping_of,
    read_shots,
    reject_words,
)
from sessions.rules.shot_table import DELIMITER_WORDS, Table
from sessions.selectors.shot_files import (
    LEAVE_OUT,
    block_in_hand,
    blocks_to_fill,
    club_choices,
    devices_at,
    saved_mapping,
    shot_file_of,
    shot_files_of,
    suggested_clubs,
    table_of,
    trial_in_hand,
    trials_to_fill,
)
from sessions.selectors.situations import situation_of
from sessions.selectors.visits import visit_for
from sessions.services.shot_files import (
    MOST_BYTES,
    shot_file_import,
    shot_file_read,
    shot_file_undo,
)
from sessions.services.trials import block_start
from sessions.views.shot_columns import is_mapped, mapping_query, posted_mapping
from sessions.views.visit_frame import frame_of

PREVIEW_ROWS = 6
SURROUNDINGS = (
    "swing", "hit_from", "ground", "wetness", "face", "ball", "carry_got", "spin_got",
    "as_flown",
)  # fmt: skip
TOO_LARGE = "This file is larger than 5 MB. Export only this visit."


@staff_page(FITTING_POLICY, FittingAction.SHOT_FILE_IMPORT)
def shot_files(request: HttpRequest, visit_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = _visit(actor, visit_id)
    is_sent = request.method == "POST"
    form = FileForm(request.POST if is_sent else None, request.FILES if is_sent else None)
    if request.method == "POST" and form.is_valid():
        row = _read(form, visit, actor)
        if row is not None:
            return redirect("shot_file", visit_id=visit.pk, file_id=row.pk)
    context = frame_of(visit, actor, current="trials") | {
        "form": form,
        "files": shot_files_of(visit),
    }
    return render(request, "sessions/shot_files.html", context, status=422 if form.errors else 200)


def _read(form: FileForm, visit: Visit, actor: Actor) -> ShotFile | None:
    upload = form.cleaned_data["file"]
    if upload.size > MOST_BYTES:
        form.add_error("file", TOO_LARGE)
        return None
    try:
        return shot_file_read(
            visit=visit, name=upload.name, content=upload.read(), by=actor, at=timezone.now()
        )
    except FieldsRefused as refused:
        for sentence in refused.errors.values():
            form.add_error("file", sentence)
    except (StateRefused, Refused) as refused:
        form.add_error(None, refused.sentence)
    return None


@staff_page(FITTING_POLICY, FittingAction.SHOT_FILE_IMPORT)
def shot_file(request: HttpRequest, visit_id: UUID, file_id: UUID, *, actor: Actor) -> HttpResponse:
    visit = _visit(actor, visit_id)
    row = shot_file_of(visit, file_id)
    if row is None:
        raise Http404
    if request.GET.get("rejects") == "csv":
        return _rejects_csv(row)
    action = request.POST.get("action", "") if request.method == "POST" else ""
    if action == "undo":
        _undo(request, row, actor)
        return redirect("shot_files", visit_id=visit.pk)
    table = table_of(row)
    unit: DistanceUnit = "m" if visit.player.carry_unit == "m" else "yd"
    typed = request.POST if action else request.GET
    given = posted_mapping(typed, table) if is_mapped(typed) else _suggested(row, table)
    errors = mapping_errors(table, given) if action in {"look", "take"} else {}
    blocks = list(blocks_to_fill(visit))
    clubs = _clubs(row, table, given, typed, blocks)
    in_hand = block_in_hand(visit)
    picked = typed.get("block", "" if in_hand is None else str(in_hand.pk))
    if action == "take" and not errors:
        errors = _taken(request, row, given, picked, clubs, blocks, actor)
        if not errors:
            return redirect("shot_file", visit_id=visit.pk, file_id=row.pk)
    block_form = _block_form(request if action == "block" else None, visit, unit, blocks)
    if action == "block":
        made = _block_made(block_form, visit, actor)
        if made is not None:
            return redirect(f"{request.path}?{mapping_query(typed)}block={made.pk}")
    context = frame_of(visit, actor, current="trials") | _page(row, table, given, errors, unit)
    context |= _where(visit, row, blocks, clubs, picked, errors, unit)
    context["block_form"] = block_form
    status = 422 if errors or block_form.errors else 200
    return render(request, "sessions/shot_file.html", context, status=status)


def _visit(actor: Actor, visit_id: UUID) -> Visit:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    return visit


def _suggested(row: ShotFile, table: Table) -> dict[str, Any]:
    """How it was imported, or how this header was read before; else what the names say."""
    known = row.mapping or saved_mapping(row.header_key)
    if known:
        return dict(known)
    return {
        "columns": [],
        "decimal_mark": guessed_decimal_mark(table, range(len(table.header))),
        "right_is_positive": None,
        **guessed_roles(table),
    }


@dataclass(frozen=True)
class FileClub:
    """A club as the file names it, and where its shots shall go: a block's id, or LEAVE_OUT."""

    field: str
    name: str
    words: str
    shots: int
    picked: str


def _clubs(
    row: ShotFile,
    table: Table,
    given: dict[str, Any],
    typed: Mapping[str, str],
    blocks: Sequence[Block],
) -> list[FileClub]:
    if given.get("club_column") is None or mapping_errors(table, given):
        return []
    names = read_shots(table, mapping_of(given)).clubs
    known = suggested_clubs(row, names, blocks)
    return [
        FileClub(
            f"club_{place}",
            name,
            club_words(name),
            shots,
            typed.get(f"club_{place}", "") if typed.get(f"name_{place}") == name else known[name],
        )
        for place, (name, shots) in enumerate(names.items())
    ]


def _taken(
    request: HttpRequest,
    row: ShotFile,
    given: dict[str, Any],
    picked: str,
    clubs: Sequence[FileClub],
    blocks: Sequence[Block],
    actor: Actor,
) -> dict[str, str]:
    by_id: dict[str, Block | None] = {str(block.pk): block for block in blocks}
    where = by_id | {LEAVE_OUT: None}
    try:
        done = shot_file_import(
            shot_file=row,
            mapping=given,
            block=by_id.get(picked),
            clubs={club.name: where[club.picked] for club in clubs if club.picked in where},
            by=actor,
            at=timezone.now(),
        )
    except FieldsRefused as refused:
        return dict(refused.errors)
    except (StateRefused, Refused) as refused:
        return {"columns": refused.sentence}
    imported, skipped = done.shots.count(), len(done.rejects)
    said = f"{imported} {'shot' if imported == 1 else 'shots'} imported"
    rows = "row" if skipped == 1 else "rows"
    messages.success(
        request, f"{said}, {skipped} {rows} skipped: see below." if skipped else f"{said}."
    )
    return {}


def _undo(request: HttpRequest, row: ShotFile, actor: Actor) -> None:
    try:
        shot_file_undo(shot_file=row, by=actor, at=timezone.now())
    except (StateRefused, Refused) as refused:
        messages.error(request, refused.sentence)
    else:
        messages.success(request, "The import was undone: none of its shots counts any more.")


def _block_form(
    request: HttpRequest | None, visit: Visit, unit: DistanceUnit, blocks: Sequence[Block]
) -> BlockForm:
    """A situation to begin, with the surroundings of the last one until something is chosen."""
    last = next(iter(blocks), None)
    initial = {} if last is None else {name: getattr(last, name) for name in SURROUNDINGS}
    if last is not None:
        initial["device"] = str(last.device_id or "")
    in_hand = trial_in_hand(visit)
    if in_hand is not None:
        initial["trial"] = str(in_hand.pk)
    return BlockForm(
        request.POST if request is not None else None,
        trials=[(str(pk), words) for pk, words in club_choices(visit).items()],
        devices=[(str(d.pk), d.name) for d in devices_at(visit)],
        unit=unit,
        initial=initial,
    )


def _block_made(form: BlockForm, visit: Visit, actor: Actor) -> Block | None:
    if not form.is_valid():
        return None
    values = dict(form.cleaned_data)
    trial = trials_to_fill(visit).get(pk=values.pop("trial"))
    device = values.pop("device")
    values.pop("target_unit")
    values["device"] = devices_at(visit).filter(pk=device).first() if device else None
    try:
        return block_start(
            trial=trial, block_id=uuid4(), values=values, by=actor, at=timezone.now()
        )
    except FieldsRefused as refused:
        for field, sentence in refused.errors.items():
            form.add_error(field if field in form.fields else None, sentence)
    except (StateRefused, Refused) as refused:
        form.add_error(None, refused.sentence)
    return None


def _page(
    row: ShotFile,
    table: Table,
    given: dict[str, Any],
    errors: dict[str, str],
    unit: DistanceUnit,
) -> dict[str, Any]:
    taken = {column["index"]: column for column in given["columns"]}
    taken |= {
        index: {"measure": role, "unit": ""}
        for role in (CLUB, TIME)
        if (index := given.get(f"{role}_column")) is not None
    }
    is_readable = not mapping_errors(table, given)
    reading = read_shots(table, mapping_of(given)) if is_readable else None
    return {
        "row": row,
        "table": table,
        "delimiter_words": DELIMITER_WORDS[table.delimiter],
        "columns": [
            {
                "index": index,
                "name": name,
                "stated": table.units[index] if index < len(table.units) else "",
                "first": [cell for cell in table.column(index)[:3] if cell],
                "measure": taken.get(index, {}).get("measure", ""),
                "unit": taken.get(index, {}).get("unit", "") or table.units[index],
                "error": errors.get(f"measure_{index}") or errors.get(f"unit_{index}", ""),
            }
            for index, name in enumerate(table.header)
        ],
        "roles": [(CLUB, "Club, one of several"), (TIME, "Time of day")],
        "measures": MEASURES,
        "units": list(UNIT_LABELS.items()),
        "given": given,
        "errors": errors,
        "rejects": [(reject["row"], reject_words(reject)) for reject in row.rejects],
        "preview": None if reading is None else _preview(reading, given, unit),
        "reading": reading,
    }


def _where(
    visit: Visit,
    row: ShotFile,
    blocks: Sequence[Block],
    clubs: Sequence[FileClub],
    picked: str,
    errors: dict[str, str],
    unit: DistanceUnit,
) -> dict[str, Any]:
    """Where the shots shall go, or went."""
    words = _told_apart(visit, blocks, unit)
    by_club = row.mapping.get("clubs")
    went = by_club or ({"": str(row.block_id)} if row.block_id else {})
    return {
        "blocks": [{"id": pk, "words": said} for pk, said in words.items()],
        "picked": picked,
        "leave_out": LEAVE_OUT,
        "clubs": [(club, errors.get(club.field, "")) for club in clubs],
        "went": [
            (club_words(name) if by_club else "", words.get(pk, "left out"))
            for name, pk in went.items()
        ],
    }


def _told_apart(visit: Visit, blocks: Sequence[Block], unit: DistanceUnit) -> dict[str, str]:
    """Each block in words; where a club came back to a situation, by its number and time too."""
    names = club_choices(visit)
    words = {block: f"{names[block.trial_id]}, {_where_words(block, unit)}" for block in blocks}
    often = Counter(words.values())
    return {
        str(block.pk): said
        if often[said] == 1
        else f"{said}, situation {block.number}, begun {timezone.localtime(block.started_at):%H:%M}"
        for block, said in words.items()
    }


def _where_words(block: Block, unit: DistanceUnit) -> str:
    words = situation_of(block).words(unit)
    return words[:1].lower() + words[1:]


def _preview(reading: Any, given: dict[str, Any], unit: DistanceUnit) -> dict[str, Any]:
    measures = [BY_KEY[column["measure"]] for column in given["columns"]]
    return {
        "head": [measure.label for measure in measures],
        "rows": [
            (shot.number, [_figure(shot.values.get(m.column), m, unit) for m in measures])
            for shot in reading.shots[:PREVIEW_ROWS]
        ],
    }


def _figure(value: float | None, measure: Any, unit: DistanceUnit) -> str:
    if value is None:
        return "not measured"
    if measure.key == "side":
        return show_side(value, unit)
    if measure.column.endswith("_m"):
        return show_distance(value, unit)
    if measure.column.endswith("_ms"):
        return show_speed(value, "mph" if unit == "yd" else "m/s")
    if measure.column.endswith("_rpm"):
        return f"{value:.0f} rpm"
    return f"{value:.1f}°"


def _rejects_csv(row: ShotFile) -> HttpResponse:
    """The rows that were not taken, with the reason; no cell can start a formula."""
    response = HttpResponse(content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = 'attachment; filename="rows-not-taken.csv"'
    response.write("\ufeff")
    writer = csv.writer(response)
    writer.writerow(["Row", "Reason", "Cells"])
    for reject in row.rejects:
        writer.writerow(
            [reject["row"], _harmless(reject_words(reject)), *map(_harmless, reject["cells"])]
        )
    return response


def _harmless(cell: str) -> str:
    """A cell that a spreadsheet would run as a formula is written as text."""
    return f"'{cell}" if cell[:1] in {"=", "+", "-", "@", "\t", "\r"} else cell
