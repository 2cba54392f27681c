"""What every captured write begins with: the visit under its lock, and whether it may be written.

A row that was made on a tablet has an id of its own: writing it twice is writing it once.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db.models import Model, TextChoices

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from sessions.models import Visit
from sessions.policy import FITTING_POLICY, FittingAction

KNOWN_OTHERWISE = (
    "This was recorded before with other values. Record it again; the first one stays."
)


def visit_locked(visit: Visit, *, by: Actor, action: str = FittingAction.CAPTURE) -> Visit:
    """Lock the visit's row and let `by` write to it.

    Raises:
        Refused: not this person's to do.
        StateRefused: the visit is not open.
    """
    locked = Visit.objects.select_for_update().get(pk=visit.pk)
    FITTING_POLICY.require(by, action, location_id=locked.location_id)
    sentence = FITTING_POLICY.refusal(by, action, state=locked.state)
    if sentence is not None:
        raise StateRefused(sentence)
    return locked


def refuse_other_words(values: Mapping[str, Any], words: Mapping[str, type[TextChoices]]) -> None:
    """Refuse a word that is in no list, beside its field. An empty word is not looked at."""
    errors = {
        field: f"Choose one of: {', '.join(str(label) for label in choices.labels)}."
        for field, choices in words.items()
        if values.get(field) not in (None, "", *choices.values)
    }
    if errors:
        raise FieldsRefused(errors)


def refuse_missing(values: Mapping[str, Any], sentences: Mapping[str, str]) -> None:
    """Refuse what was left open although nothing can be recorded without it."""
    errors = {
        field: sentence for field, sentence in sentences.items() if values.get(field) in (None, "")
    }
    if errors:
        raise FieldsRefused(errors)


def refuse_another(known: Model, **given: Any) -> None:
    """Refuse an id that is taken by a row with other values.

    Raises:
        StateRefused: one of `given` differs from what was stored under the id.
    """
    if any(getattr(known, field) != value for field, value in given.items()):
        raise StateRefused(KNOWN_OTHERWISE)
