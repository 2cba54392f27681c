"""The bag as it is now: each own club as it is read, and the rest as a count by kind."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.services.audit import audit_record
from sessions.maths.bending import MAKING_LIMITS
from sessions.models import BagEntry, Club, OtherClubs, Visit
from sessions.models.words import Grooves
from sessions.selectors.equipment import played_club
from sessions.services.capture import (
    refuse_another,
    refuse_missing,
    refuse_other_words,
    visit_locked,
)
from sessions.services.visits import sequence_take

CLUB_FIELDS = (
    "kind",
    "label",
    "maker",
    "model",
    "stamped_loft_deg",
    "stamped_bounce_deg",
    "making",
    "shaft",
)
ENTRY_FIELDS = (
    "loft_deg",
    "lie_deg",
    "bounce_deg",
    "length_mm",
    "mass_g",
    "swing_weight_points",
    "stock_carry_m",
    "flat_out_carry_m",
    "grooves",
    "has_crack",
    "is_kept",
    "is_loved",
    "shots",
    "note",
    "as_typed",
)
NEEDED = {
    "kind": "Say whether it is an iron, the pitching wedge or a wedge.",
    "label": "Say what the player calls it, for example pitching wedge or 54.",
}


@transaction.atomic
def bag_club_record(
    *,
    visit: Visit,
    entry_id: UUID,
    club_id: UUID,
    values: Mapping[str, Any],
    by: Actor,
    at: datetime,
) -> BagEntry:
    """Record one own club as it is read at this visit; the club itself is made at first sight.

    `values` are metric figures and words by column of Club and BagEntry; what is missing was not
    measured. The last entry of a club counts. Where the club was handed over before anybody read
    its loft, the trials of this visit get the reading: they stood on the stamp until now.

    Raises Refused, StateRefused, FieldsRefused. Writes Club, BagEntry, Trial, AuditEntry.
    """
    visit = visit_locked(visit, by=by)
    known = BagEntry.objects.filter(pk=entry_id).first()
    if known is not None:
        refuse_another(known, visit_id=visit.pk, club_id=club_id)
        return known
    refuse_missing(values, NEEDED)
    refuse_other_words(values, {"kind": Club.Kind, "grooves": Grooves})
    if values.get("making") not in (None, "", *MAKING_LIMITS):
        raise FieldsRefused({"making": f"Choose one of: {', '.join(MAKING_LIMITS)}."})

    club, before = _club_written(visit, club_id, values, by, at)
    entry = BagEntry.objects.create(
        id=entry_id,
        visit=visit,
        sequence=sequence_take(visit),
        club=club,
        recorded_at=at,
        recorded_by=by.name,
        **{field: values[field] for field in ENTRY_FIELDS if values.get(field) is not None},
    )
    read = _reach_trials(visit, club, entry)
    audit_record(
        action="fitting.bag_club.recorded",
        subject=entry,
        before=before,
        after={"club": str(club.pk), **{field: values.get(field) for field in CLUB_FIELDS}}
        | ({"trials_read": read} if read else {}),
        by=by,
        at=at,
    )
    return entry


def _reach_trials(visit: Visit, club: Club, entry: BagEntry) -> list[str]:
    """Give the reading to the club's trials whose loft nobody has read; return their ids.

    A trial whose loft was read keeps it: the club may have been bent since.
    """
    if entry.loft_deg is None:
        return []
    played = played_club(club=club, entry=entry)
    trials = list(visit.trials.select_for_update().filter(club=club, loft_is_measured=False))
    for trial in trials:
        trial.loft_deg, trial.loft_is_measured = played.loft_deg, True
        if not trial.bounce_is_measured:
            trial.bounce_deg = played.bounce_deg
            trial.bounce_is_measured = played.bounce_is_measured
        trial.save(
            update_fields=["loft_deg", "loft_is_measured", "bounce_deg", "bounce_is_measured"]
        )
    return [str(trial.pk) for trial in trials]


@transaction.atomic
def other_clubs_record(
    *, visit: Visit, counts: Mapping[str, tuple[int, int]], by: Actor, at: datetime
) -> list[OtherClubs]:
    """Write how many other clubs of each kind there are, and how many are hardly ever hit.

    `counts` is (in the bag, unused) by kind; the last count of a kind counts.

    Raises Refused, StateRefused, FieldsRefused. Writes OtherClubs, AuditEntry.
    """
    visit = visit_locked(visit, by=by)
    errors = {}
    for kind, (count, unused) in counts.items():
        if kind not in OtherClubs.Kind.values:
            errors[kind] = f"Choose one of: {', '.join(OtherClubs.Kind.labels)}."
        elif unused > count:
            errors[kind] = f"{unused} unused of {count}: there can't be more unused than there are."
    if errors:
        raise FieldsRefused(errors)

    before = {row.kind: [row.count, row.unused] for row in visit.other_clubs.all()}
    rows = [
        OtherClubs.objects.update_or_create(
            visit=visit, kind=kind, defaults={"count": count, "unused": unused}
        )[0]
        for kind, (count, unused) in counts.items()
    ]
    audit_record(
        action="fitting.other_clubs.recorded",
        subject=visit,
        before=before,
        after={kind: list(pair) for kind, pair in counts.items()},
        by=by,
        at=at,
    )
    return rows


def _club_written(
    visit: Visit, club_id: UUID, values: Mapping[str, Any], by: Actor, at: datetime
) -> tuple[Club, dict[str, Any] | None]:
    """The club with what is known of it now, and its columns as they were."""
    given = {field: values[field] for field in CLUB_FIELDS if values.get(field) is not None}
    club = Club.objects.select_for_update().filter(pk=club_id).first()
    if club is None:
        club = Club(
            id=club_id,
            player_id=visit.player_id,
            hand=visit.player.hand,
            created_at=at,
            created_by=by.name,
            **given,
        )
        club.save(force_insert=True)
        return club, None
    if club.player_id != visit.player_id:
        raise StateRefused("That club belongs to another player.")
    given["left_bag_at"] = None  # it is read in the bag, so it is in the bag
    before = {field: getattr(club, field) for field in (*CLUB_FIELDS, "left_bag_at")}
    for field, value in given.items():
        setattr(club, field, value)
    club.save(update_fields=list(given))
    return club, before
