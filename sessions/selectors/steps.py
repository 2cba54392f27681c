"""How far a visit is: the nine steps, each with its state, in the order of the hour."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from django.db.models import Exists

from sessions.flow import ComparisonState, SpecState, VisitState
from sessions.models import Interview, Trial, Visit


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the visit. `is_captured` steps live on the tablet's capture pages.

    `is_begun`: not done, and no longer untouched either.
    """

    key: str
    label: str
    is_captured: bool
    is_done: bool
    is_begun: bool = False

    @property
    def state(self) -> str:
        """`done`, `open` (begun) or `todo`: a step nobody touched never looks half done."""
        if self.is_done:
            return "done"
        return "open" if self.is_begun else "todo"


def visit_steps(visit: Visit) -> tuple[Step, ...]:
    """The steps and how far each is: one query, whatever the number of shots."""
    is_there = _what_is_there(visit)
    is_closed = visit.state == VisitState.CLOSED
    return (
        Step("interview", "Interview", True, is_there["interviewed"], is_there["asked"]),
        Step("bag", "Bag", True, is_there["bag"]),
        Step("baseline", "Baseline", True, is_there["baseline"]),
        Step("plan", "Loft plan", False, is_there["plan"]),
        Step("trials", "Trials", True, is_there["candidate"], is_there["own"]),
        Step("compare", "Compare", True, is_there["revealed"], is_there["comparison"]),
        Step("decision", "Decision", False, is_there["decision"]),
        Step("spec", "Spec", False, is_there["signed"], is_there["spec"]),
        Step("finish", "Finish", False, is_closed),
    )


def _what_is_there(visit: Visit) -> dict[str, bool]:
    """What a step is done or begun with, each as a question that ends at the first row."""
    interview = Interview.objects.filter(visit=visit)
    questions = {
        "asked": interview,
        "interviewed": interview.filter(closed_at__isnull=False),
        "bag": visit.bag_entries.all(),
        "baseline": visit.trials.standing().filter(purpose=Trial.Purpose.BASELINE),
        "candidate": visit.trials.standing().filter(purpose=Trial.Purpose.CANDIDATE),
        "own": visit.trials.standing().filter(purpose=Trial.Purpose.OWN),
        "plan": visit.loft_plans.all(),
        "comparison": visit.comparisons.all(),
        "revealed": visit.comparisons.filter(state=ComparisonState.REVEALED),
        "decision": visit.decisions.all(),
        "spec": visit.specs.all(),
        "signed": visit.specs.filter(state=SpecState.SIGNED),
    }
    answers = {name: Exists(rows) for name, rows in questions.items()}
    return cast("dict[str, bool]", Visit.objects.filter(pk=visit.pk).values(**answers).get())
