"""The states of a build order and of one club on it, and the allowed moves.

Pure, on the base of `sessions.flow`, whose `can_move` and `refusal` serve here as well.
A revision is no state: it is a new sheet of the same ticket number.
"""

from __future__ import annotations

from collections.abc import Mapping

from sessions.flow import State, can_move, refusal

__all__ = ["ClubState", "OrderState", "can_move", "refusal"]


class OrderState(State):
    """A build order, from its draft to the player's hands."""

    DRAFT = "draft"
    RELEASED = "released"
    WAITING_FOR_PARTS = "waiting_for_parts"
    IN_BUILD = "in_build"
    TO_CHECK = "to_check"
    REWORK = "rework"
    READY = "ready"
    HANDED_OVER = "handed_over"
    CANCELLED = "cancelled"

    @staticmethod
    def noun() -> str:
        return "order"

    @staticmethod
    def _labels() -> Mapping[str, str]:
        return {
            "draft": "Draft",
            "released": "To pick",
            "waiting_for_parts": "Waiting for a part",
            "in_build": "In build",
            "to_check": "To check",
            "rework": "Rework",
            "ready": "Ready on shelf",
            "handed_over": "Handed over",
            "cancelled": "Cancelled",
        }

    @staticmethod
    def _moves() -> Mapping[str, tuple[str, ...]]:
        return {
            "draft": ("released", "cancelled"),
            "released": ("waiting_for_parts", "in_build", "cancelled"),
            "waiting_for_parts": ("released", "in_build", "rework", "cancelled"),
            "in_build": ("waiting_for_parts", "to_check", "cancelled"),
            "to_check": ("rework", "ready", "cancelled"),
            "rework": ("waiting_for_parts", "to_check", "cancelled"),
            # A fault seen on the shelf or at the counter goes back to the bench.
            "ready": ("handed_over", "rework", "cancelled"),
            # What comes back later is a new order against the as-built record.
            "handed_over": (),
            "cancelled": (),
        }


class ClubState(State):
    """How far one club of an order is, in the words of the bench."""

    TO_PICK = "to_pick"
    TO_BUILD = "to_build"
    CURING = "curing"
    TO_CHECK = "to_check"
    REWORK = "rework"
    READY = "ready"
    COLLECTED = "collected"

    @staticmethod
    def noun() -> str:
        return "club"

    @staticmethod
    def _labels() -> Mapping[str, str]:
        return {
            "to_pick": "To pick",
            "to_build": "To build",
            "curing": "Curing",
            "to_check": "To check",
            "rework": "Rework",
            "ready": "Ready on shelf",
            "collected": "Collected",
        }

    @staticmethod
    def _moves() -> Mapping[str, tuple[str, ...]]:
        return {
            "to_pick": ("to_build",),
            # An own club that is only bent is never glued, so it never cures.
            "to_build": ("to_pick", "curing", "to_check"),
            # After the cure the bench goes on; in a rework, with the rework.
            "curing": ("to_build", "to_check", "rework"),
            "to_check": ("rework", "ready"),
            "rework": ("to_pick", "curing", "to_check"),
            "ready": ("collected", "rework"),
            "collected": (),
        }
