"""What a player, or a child's guardian, agrees to: the words, under a version.

A changed text is a new version: what was agreed to stays readable. Shops ask a lawyer of their
country; these words are a start, not advice.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ConsentText:
    """One text: `about` and `version` are what a consent stores, `words` what is read aloud."""

    about: str
    version: str
    words: str


CONSENT_TEXTS = (
    ConsentText(
        about="record",
        version="record-1",
        words="The shop may keep the record of my fittings and my clubs, so that it can be used "
        "at the next visit and when a club is rebuilt.",
    ),
    ConsentText(
        about="email",
        version="email-1",
        words="The shop may send me the fitting summary, news of my clubs and reminders by "
        "e-mail. I can take this back at any time.",
    ),
)


def consent_text(about: str) -> ConsentText:
    """The text in use now. Raises KeyError for a subject there is no text about."""
    return {text.about: text for text in CONSENT_TEXTS}[about]
