"""The flow table of the README is the code's: every path, every service, every row written."""

from __future__ import annotations

import ast
import importlib
import re
from collections.abc import Iterator

import pytest

from tests.story.flow_table import NOT_WALKED, ROOT, WRITTEN_WITH_EVERY_ROW, Row, flow_table

ROWS = flow_table()


def services() -> Iterator[tuple[str, ast.FunctionDef]]:
    """Every public function of a services module that is one transaction."""
    for building in ("sessions", "orders"):
        for path in sorted((ROOT / building / "services").glob("*.py")):
            for node in ast.parse(path.read_text()).body:
                if (
                    isinstance(node, ast.FunctionDef)
                    and not node.name.startswith("_")
                    and "transaction.atomic" in map(ast.unparse, node.decorator_list)
                ):
                    yield f"{building}.services.{path.stem}.{node.name}", node


SERVICES = dict(services())


def test_every_service_stands_in_the_table_once():
    named = [row.service for row in ROWS]
    assert sorted(named) == sorted(SERVICES)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.service.rsplit(".", 1)[1])
def test_every_path_of_a_row_leads_somewhere(row: Row):
    module, name = row.service.rsplit(".", 1)
    assert callable(getattr(importlib.import_module(module), name))
    importlib.import_module(row.door)
    for pure in row.pure:
        importlib.import_module(pure)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.service.rsplit(".", 1)[1])
def test_a_row_writes_what_its_service_says(row: Row):
    said = re.search(r"Writes:? ([^.]*)\.", ast.get_docstring(SERVICES[row.service]) or "")
    assert said is not None
    assert row.writes == frozenset(re.findall(r"[A-Z]\w+", said[1])) - WRITTEN_WITH_EVERY_ROW


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.service.rsplit(".", 1)[1])
def test_a_row_is_audited_in_its_own_module_under_its_own_name(row: Row):
    module = importlib.import_module(row.service.rsplit(".", 1)[0])
    text = (ROOT / (module.__name__.replace(".", "/") + ".py")).read_text()
    thing, deed = row.action.rsplit(".", 1)
    written_out = f'"{row.action}"' in text
    put_together = f'f"{thing}.{{deed}}"' in text and f'"{deed}"' in text
    assert written_out or put_together


def test_no_two_rows_are_audited_alike():
    actions = [row.action for row in ROWS]
    assert len(set(actions)) == len(actions)


def test_what_the_story_leaves_out_stands_in_the_table():
    assert set(NOT_WALKED) <= {row.action for row in ROWS}


@pytest.mark.parametrize("action", sorted(NOT_WALKED))
def test_what_the_story_leaves_out_has_a_reason_and_a_test_of_its_own(action: str):
    why, test = NOT_WALKED[action]
    path, name = test.split("::")
    assert why
    assert re.search(rf"^def {name}\(", (ROOT / path).read_text(), re.MULTILINE)
