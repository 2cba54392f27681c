"""A fitting that is open, and the tablet of its fitter."""

import pytest
from django.test import Client

from tests.fixtures_capture import a_fitting


@pytest.fixture
def room():
    return a_fitting()


@pytest.fixture
def tablet(room):
    client = Client()
    client.force_login(room.fitter_person)
    return client
