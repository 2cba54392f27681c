"""Who may: the engine, and the rows of the three buildings."""

import uuid

import pytest

from fitshop.actor import Actor, ActorKind, Role, system_actor
from fitshop.policy import SHOP_POLICY, Policy, Refused, ShopAction, row
from orders.policy import ORDER_POLICY, OrderAction
from sessions.policy import FITTING_POLICY, FittingAction

HERE, ELSEWHERE = uuid.uuid4(), uuid.uuid4()


def staff(*roles: Role) -> Actor:
    return Actor(
        kind=ActorKind.STAFF, name="Someone", roles=frozenset(roles), location_ids=frozenset({HERE})
    )


def test_silence_never_allows():
    with pytest.raises(KeyError):
        SHOP_POLICY.refusal(staff(Role.MANAGER), "shop.coffee.drink")


def test_an_action_stands_in_one_row_only():
    with pytest.raises(ValueError, match="two rows"):
        Policy.of(row("a", doing="do it"), row("a", doing="do it"))


def test_a_builder_can_not_record_a_fitting():
    sentence = FITTING_POLICY.refusal(staff(Role.BUILDER), FittingAction.CAPTURE)
    assert sentence == "Your account can't record a fitting. Ask a manager."


def test_a_fitter_records_only_in_an_open_visit():
    fitter = staff(Role.FITTER)
    assert FITTING_POLICY.is_allowed(fitter, FittingAction.CAPTURE, state="open")
    assert (
        FITTING_POLICY.refusal(fitter, FittingAction.CAPTURE, state="closed")
        == "The visit is not open. Open it first; what you typed is kept."
    )


def test_what_belongs_to_another_location_is_refused():
    desk = staff(Role.DESK)
    assert FITTING_POLICY.is_allowed(desk, FittingAction.VISIT_BOOK, location_id=HERE)
    assert (
        FITTING_POLICY.refusal(desk, FittingAction.VISIT_BOOK, location_id=ELSEWHERE)
        == "This belongs to a location where you don't work."
    )


def test_two_roles_are_the_union_of_both():
    both = staff(Role.BUILDER, Role.DESK)
    assert ORDER_POLICY.is_allowed(both, OrderAction.BENCH_WORK, state="in_build")
    assert ORDER_POLICY.is_allowed(both, OrderAction.HAND_OVER, state="ready")
    assert not ORDER_POLICY.is_allowed(staff(Role.DESK), OrderAction.BENCH_WORK, state="in_build")


def test_the_clockwork_may_only_what_its_row_says():
    clockwork = system_actor("loop")
    assert ORDER_POLICY.is_allowed(clockwork, OrderAction.REMINDERS_QUEUE)
    assert not SHOP_POLICY.is_allowed(clockwork, ShopAction.SETTING_CHANGE)


def test_a_players_link_is_refused_everything_as_yet():
    link = Actor(kind=ActorKind.PLAYER_LINK, name="a player")
    for policy in (SHOP_POLICY, FITTING_POLICY, ORDER_POLICY):
        assert not any(policy.is_allowed(link, action) for action in policy.rows)


def test_a_refusal_is_raised_with_its_sentence():
    with pytest.raises(Refused) as refusal:
        SHOP_POLICY.require(staff(Role.FITTER), ShopAction.SETTING_CHANGE)
    assert refusal.value.sentence == "Your account can't change the shop's settings. Ask a manager."


@pytest.mark.parametrize(
    ("policy", "actions"),
    [
        (SHOP_POLICY, ShopAction),
        (FITTING_POLICY, FittingAction),
        (ORDER_POLICY, OrderAction),
    ],
    ids=["shop", "fitting", "orders"],
)
def test_every_action_has_a_row_and_every_row_an_action(policy, actions):
    named = {value for name, value in vars(actions).items() if name.isupper()}
    assert named == set(policy.rows)
