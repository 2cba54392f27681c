"""Files from measuring devices: kept byte for byte, taken over in one go, taken back in one go."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import Max

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from sessions.models import Block, FileMapping, Shot, ShotExclusion, ShotFile, Visit
from sessions.models.words import LeftOut
from sessions.policy import FittingAction
from sessions.rules.shot_mapping import ReadShot, mapping_errors, mapping_of, read_shots
from sessions.rules.shot_table import FileUnreadable, shot_table
from sessions.selectors.shot_files import table_of
from sessions.services.capture import visit_locked
from sessions.services.equipment import shots_count

MOST_BYTES = 5 * 1024 * 1024


@transaction.atomic
def shot_file_read(*, visit: Visit, name: str, content: bytes, by: Actor, at: datetime) -> ShotFile:
    """Keep a file with what it was read as. The same bytes again are the same file.

    After an import was undone the same bytes make a new file: it may be mapped otherwise.

    Raises Refused, StateRefused, FieldsRefused. Writes ShotFile, AuditEntry.
    """
    visit = visit_locked(visit, by=by, action=FittingAction.SHOT_FILE_IMPORT)
    if len(content) > MOST_BYTES:
        raise FieldsRefused({"file": "This file is larger than 5 MB. Export only this visit."})
    sha256 = hashlib.sha256(content).hexdigest()
    known = visit.shot_files.filter(sha256=sha256).exclude(state=ShotFile.State.UNDONE).first()
    if known is not None:
        return known

    try:
        table = shot_table(content)
    except FileUnreadable as unreadable:
        raise FieldsRefused({"file": unreadable.sentence}) from unreadable

    shot_file = ShotFile.objects.create(
        visit=visit,
        name=name[:200] or "shots.csv",
        sha256=sha256,
        content=content,
        encoding=table.encoding,
        delimiter=table.delimiter,
        header_key=table.key,
        read_at=at,
        read_by=by.name,
    )
    audit_record(
        action="fitting.shot_file.read",
        subject=shot_file,
        after={"name": shot_file.name, "sha256": sha256, "rows": len(table.rows)},
        by=by,
        at=at,
    )
    return shot_file


@transaction.atomic
def shot_file_import(
    *, shot_file: ShotFile, mapping: Mapping[str, Any], block: Block, by: Actor, at: datetime
) -> ShotFile:
    """Take a file's rows over as shots of one block; a second time changes nothing.

    `mapping` is {"columns": [{"index", "measure", "unit"}], "decimal_mark", "right_is_positive"};
    it is kept for the next file with this header. Rows that don't fit are kept as rejects.

    Raises Refused, StateRefused, FieldsRefused.
    Writes Shot, ShotFile, FileMapping, Visit, TrialHead, TrialShaft, Adapter, AuditEntry.
    """
    visit = visit_locked(shot_file.visit, by=by, action=FittingAction.SHOT_FILE_IMPORT)
    shot_file = ShotFile.objects.select_for_update().get(pk=shot_file.pk)
    if shot_file.state == ShotFile.State.IMPORTED:
        return shot_file
    if shot_file.state == ShotFile.State.UNDONE:
        raise StateRefused("This import was undone. Choose the file again to take it over.")
    if block.trial.visit_id != visit.pk:
        raise FieldsRefused({"block": "This block is of another visit."})
    table = table_of(shot_file)
    errors = mapping_errors(table, mapping)
    if errors:
        raise FieldsRefused(errors)

    reading = read_shots(table, mapping_of(mapping))
    if not reading.shots:
        reason = reading.rejects[0].reason if reading.rejects else ""
        raise FieldsRefused({"columns": f"No row could be taken over. The first: {reason}"})

    _write_shots(visit, shot_file, block, reading.shots, by, at)
    shots_count(block.trial, len(reading.shots))
    shot_file.block = block
    shot_file.mapping = dict(mapping)
    shot_file.rejects = [
        {"row": reject.number, "reason": reject.reason, "cells": list(reject.cells)}
        for reject in reading.rejects
    ]
    shot_file.state = ShotFile.State.IMPORTED
    shot_file.imported_at = at
    shot_file.save(update_fields=["block", "mapping", "rejects", "state", "imported_at"])
    FileMapping.objects.update_or_create(
        header_key=shot_file.header_key,
        defaults={"mapping": dict(mapping), "saved_at": at, "saved_by": by.name},
    )
    audit_record(
        action="fitting.shot_file.imported",
        subject=shot_file,
        after={"block": str(block.pk), "shots": len(reading.shots),
               "rejects": len(reading.rejects)},
        by=by,
        at=at,
    )  # fmt: skip
    return shot_file


@transaction.atomic
def shot_file_undo(*, shot_file: ShotFile, by: Actor, at: datetime) -> ShotFile:
    """Leave every shot of an import out of everything. The file and its shots stay as recorded.

    Raises Refused, StateRefused.
    Writes ShotExclusion, ShotFile, Visit, TrialHead, TrialShaft, Adapter, AuditEntry.
    """
    visit = visit_locked(shot_file.visit, by=by, action=FittingAction.SHOT_FILE_IMPORT)
    shot_file = ShotFile.objects.select_for_update().get(pk=shot_file.pk)
    if shot_file.state == ShotFile.State.UNDONE:
        return shot_file
    if shot_file.state != ShotFile.State.IMPORTED:
        raise StateRefused("This file was not taken over: there is nothing to undo.")

    shots = list(shot_file.shots.counted())
    first = _sequences(visit, len(shots))
    ShotExclusion.objects.bulk_create(
        ShotExclusion(
            shot=shot,
            reason=LeftOut.UNDONE,
            sequence=first + index,
            excluded_at=at,
            excluded_by=by.name,
        )
        for index, shot in enumerate(shots)
    )
    if shot_file.block is not None and shots:
        shots_count(shot_file.block.trial, -len(shots))
    shot_file.state = ShotFile.State.UNDONE
    shot_file.save(update_fields=["state"])
    audit_record(
        action="fitting.shot_file.undone",
        subject=shot_file,
        after={"shots": len(shots)},
        by=by,
        at=at,
    )
    return shot_file


def _write_shots(
    visit: Visit,
    shot_file: ShotFile,
    block: Block,
    read: Sequence[ReadShot],
    by: Actor,
    at: datetime,
) -> None:
    number = block.shots.aggregate(latest=Max("number"))["latest"] or 0
    first = _sequences(visit, len(read))
    Shot.objects.bulk_create(
        [
            Shot(
                block=block,
                sequence=first + index,
                number=number + 1 + index,
                is_warm_up=block.is_warm_up,
                source=Shot.Source.FILE,
                file=shot_file,
                file_row=each.number,
                recorded_at=at,
                recorded_by=by.name,
                as_typed=each.as_typed,
                **each.values,
            )
            for index, each in enumerate(read)
        ],
        batch_size=500,
    )


def _sequences(visit: Visit, count: int) -> int:
    """Take so many numbers of the visit's order at once, under its lock; return the first."""
    row = Visit.objects.select_for_update().only("last_sequence").get(pk=visit.pk)
    first = row.last_sequence + 1
    row.last_sequence += count
    row.save(update_fields=["last_sequence"])
    return first
