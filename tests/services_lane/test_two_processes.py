"""Limits at sign-in count for all web processes together."""

import http.cookiejar
import subprocess
import sys
import urllib.error
import urllib.parse
import urllib.request

import pytest

from tests.lanes import free_port
from tests.services_lane.conftest import HOUSE, wait_until

pytestmark = pytest.mark.services_lane
PASSWORD = "turf under the nails"
PERSON = f"""
from fitshop.models import Shop, Staff, StaffRole
Shop.objects.create(name="Larkhill")
odo = Staff.objects.create_user(username="odo", password={PASSWORD!r})
StaffRole.objects.create(staff=odo, role="fitter")
"""


def is_up(port: int) -> bool:
    try:
        return urllib.request.urlopen(f"http://localhost:{port}/livez", timeout=2).status == 200
    except (urllib.error.URLError, OSError):
        return False


def signed_in(port: int, password: str) -> bool:
    """Whether the sign-in page of this process lets the name in; each time a new browser."""
    jar = http.cookiejar.CookieJar()
    browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(jar))
    address = f"http://localhost:{port}/account/login/"
    browser.open(address, timeout=20).read()
    [token] = [cookie.value for cookie in jar if cookie.name == "csrftoken"]
    sent = {"login": "odo", "password": password, "csrfmiddlewaretoken": token}
    answer = browser.open(address, urllib.parse.urlencode(sent).encode(), timeout=20)
    return "/account/login/" not in answer.url


def test_wrong_passwords_at_one_process_are_counted_by_the_other(small_shop, tmp_path):
    small_shop.manage("shell", "--no-imports", "-c", PERSON)
    ports = [free_port(), free_port()]
    with (tmp_path / "web.txt").open("wb") as log:
        processes = [
            subprocess.Popen(
                [sys.executable, "-m", "gunicorn", "fitshop.wsgi", f"--bind=127.0.0.1:{port}"],
                cwd=HOUSE,
                env=small_shop.environment,
                stdout=log,
                stderr=log,
            )
            for port in ports
        ]
    try:
        assert wait_until(lambda: all(map(is_up, ports))), (tmp_path / "web.txt").read_text()
        assert signed_in(ports[1], PASSWORD)
        for number in range(10):
            assert not signed_in(ports[number % 2], "a guess")
        assert [signed_in(port, PASSWORD) for port in ports] == [False, False]
    finally:
        for process in processes:
            process.terminate()
            process.wait(15)
