"""How far a visit is: the nine steps, each with its state, in the order of the hour."""

from __future__ import annotations

from dataclasses import dataclass

from sessions.flow import SpecState, VisitState
from sessions.models import FinalSpec, Visit


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
    """The steps and how far each is: one small query each, whatever the number of shots."""
    interview = getattr(visit, "interview", None)
    spec_states = set(FinalSpec.objects.filter(visit=visit).values_list("state", flat=True))
    purposes = set(visit.trials.values_list("purpose", flat=True))
    comparisons = set(visit.comparisons.values_list("state", flat=True))
    is_signed = SpecState.SIGNED in spec_states
    return (
        Step("interview", "Interview", True, _is_closed(interview), interview is not None),
        Step("bag", "Bag", True, visit.bag_entries.exists()),
        Step("baseline", "Baseline", True, "baseline" in purposes),
        Step("plan", "Loft plan", False, visit.loft_plans.exists()),
        Step("trials", "Trials", True, "candidate" in purposes, "own" in purposes),
        Step("compare", "Compare", True, "revealed" in comparisons, bool(comparisons)),
        Step("decision", "Decision", False, visit.decisions.exists()),
        Step("spec", "Spec", False, is_signed, bool(spec_states)),
        Step("finish", "Finish", False, visit.state == VisitState.CLOSED),
    )


def _is_closed(interview: object) -> bool:
    return getattr(interview, "closed_at", None) is not None
