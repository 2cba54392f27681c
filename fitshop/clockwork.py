"""The clockwork: what runs by itself, and how often. Declared once, in `settings.CLOCKWORK`.

Celery's beat reads it, and so does the loop of `manage.py serve`. Pure: no Django, no Celery.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Work:
    """One thing that runs by itself.

    `runs` is the dotted name of a Celery task that takes nothing; the loop calls it as a plain
    function. Each is safe to run too often, twice at once, or late.
    """

    name: str
    runs: str
    every_s: float
    # A message to a worker that is older than this is not worth running: the next one comes.
    expires_s: float


def beat_schedule(works: Iterable[Work]) -> dict[str, dict[str, Any]]:
    """Return the table in the form of Celery's `beat_schedule`."""
    return {
        work.name: {
            "task": work.runs,
            "schedule": work.every_s,
            "options": {"expires": work.expires_s},
        }
        for work in works
    }


@dataclass
class Rounds:
    """When each work runs next, in seconds of a monotonic clock. All are due at the start."""

    works: Sequence[Work]
    next_at: dict[str, float] = field(default_factory=dict)

    def due(self, now: float) -> list[Work]:
        """Return the works that are due, in the table's order."""
        return [work for work in self.works if self.next_at.get(work.name, now) <= now]

    def ran(self, work: Work, now: float) -> None:
        """Count the work's period from `now`, whether it went well or failed."""
        self.next_at[work.name] = now + work.every_s

    def pause(self, now: float) -> float:
        """Return the seconds until the next work is due."""
        return max(0.0, min(self.next_at.get(work.name, now) for work in self.works) - now)
