"""Who acts. A frozen value made only at the doors; every service takes one as `by`."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from uuid import UUID


class Role(StrEnum):
    """What a member of staff does in the shop. One person may hold several roles."""

    FITTER = "fitter"
    BUILDER = "builder"
    DESK = "desk"
    MANAGER = "manager"


class ActorKind(StrEnum):
    STAFF = "staff"
    PLAYER_LINK = "player's link"
    SYSTEM = "system"


@dataclass(frozen=True, slots=True)
class Actor:
    """The person or clockwork behind a change, as the audit will name it.

    `location_ids` are the locations at which the actor works: what belongs to another
    location is not theirs to change. The system works at all of them.
    """

    kind: ActorKind
    name: str
    staff_id: UUID | None = None
    roles: frozenset[Role] = frozenset()
    location_ids: frozenset[UUID] = frozenset()
    request_id: str = ""
    device: str = ""
    command_id: UUID | None = None

    def has_role(self, *roles: Role) -> bool:
        return not self.roles.isdisjoint(roles)

    def at_location(self, location_id: UUID | None) -> bool:
        """Whether the actor works there; what has no location belongs to the whole shop."""
        return (
            self.kind is ActorKind.SYSTEM or location_id is None or location_id in self.location_ids
        )

    def within_command(self, command_id: UUID) -> Actor:
        return replace(self, command_id=command_id)


def system_actor(name: str) -> Actor:
    """The clockwork acting by itself: `name` says which part of it."""
    return Actor(kind=ActorKind.SYSTEM, name=name)
