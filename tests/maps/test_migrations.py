"""Models and migrations agree."""

import pytest
from django.core.management import call_command


@pytest.mark.django_db
def test_no_model_waits_for_a_migration():
    call_command("makemigrations", check=True, dry_run=True, verbosity=0)
