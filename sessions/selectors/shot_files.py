"""A visit's files from measuring devices: the rows, and their bytes read as a table again."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.db.models import Count, QuerySet

from sessions.models import Block, FileMapping, MeasuringDevice, ShotFile, Trial, Visit
from sessions.rules.shot_table import Table, shot_table


def shot_files_of(visit: Visit) -> QuerySet[ShotFile]:
    """The visit's files, newest first, without their bytes, with `shot_count`."""
    return (
        ShotFile.objects.filter(visit=visit)
        .defer("content")
        .select_related("block__trial")
        .annotate(shot_count=Count("shots"))
    )


def shot_file_of(visit: Visit, file_id: UUID) -> ShotFile | None:
    return ShotFile.objects.filter(visit=visit, pk=file_id).select_related("block__trial").first()


def table_of(shot_file: ShotFile) -> Table:
    """The stored bytes as a table. They were read once before they were stored."""
    return shot_table(bytes(shot_file.content))


def saved_mapping(header_key: str) -> dict[str, Any] | None:
    """How this shop read a file with the same header before."""
    row = FileMapping.objects.filter(header_key=header_key).first()
    return None if row is None else dict(row.mapping)


def blocks_to_fill(visit: Visit) -> QuerySet[Block]:
    """The blocks a file's shots may belong to, newest first."""
    return (
        Block.objects.filter(trial__visit=visit)
        .select_related("trial__club", "device")
        .order_by("-trial__sequence", "-sequence")
    )


def trials_to_fill(visit: Visit) -> QuerySet[Trial]:
    return visit.trials.standing().select_related("club").order_by("-sequence")


def devices_at(visit: Visit) -> QuerySet[MeasuringDevice]:
    return MeasuringDevice.objects.filter(location_id=visit.location_id, in_use=True)
