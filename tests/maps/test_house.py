"""The house as drawn: the floors hold, settings are declared once, no room is overfull."""

import re
import subprocess
import sys
from pathlib import Path

from django.apps import apps

ROOT = Path(__file__).resolve().parents[2]
BUILDINGS = ("fitshop", "sessions", "orders")


def sources() -> list[Path]:
    return [
        path
        for building in BUILDINGS
        for path in (ROOT / building).rglob("*.py")
        if "migrations" not in path.parts
    ]


def test_imports_go_one_way():
    checked = subprocess.run(
        [Path(sys.executable).with_name("lint-imports"), "--no-cache"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert checked.returncode == 0, checked.stdout[-3000:]
    assert "5 kept, 0 broken" in checked.stdout


def test_the_fitting_room_does_not_take_djangos_own_label():
    assert apps.get_app_config("fitting").name == "sessions"
    assert apps.get_app_config("sessions").name == "django.contrib.sessions"


def test_models_have_no_save_of_their_own_and_no_signals():
    for path in sources():
        text = path.read_text()
        if "models" in path.parts:
            assert not re.search(r"def (save|delete|clean)\(", text), path
        assert "django.db.models.signals" not in text, path
        assert "@receiver" not in text, path


def test_services_never_read_the_clock():
    clock = re.compile(r"timezone\.now\(|datetime\.now\(|date\.today\(|time\.time\(")
    for path in sources():
        if "services" in path.parts and path.parent.name == "services":
            assert not clock.search(path.read_text()), path


def test_only_services_write_an_audit_row():
    for path in sources():
        if path.parent.name != "services":
            assert "AuditEntry.objects.create" not in path.read_text(), path
