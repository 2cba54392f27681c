"""How a service says no, apart from policy: beside the fields, or to the whole request.

Each refusal has a sentence for the person and a code for everything else: tests, receipts and
callers compare codes, never sentences. A code is `room.reason` in lower case and never reused.
"""


class FieldsRefused(Exception):
    """Some values don't fit. `errors` holds a sentence by field name, for the person who typed.

    `code` names the reason; it is empty for the refusals that have none yet.
    """

    def __init__(self, errors: dict[str, str], *, code: str = "") -> None:
        super().__init__("; ".join(errors.values()))
        self.errors = errors
        self.code = code


class StateRefused(Exception):
    """It can't be done now. `sentence` says why and what would help; `code` names the reason."""

    def __init__(self, sentence: str, *, code: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.code = code
