"""Whether the one who built a ticket may also pass it. Pure."""

from __future__ import annotations

# The choices of the setting `check.same_person`.
FOLLOW_THE_NUMBER, WRITTEN_DOWN, REFUSED = "follow the number", "written down", "refused"


def wants_second_person(choice: str, *, builders: int) -> bool:
    """True where another person has to pass what somebody built.

    `choice` is the setting's; `builders` counts the active ones of the location. Common practice:
    a second pair of eyes wherever there is one.

    >>> [wants_second_person("follow the number", builders=number) for number in (0, 1, 2)]
    [False, False, True]
    """
    if choice == FOLLOW_THE_NUMBER:
        return builders > 1
    return choice == REFUSED
