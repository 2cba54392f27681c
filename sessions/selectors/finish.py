"""What is still open when a visit is to end, and how its summary stands."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import QuerySet

from fitshop.models import OutgoingMessage
from sessions.flow import TrialState
from sessions.models import FinalSpec, Visit
from sessions.models.words import ClubSource, Outcome
from sessions.selectors.spec_player import open_questions
from sessions.selectors.specs import current_spec, signed_spec

# A summary's kind, and what it is about, as its row says them.
SUMMARY = "summary"
SUBJECT = "visit"


@dataclass(frozen=True, slots=True)
class OpenThing:
    """Something that a fitter may want to end first: `step` is the URL name that leads there."""

    words: str
    step: str


def open_things(visit: Visit) -> tuple[OpenThing, ...]:
    found = []
    trial = visit.trials.filter(state=TrialState.OPEN).first()
    if trial is not None:
        found.append(OpenThing(f"Trial {trial.number} is still in the player's hand.", "trials"))
    questions = open_questions(visit)
    if questions:
        are = "question is" if len(questions) == 1 else "questions are"
        named = ", ".join(questions[:3]) + (", ..." if len(questions) > 3 else "")
        words = f"{len(questions)} {are} not answered that a sole hangs on: {named}"
        found.append(OpenThing(words, "interview"))
    if not visit.decisions.filter(is_current=True).exists():
        found.append(OpenThing("Nothing is decided.", "decision"))
    elif signed_spec(visit) is None:
        draft = current_spec(visit)
        words = "No spec is drafted." if draft is None else "The spec is not signed."
        found.append(OpenThing(words, "spec"))
    return tuple(found)


def is_anything_to_build(visit: Visit) -> bool:
    """Whether the workshop is to build or bend something: by the signed spec, else as decided."""
    spec = signed_spec(visit)
    if spec is not None:
        return spec.clubs.exclude(source=ClubSource.OWN_KEPT).exists()
    return visit.decisions.filter(is_current=True, outcome=Outcome.BUILD).exists()


def summary_occasion(spec: FinalSpec) -> str:
    """What makes a summary one letter: a visit has one for each version that was signed."""
    return f"spec {spec.version}"


def summary_messages(visit: Visit) -> QuerySet[OutgoingMessage]:
    """The summaries of a visit, newest first, without their bodies."""
    rows = OutgoingMessage.objects.filter(
        kind=SUMMARY, subject_type=SUBJECT, subject_id=str(visit.pk)
    )
    return rows.defer("body_text", "body_html").order_by("-created_at")
