"""A visit's files from measuring devices: the rows, and their bytes read as a table again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any
from uuid import UUID

from django.db.models import Count, QuerySet

from sessions.flow import TrialState
from sessions.models import Block, FileMapping, MeasuringDevice, ShotFile, Trial, Visit
from sessions.rules.shot_table import Table, shot_table
from sessions.selectors.evidence import hidden_codes, trial_name

LEAVE_OUT = "leave"


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


def block_in_hand(visit: Visit) -> Block | None:
    """The situation that balls are being hit in: the last one of the club in the hand."""
    return blocks_to_fill(visit).filter(trial__state=TrialState.OPEN).first()


def trial_in_hand(visit: Visit) -> Trial | None:
    return trials_to_fill(visit).filter(state=TrialState.OPEN).first()


def club_choices(visit: Visit) -> dict[UUID, str]:
    """Each trial in words; a club of a running comparison only by its number."""
    codes = hidden_codes(visit)
    return {
        trial.pk: f"Number {codes[trial.pk]}"
        if trial.pk in codes
        else f"Club {trial.number}, {trial_name(trial)}"
        for trial in trials_to_fill(visit)
    }


def suggested_clubs(row: ShotFile, names: Iterable[str], blocks: Sequence[Block]) -> dict[str, str]:
    """Where each club of a file went before: a block's id, LEAVE_OUT, or "" where not known.

    What this visit's last file with the same header said comes first; then the shop's memory of
    which club a name means, in the newest situation of that club.
    """
    mine = (
        row.visit.shot_files.filter(header_key=row.header_key, mapping__has_key="clubs")
        .order_by("-imported_at")
        .values_list("mapping", flat=True)
        .first()
    )
    here: dict[str, str] = (mine or {}).get("clubs", {})
    known = (saved_mapping(row.header_key) or {}).get("clubs", {})
    newest: dict[str, str] = {}
    for block in blocks:
        newest.setdefault(trial_name(block.trial), str(block.pk))
    found = {}
    for name in names:
        if name in here:
            found[name] = here[name] or LEAVE_OUT
        elif name in known:
            found[name] = newest.get(known[name], "") if known[name] else LEAVE_OUT
        else:
            found[name] = ""
    return found
