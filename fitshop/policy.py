"""The engine that answers "may they?". It knows no golf: each building brings its rows.

A row names an action, who may do it and in which states of the object. A refusal is a value
that carries the sentence a person will read, so that screen, API and command say the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from uuid import UUID

from fitshop.actor import Actor, ActorKind, Role


class Refused(Exception):
    """A policy said no. `sentence` is for the person who asked."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


@dataclass(frozen=True, slots=True)
class Row:
    """One action: who may, in which states of the object (none named: in any)."""

    action: str
    roles: frozenset[Role]
    sentence: str
    states: frozenset[str] | None = None
    states_sentence: str = ""
    for_system: bool = False
    for_player_link: bool = False


def row(
    action: str,
    *roles: Role,
    doing: str,
    states: Iterable[str] | None = None,
    states_sentence: str = "",
    for_system: bool = False,
    for_player_link: bool = False,
) -> Row:
    """Write a row; `doing` finishes "Your account can't ..."."""
    return Row(
        action=action,
        roles=frozenset(roles),
        sentence=f"Your account can't {doing}. Ask a manager.",
        states=frozenset(states) if states is not None else None,
        states_sentence=states_sentence,
        for_system=for_system,
        for_player_link=for_player_link,
    )


@dataclass(frozen=True, slots=True)
class Policy:
    """A building's rows by action."""

    rows: Mapping[str, Row]

    @classmethod
    def of(cls, *rows: Row) -> Policy:
        table = {each.action: each for each in rows}
        if len(table) != len(rows):
            raise ValueError("an action stands in two rows")
        return cls(table)

    def refusal(
        self,
        actor: Actor,
        action: str,
        *,
        location_id: UUID | None = None,
        state: str | None = None,
    ) -> str | None:
        """The sentence that refuses, or None where the action is allowed.

        Raises KeyError for an action no row names: silence never allows.
        """
        rule = self.rows[action]
        if not self._who_may(rule, actor):
            return rule.sentence
        if not actor.at_location(location_id):
            return "This belongs to a location where you don't work."
        if state is not None and rule.states is not None and state not in rule.states:
            return rule.states_sentence or f"That can't be done now: it is {state}."
        return None

    def is_allowed(
        self,
        actor: Actor,
        action: str,
        *,
        location_id: UUID | None = None,
        state: str | None = None,
    ) -> bool:
        return self.refusal(actor, action, location_id=location_id, state=state) is None

    def require(
        self,
        actor: Actor,
        action: str,
        *,
        location_id: UUID | None = None,
        state: str | None = None,
    ) -> None:
        """Raise Refused unless the action is allowed."""
        sentence = self.refusal(actor, action, location_id=location_id, state=state)
        if sentence is not None:
            raise Refused(sentence)

    @staticmethod
    def _who_may(rule: Row, actor: Actor) -> bool:
        if actor.kind is ActorKind.SYSTEM:
            return rule.for_system
        if actor.kind is ActorKind.PLAYER_LINK:
            return rule.for_player_link
        return actor.has_role(*rule.roles)


class ShopAction:
    """The shop's own actions, without golf."""

    TODAY_VIEW = "shop.today.view"
    MESSAGES_VIEW = "shop.messages.view"
    MESSAGE_DECIDE = "shop.message.decide"
    SETTINGS_VIEW = "shop.settings.view"
    SETTING_CHANGE = "shop.setting.change"
    STAFF_MANAGE = "shop.staff.manage"
    PLACES_MANAGE = "shop.places.manage"
    TABLETS_MANAGE = "shop.tablets.manage"
    AUDIT_VIEW = "shop.audit.view"
    REPORTS_VIEW = "shop.reports.view"


EVERYONE = (Role.FITTER, Role.BUILDER, Role.DESK, Role.MANAGER)

SHOP_POLICY = Policy.of(
    row(ShopAction.TODAY_VIEW, *EVERYONE, doing="see the day"),
    row(ShopAction.MESSAGES_VIEW, Role.DESK, Role.MANAGER, Role.FITTER, doing="read messages"),
    row(ShopAction.MESSAGE_DECIDE, Role.DESK, Role.MANAGER, doing="decide about a message"),
    row(ShopAction.SETTINGS_VIEW, Role.MANAGER, doing="see the shop's settings"),
    row(ShopAction.SETTING_CHANGE, Role.MANAGER, doing="change the shop's settings"),
    row(ShopAction.STAFF_MANAGE, Role.MANAGER, doing="change who works here"),
    row(ShopAction.PLACES_MANAGE, Role.MANAGER, doing="change the shop's places", for_system=True),
    row(ShopAction.TABLETS_MANAGE, Role.MANAGER, doing="enrol tablets"),
    row(ShopAction.AUDIT_VIEW, Role.MANAGER, doing="see who did what"),
    row(ShopAction.REPORTS_VIEW, Role.MANAGER, doing="read the reports"),
)
