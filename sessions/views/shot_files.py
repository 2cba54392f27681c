"""Files from measuring devices: choose one, say what its columns are, look, take over, undo."""

from __future__ import annotations

import csv
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
    MEASURES,
    UNIT_LABELS,
    guessed_decimal_mark,
    mapping_errors,
    mapping_of,
    read_shots,
)
from sessions.rules.shot_table import DELIMITER_WORDS, Table
from sessions.selectors.evidence import trial_name
from sessions.selectors.shot_files import (
    blocks_to_fill,
    devices_at,
    saved_mapping,
    shot_file_of,
    shot_files_of,
    table_of,
    trials_to_fill,
)
from sessions.selectors.visits import visit_for
from sessions.services.shot_files import (
    MOST_BYTES,
    shot_file_import,
    shot_file_read,
    shot_file_undo,
)
from sessions.services.trials import block_start
from sessions.views.visit_frame import frame_of

PREVIEW_ROWS = 6
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
    table = table_of(row)
    unit: DistanceUnit = "m" if visit.player.carry_unit == "m" else "yd"
    action = request.POST.get("action", "") if request.method == "POST" else ""
    block_form = _block_form(request if action == "block" else None, visit, unit)
    given = _posted(request, table) if action in {"look", "take"} else _suggested(row, table)
    errors = mapping_errors(table, given) if action in {"look", "take"} else {}
    picked = request.POST.get("block") or request.GET.get("block") or ""
    block = blocks_to_fill(visit).filter(pk=picked).first() if _is_uuid(picked) else None
    if action == "take" and block is None:
        errors["block"] = "Choose the club and situation that these shots belong to."
    if action == "undo" and _undone(request, row, actor):
        return redirect("shot_files", visit_id=visit.pk)
    if action == "take" and not errors and block is not None:
        errors = _taken(request, row, given, block, actor)
        if not errors:
            return redirect("shot_file", visit_id=visit.pk, file_id=row.pk)
    if action == "block":
        made = _block_made(block_form, visit, actor)
        if made is not None:
            return redirect(f"{request.path}?block={made.pk}")
    context = frame_of(visit, actor, current="trials") | _page(
        row, table, given, errors, visit, unit, picked
    )
    context["block_form"] = block_form
    status = 422 if errors or block_form.errors else 200
    return render(request, "sessions/shot_file.html", context, status=status)


def _visit(actor: Actor, visit_id: UUID) -> Visit:
    visit = visit_for(actor, visit_id)
    if visit is None:
        raise Http404
    return visit


def _is_uuid(text: str) -> bool:
    try:
        UUID(text)
    except ValueError:
        return False
    return True


def _posted(request: HttpRequest, table: Table) -> dict[str, Any]:
    """The mapping as it was chosen on the page."""
    columns = [
        {
            "index": index,
            "measure": measure,
            "unit": request.POST.get(f"unit_{index}", ""),
        }
        for index in range(len(table.header))
        if (measure := request.POST.get(f"measure_{index}", ""))
    ]
    sign = {"right": True, "left": False}.get(request.POST.get("positive", ""))
    return {
        "columns": columns,
        "decimal_mark": request.POST.get("decimal_mark", ""),
        "right_is_positive": sign,
    }


def _suggested(row: ShotFile, table: Table) -> dict[str, Any]:
    """What was taken over, or how this header was read before; else only the decimal mark."""
    known = row.mapping or saved_mapping(row.header_key)
    if known:
        return dict(known)
    return {
        "columns": [],
        "decimal_mark": guessed_decimal_mark(table, range(len(table.header))),
        "right_is_positive": None,
    }


def _taken(
    request: HttpRequest, row: ShotFile, given: dict[str, Any], block: Block, actor: Actor
) -> dict[str, str]:
    try:
        done = shot_file_import(
            shot_file=row, mapping=given, block=block, by=actor, at=timezone.now()
        )
    except FieldsRefused as refused:
        return dict(refused.errors)
    except (StateRefused, Refused) as refused:
        return {"columns": refused.sentence}
    rejected = len(done.rejects)
    messages.success(
        request,
        f"Taken over: {done.shots.count()} shots."
        + (f" {rejected} rows were not taken; they are listed below." if rejected else ""),
    )
    return {}


def _undone(request: HttpRequest, row: ShotFile, actor: Actor) -> bool:
    try:
        shot_file_undo(shot_file=row, by=actor, at=timezone.now())
    except (StateRefused, Refused) as refused:
        messages.error(request, refused.sentence)
        return False
    messages.success(request, "The import was undone: none of its shots counts any more.")
    return True


def _block_form(request: HttpRequest | None, visit: Visit, unit: DistanceUnit) -> BlockForm:
    return BlockForm(
        request.POST if request is not None else None,
        trials=[(str(t.pk), f"{t.number}: {trial_name(t)}") for t in trials_to_fill(visit)],
        devices=[(str(d.pk), d.name) for d in devices_at(visit)],
        unit=unit,
    )


def _block_made(form: BlockForm, visit: Visit, actor: Actor) -> Block | None:
    if not form.is_valid():
        return None
    values = dict(form.cleaned_data)
    trial = trials_to_fill(visit).get(pk=values.pop("trial"))
    device = values.pop("device")
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
    visit: Visit,
    unit: DistanceUnit,
    picked: str,
) -> dict[str, Any]:
    taken = {column["index"]: column for column in given["columns"]}
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
        "measures": MEASURES,
        "units": list(UNIT_LABELS.items()),
        "given": given,
        "errors": errors,
        "blocks": [
            {"id": str(block.pk), "words": f"{block.trial.number}: {trial_name(block.trial)}, "
             f"{str(block)[:1].lower()}{str(block)[1:]}"}
            for block in blocks_to_fill(visit)
        ],
        "picked": picked or str(row.block_id or ""),
        "preview": None if reading is None else _preview(reading, given, unit),
        "reading": reading,
    }  # fmt: skip


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
            [reject["row"], _harmless(reject["reason"]), *map(_harmless, reject["cells"])]
        )
    return response


def _harmless(cell: str) -> str:
    """A cell that a spreadsheet would run as a formula is written as text."""
    return f"'{cell}" if cell[:1] in {"=", "+", "-", "@", "\t", "\r"} else cell
