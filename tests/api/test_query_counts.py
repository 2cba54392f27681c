"""How often a tablet's two requests ask the database: every ball waits for it."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.api.test_commands import block_id, receipts, shot  # noqa: F401

pytestmark = pytest.mark.django_db


def queries(do) -> int:
    with CaptureQueriesContext(connection) as asked:
        do()
    return len(asked)


def test_one_shot(tablet, room, block_id):  # noqa: F811
    """Sign-in, roles, locations, visit, shop: 6. Each entry: 18, a savepoint being two of them."""
    assert queries(lambda: receipts(tablet, room, shot(block_id))) <= 24
    ten = [shot(block_id) for _ in range(10)]
    assert queries(lambda: receipts(tablet, room, *ten)) <= 6 + 10 * 18


def test_the_state_document(tablet, room, block_id):  # noqa: F811
    receipts(tablet, room, shot(block_id))
    address = f"/api/v1/visits/{room.visit.pk}/state"
    assert queries(lambda: tablet.get(address)) <= 29
