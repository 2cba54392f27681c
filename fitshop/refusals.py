"""How a service says no, apart from policy: beside the fields, or to the whole request."""


class FieldsRefused(Exception):
    """Some values don't fit. `errors` holds a sentence by field name, for the person who typed."""

    def __init__(self, errors: dict[str, str]) -> None:
        super().__init__("; ".join(errors.values()))
        self.errors = errors


class StateRefused(Exception):
    """It can't be done now. `sentence` says why and what would help."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence
