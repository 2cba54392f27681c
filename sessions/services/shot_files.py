"""Files from measuring devices: kept byte for byte, taken over in one go, taken back in one go."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import datetime
from itertools import count
from typing import Any, cast

from django.db import transaction
from django.db.models import Max

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from sessions.models import Block, FileMapping, Shot, ShotExclusion, ShotFile, Visit
from sessions.models.words import LeftOut
from sessions.policy import FittingAction
from sessions.rules.shot_mapping import (
    LEFT_OUT,
    Reading,
    ReadShot,
    club_words,
    mapping_errors,
    mapping_of,
    read_shots,
)
from sessions.rules.shot_table import FileUnreadable, Table, shot_table
from sessions.selectors.evidence import trial_name
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
    *,
    shot_file: ShotFile,
    mapping: Mapping[str, Any],
    block: Block | None = None,
    clubs: Mapping[str, Block | None] | None = None,
    by: Actor,
    at: datetime,
) -> ShotFile:
    """Import a file's rows as shots; a second time changes nothing.

    `mapping` is {"columns": [{"index", "measure", "unit"}], "decimal_mark", "right_is_positive",
    "club_column", "time_column"}; it is kept for the next file with this header. All rows go to
    `block`; with a club column each goes where `clubs` has its name, and None leaves a club out.
    Rows that don't fit or are left out are kept as rejects.

    Raises Refused, StateRefused, FieldsRefused.
    Writes Shot, ShotFile, FileMapping, Visit, TrialHead, TrialShaft, Adapter, AuditEntry.
    """
    visit = visit_locked(shot_file.visit, by=by, action=FittingAction.SHOT_FILE_IMPORT)
    shot_file = ShotFile.objects.select_for_update().get(pk=shot_file.pk)
    if shot_file.state == ShotFile.State.IMPORTED:
        return shot_file
    if shot_file.state == ShotFile.State.UNDONE:
        raise StateRefused("This import was undone. Choose the file again to take it over.")
    reading = _read(table_of(shot_file), mapping)
    where = _destinations(visit, reading, mapping, block, clubs or {})
    _refuse_nothing(reading, where)

    taken = [shot for shot in reading.shots if where[shot.club] is not None]
    _write_shots(visit, shot_file, where, taken, by, at)
    for club, balls in Counter(shot.club for shot in taken).items():
        shots_count(cast(Block, where[club]).trial, balls)
    shot_file.block = next(iter(where.values())) if mapping.get("club_column") is None else None
    shot_file.rejects = _rejects(reading, where)
    shot_file.state = ShotFile.State.IMPORTED
    shot_file.imported_at = at
    _keep_mapping(shot_file, mapping, where, by, at)
    shot_file.save(update_fields=["block", "mapping", "rejects", "state", "imported_at"])
    audit_record(
        action="fitting.shot_file.imported",
        subject=shot_file,
        after={"blocks": sorted({str(each.pk) for each in where.values() if each is not None}),
               "shots": len(taken), "rejects": len(shot_file.rejects)},
        by=by,
        at=at,
    )  # fmt: skip
    return shot_file


def _read(table: Table, mapping: Mapping[str, Any]) -> Reading:
    errors = mapping_errors(table, mapping)
    if errors:
        raise FieldsRefused(errors, code="shot_file.mapping_incomplete")
    return read_shots(table, mapping_of(mapping))


def _destinations(
    visit: Visit,
    reading: Reading,
    mapping: Mapping[str, Any],
    block: Block | None,
    clubs: Mapping[str, Block | None],
) -> dict[str, Block | None]:
    """Where each club of the file goes; without a club column every row has the name ""."""
    where: Mapping[str, Block | None] = clubs
    if mapping.get("club_column") is None:
        if block is None:
            raise FieldsRefused(
                {"block": "Choose the club and situation that these shots belong to."},
                code="shot_file.no_block",
            )
        where = {"": block}
    if any(each is not None and each.trial.visit_id != visit.pk for each in where.values()):
        raise FieldsRefused(
            {"block": "This block is of another visit."}, code="shot_file.block_elsewhere"
        )
    errors = {
        f"club_{place}": f"Choose where {club_words(name)} belongs, or leave it out."
        for place, name in enumerate(reading.clubs)
        if name not in where
    }
    if errors:
        raise FieldsRefused(errors, code="shot_file.club_not_chosen")
    return {name: where[name] for name in reading.clubs}


def _refuse_nothing(reading: Reading, where: Mapping[str, Block | None]) -> None:
    if not reading.shots:
        reason = reading.rejects[0].reason if reading.rejects else ""
        raise FieldsRefused(
            {"columns": f"No row could be taken over. The first: {reason}"},
            code="shot_file.no_shots",
        )
    if all(block is None for block in where.values()):
        raise FieldsRefused(
            {"club_0": "Every club is left out: nothing would be imported."},
            code="shot_file.all_left_out",
        )


def _rejects(reading: Reading, where: Mapping[str, Block | None]) -> list[dict[str, Any]]:
    """The rows not imported, in the order of the file."""
    unread = [
        {"row": reject.number, "reason": reject.reason, "cells": list(reject.cells)}
        for reject in reading.rejects
    ]
    left_out = [
        {"row": shot.number, "code": LEFT_OUT, "club": shot.club, "cells": list(shot.cells)}
        for shot in reading.shots
        if where[shot.club] is None
    ]
    return sorted([*unread, *left_out], key=lambda reject: reject["row"])


def _keep_mapping(
    shot_file: ShotFile,
    mapping: Mapping[str, Any],
    where: Mapping[str, Block | None],
    by: Actor,
    at: datetime,
) -> None:
    """Keep how the file was read: here with its blocks, for the next one with its clubs' names."""
    is_by_club = mapping.get("club_column") is not None
    blocks = {name: "" if b is None else str(b.pk) for name, b in where.items()}
    names = {name: "" if b is None else trial_name(b.trial) for name, b in where.items()}
    shot_file.mapping = dict(mapping) | ({"clubs": blocks} if is_by_club else {})
    known = FileMapping.objects.filter(header_key=shot_file.header_key).first()
    before = {} if known is None else known.mapping.get("clubs", {})
    FileMapping.objects.update_or_create(
        header_key=shot_file.header_key,
        defaults={
            "mapping": dict(mapping) | ({"clubs": {**before, **names}} if is_by_club else {}),
            "saved_at": at,
            "saved_by": by.name,
        },
    )


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

    shots = list(shot_file.shots.counted().select_related("block__trial"))
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
    trials = {shot.block.trial_id: shot.block.trial for shot in shots}
    for trial_id, balls in Counter(shot.block.trial_id for shot in shots).items():
        shots_count(trials[trial_id], -balls)
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
    where: Mapping[str, Block | None],
    read: Sequence[ReadShot],
    by: Actor,
    at: datetime,
) -> None:
    """Write the shots in the order of the file, each numbered on in its own block."""
    blocks = [cast(Block, where[each.club]) for each in read]
    numbers = {
        block.pk: count(1 + (block.shots.aggregate(latest=Max("number"))["latest"] or 0))
        for block in blocks
    }
    first = _sequences(visit, len(read))
    Shot.objects.bulk_create(
        [
            Shot(
                block=block,
                sequence=first + index,
                number=next(numbers[block.pk]),
                is_warm_up=block.is_warm_up,
                source=Shot.Source.FILE,
                file=shot_file,
                file_row=each.number,
                device_time=_moment(visit, each),
                recorded_at=at,
                recorded_by=by.name,
                as_typed=each.as_typed,
                **each.values,
            )
            for index, (block, each) in enumerate(zip(blocks, read, strict=True))
        ],
        batch_size=500,
    )


def _moment(visit: Visit, shot: ReadShot) -> datetime | None:
    """A file's time of day on the visit's day, by the clock on its wall."""
    if shot.time is None:
        return None
    zone = visit.location.zone_info
    day = (visit.opened_at or visit.starts_at).astimezone(zone).date()
    return datetime.combine(day, shot.time, tzinfo=zone)


def _sequences(visit: Visit, count: int) -> int:
    """Take so many numbers of the visit's order at once, under its lock; return the first."""
    row = Visit.objects.select_for_update().only("last_sequence").get(pk=visit.pk)
    first = row.last_sequence + 1
    row.last_sequence += count
    row.save(update_fields=["last_sequence"])
    return first
