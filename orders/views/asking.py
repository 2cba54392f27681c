"""One shape for every door that writes: one service call, each refusal where it belongs."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from django.core.exceptions import ValidationError
from django.forms import Form

from fitshop.policy import Refused
from fitshop.refusals import FieldsRefused, StateRefused


def went_through(
    call: Callable[[], Any], form: Form, *, say: Callable[[str], None] | None = None
) -> bool:
    """Make the call. A refused field's sentence stands beside it in the form; any other sentence
    is said by `say`, or stands above the form's fields."""
    say = say or partial(form.add_error, None)
    try:
        call()
    except FieldsRefused as refusal:
        for name, sentence in refusal.errors.items():
            error = ValidationError(sentence, code=refusal.code or None)
            form.add_error(name if name in form.fields else None, error)
    except (StateRefused, Refused) as refusal:
        say(refusal.sentence)
    else:
        return True
    return False
