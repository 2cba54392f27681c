"""Limits from a shop's settings, and what the facts say of themselves."""

from dataclasses import fields, replace
from decimal import Decimal as D

import pytest

from fitshop.setting import SettingRefused, Value
from orders.declared import SETTINGS as ORDER_SETTINGS
from sessions.declared import SETTINGS
from sessions.maths.bending import MAKING_LIMITS, Bend
from sessions.rules.facts import (
    SETTING_ELSEWHERE,
    ClubSource,
    HeadLimits,
    MakerLimits,
    Making,
    SpecLimits,
    limits_from,
    setting_of,
)
from sessions.rules.spec import SETTINGS as WEIGHTS
from tests.rules.spec_examples import FIFTY, LIMITS

DECLARED = (*SETTINGS, *WEIGHTS, *ORDER_SETTINGS)
DEFAULTS: dict[str, Value] = {setting.key: setting.default for setting in DECLARED}


def test_the_defaults_are_the_trade_s_figures() -> None:
    assert limits_from(DEFAULTS) == LIMITS


def test_every_setting_of_the_spec_is_a_limit_and_every_limit_a_setting() -> None:
    limits = {setting_of(limit.name) for limit in fields(SpecLimits)}
    assert limits <= set(DEFAULTS)
    assert {key for key in limits if key.startswith("spec.")} == {
        key for key in DEFAULTS if key.startswith("spec.")
    }


def test_a_limit_that_another_room_judges_by_is_that_room_s_setting() -> None:
    moved = {**DEFAULTS, "build.most_added_g": D(7), "equipment.check_days": 30}
    assert limits_from(moved).most_added_g == D(7)
    assert limits_from(moved).check_days == 30
    assert not [key for key in SETTING_ELSEWHERE.values() if key.startswith("spec.")]


def test_what_a_shop_set_is_what_the_rules_judge_by() -> None:
    assert limits_from({**DEFAULTS, "spec.bend_look_deg": D("1.5")}).bend_look_deg == D("1.5")


def test_a_setting_that_is_missing_is_not_made_up() -> None:
    settings = {key: value for key, value in DEFAULTS.items() if key != "spec.bend_look_deg"}
    with pytest.raises(KeyError):
        limits_from(settings)


@pytest.mark.parametrize("value", ["2", True, D("2.5")])
def test_a_setting_of_the_wrong_kind_is_refused(value: Value) -> None:
    with pytest.raises(TypeError):
        limits_from({**DEFAULTS, "spec.shots_for_a_build": value})


@pytest.mark.parametrize("setting", DECLARED, ids=lambda setting: setting.key)
def test_a_default_can_be_typed_and_lies_in_its_range(setting) -> None:  # type: ignore[no-untyped-def]
    assert setting.parsed(setting.shown(setting.default)) == setting.default
    assert setting.sentence.endswith(".") or setting.sentence.endswith(").")
    if setting.low is not None:
        with pytest.raises(SettingRefused):
            setting.parsed(str(setting.low - 1))
    if setting.high is not None:
        with pytest.raises(SettingRefused):
            setting.parsed(str(setting.high + 1))


def test_no_key_is_declared_twice() -> None:
    keys = [setting.key for setting in DECLARED]
    assert len(keys) == len(set(keys))


def test_every_making_has_the_limit_of_the_trade() -> None:
    assert {making.label: LIMITS.default_bend_deg(making) for making in Making} == MAKING_LIMITS


def test_the_maker_s_word_wins_way_by_way() -> None:
    head = HeadLimits(Making.FORGED_LOW_CARBON, MakerLimits(weak_deg=D(1), flat_deg=D(0)))
    limits = LIMITS.bend_limits(head)
    assert (limits.weak_deg, limits.strong_deg) == (D(1), D(3))
    assert (limits.upright_deg, limits.flat_deg) == (D(3), D(0))
    assert limits.said_by == "common practice"


def test_the_maker_is_named_where_the_maker_spoke_of_every_way() -> None:
    head = HeadLimits(Making.HOLLOW, MakerLimits(D(1), D(1), D(0), D(0)))
    assert LIMITS.bend_limits(head).said_by == "the maker"


def test_a_stamp_is_no_substitute_for_the_loft_it_is_played_at() -> None:
    own = replace(FIFTY, source=ClubSource.OWN_KEPT, target_loft_deg=None)
    assert own.played_loft_deg is None
    assert replace(own, as_received_loft_deg=D("50.7")).played_loft_deg == D("50.7")


def test_a_new_head_as_received_is_not_yet_what_it_is_played_at() -> None:
    new = replace(FIFTY, target_loft_deg=None, as_received_loft_deg=D(51))
    assert new.played_loft_deg is None


def test_earlier_bends_are_part_of_the_head() -> None:
    assert HeadLimits(earlier=(Bend(D(1), D(0)),)) != HeadLimits()
