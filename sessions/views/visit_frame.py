"""The frame around every step of a visit: who it is, and the steps with their state."""

from __future__ import annotations

from typing import Any

from django.urls import reverse

from fitshop.actor import Actor
from sessions.models import Visit
from sessions.selectors.steps import Step, visit_steps


def frame_of(visit: Visit, actor: Actor, *, current: str) -> dict[str, Any]:
    """The context that `sessions/visit_base.html` reads; `current` is a step's key."""
    player = visit.player
    about = [f"{player.get_hand_display()} hand", player.get_carry_unit_display()]
    if visit.bay:
        about.append(visit.bay.name)
    return {
        "visit": visit,
        "player": player,
        "actor": actor,
        "visit_who": str(player),
        "visit_about": ", ".join(about),
        "visit_steps": [
            {
                "key": step.key,
                "label": step.label,
                "url": step_url(visit, step),
                "state": "now" if step.key == current else step.state,
            }
            for step in visit_steps(visit)
        ],
    }


def step_url(visit: Visit, step: Step) -> str:
    """Where a step lives: on the capture pages, or on a page of its own."""
    if step.is_captured:
        return reverse("room", args=[visit.pk, step.key])
    return reverse(step.key, args=[visit.pk])
