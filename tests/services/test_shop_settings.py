"""What a shop sets: by version, refused beside the field, and readable as it was."""

import datetime as dt
from decimal import Decimal

import pytest

from fitshop.actor import Actor, ActorKind, Role
from fitshop.models import AuditEntry, SettingsVersion
from fitshop.policy import Refused
from fitshop.selectors import declared_settings, settings_in_force
from fitshop.services.shop_settings import SettingsRefused, settings_change

AT = dt.datetime(2027, 3, 2, 9, 30, tzinfo=dt.UTC)
MANAGER = Actor(kind=ActorKind.STAFF, name="Mara Quill", roles=frozenset({Role.MANAGER}))
FITTER = Actor(kind=ActorKind.STAFF, name="Odo Lark", roles=frozenset({Role.FITTER}))

pytestmark = pytest.mark.django_db


def test_a_shop_that_changed_nothing_has_the_declared_defaults():
    in_force = settings_in_force()
    assert in_force.version == 0
    assert in_force["grooves.check_due_rounds"] == 70


def test_every_declared_default_fits_its_own_range_and_reads_back():
    for setting in declared_settings():
        assert setting.parsed(setting.shown(setting.default)) == setting.default, setting.key


def test_each_change_is_a_version_and_the_old_one_stays_readable():
    settings_change(typed={"grooves.check_due_rounds": "60"}, by=MANAGER, at=AT)
    settings_change(typed={"grooves.check_due_rounds": "65"}, by=MANAGER, at=AT)
    assert settings_in_force()["grooves.check_due_rounds"] == 65
    assert settings_in_force(version=1)["grooves.check_due_rounds"] == 60
    assert settings_in_force(version=0)["grooves.check_due_rounds"] == 70


def test_saving_what_is_in_force_makes_no_version():
    assert settings_change(typed={"grooves.check_due_rounds": "70"}, by=MANAGER, at=AT) is None
    assert not SettingsVersion.objects.exists()


def test_a_comma_is_a_decimal_point():
    settings_change(typed={"tolerance.loft_deg": "0,4"}, by=MANAGER, at=AT)
    assert settings_in_force()["tolerance.loft_deg"] == Decimal("0.4")


@pytest.mark.parametrize("typed", ["", "many", "-3", "1e9", "nan", "60.5"])
def test_what_does_not_fit_is_refused_by_field_and_nothing_is_saved(typed):
    with pytest.raises(SettingsRefused) as refusal:
        settings_change(
            typed={"grooves.check_due_rounds": typed, "tolerance.loft_deg": "0.4"},
            by=MANAGER,
            at=AT,
        )
    assert list(refusal.value.errors) == ["grooves.check_due_rounds"]
    assert settings_in_force().version == 0


def test_only_a_manager_changes_settings():
    with pytest.raises(Refused):
        settings_change(typed={"grooves.check_due_rounds": "60"}, by=FITTER, at=AT)


def test_a_change_is_audited_with_before_and_after():
    settings_change(typed={"grooves.check_due_rounds": "60"}, by=MANAGER, at=AT)
    entry = AuditEntry.objects.get()
    assert (entry.action, entry.actor_name) == ("shop.settings.changed", "Mara Quill")
    assert entry.before == {"grooves.check_due_rounds": "70"}
    assert entry.after == {"grooves.check_due_rounds": "60"}
