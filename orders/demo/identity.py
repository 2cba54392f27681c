"""Who loads the demo, and how its rows are known again on a second run."""

from __future__ import annotations

from uuid import UUID, uuid5

from fitshop.actor import system_actor

DEMO_ACTOR = system_actor("demo shop")
# A random number, made once: the demo's ids never meet another shop's.
_NAMESPACE = UUID("5b0c1f0e-8a57-4a7e-9c6d-2f6f5f1f3b91")


def demo_id(kind: str, name: str) -> UUID:
    """The same id for the same thing on every machine and every run."""
    return uuid5(_NAMESPACE, f"{kind}/{name}")
