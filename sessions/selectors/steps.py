"""How far a visit is: the nine steps, each with its state, in the order of the hour."""

from __future__ import annotations

from dataclasses import dataclass

from sessions.flow import SpecState, VisitState
from sessions.models import FinalSpec, Visit


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the visit. `is_captured` steps live on the tablet's capture pages."""

    key: str
    label: str
    is_captured: bool
    is_done: bool


def visit_steps(visit: Visit) -> tuple[Step, ...]:
    """The steps and which are done: one small query each, whatever the number of shots."""
    interview = getattr(visit, "interview", None)
    spec_states = set(FinalSpec.objects.filter(visit=visit).values_list("state", flat=True))
    return (
        Step("interview", "Interview", True, interview is not None and _is_closed(interview)),
        Step("bag", "Bag", True, visit.bag_entries.exists()),
        Step("baseline", "Baseline", True, visit.trials.filter(purpose="baseline").exists()),
        Step("plan", "Loft plan", False, visit.loft_plans.exists()),
        Step("trials", "Trials", True, visit.trials.filter(purpose="candidate").exists()),
        Step("compare", "Compare", True, visit.comparisons.filter(state="revealed").exists()),
        Step("decision", "Decision", False, visit.decisions.exists()),
        Step("spec", "Spec", False, SpecState.SIGNED in spec_states),
        Step("finish", "Finish", False, visit.state == VisitState.CLOSED),
    )


def _is_closed(interview: object) -> bool:
    return getattr(interview, "closed_at", None) is not None
