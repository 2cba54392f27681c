"""The as-built sheet and its letter: enough to build a lost club again, and nothing hidden."""

import io
import os
from decimal import Decimal
from pathlib import Path

import pdfplumber
import pytest

from fitshop.models import OutgoingMessage
from orders.documents import as_built
from orders.selectors.as_built import as_built_values
from orders.services.checks import check_sign, concession_sign
from orders.services.hand_over import order_hand_over, order_ready
from tests.letters import words_of
from tests.order_room import CURED, Workshop
from tests.spec_room import shop

pytestmark = pytest.mark.django_db


def handed_over(room, **figures):
    """Built, its loft accepted where it is out, checked and handed over."""
    order = room.built(**figures)
    if figures.get("loft"):
        concession_sign(
            club=room.club(order), measure="loft", reason="She likes it.", by=room.fitter, at=CURED
        )
    check_sign(order=order, result="passed", by=room.second, at=CURED)
    order_ready(order=order, by=room.desk, at=CURED)
    return order_hand_over(order=order, how="collected", by=room.desk, at=CURED)


def kept(content: bytes, name: str) -> bytes:
    """The PDF itself; left in the folder TICKET_FOLDER where somebody wants to look at it."""
    folder = os.environ.get("TICKET_FOLDER")
    if folder:
        (Path(folder) / f"as-built-{name}.pdf").write_bytes(content)
    return content


def test_an_accepted_difference_stands_on_the_sheet_and_in_the_letter():
    shop()
    room = Workshop()
    room.agree_to_mail()
    order = handed_over(room, loft="56")
    words = words_of(kept(as_built.pdf(as_built_values(order)), "accepted"))
    assert "1 Sand, loft 56°: asked for 55°; the difference was accepted by" in words
    assert f"{room.fitter.name}: She likes it." in words
    letter = OutgoingMessage.objects.get(kind="order_as_built")
    for body in (letter.body_text, letter.body_html):
        assert "We asked for loft 55° and it came out at 56°." in body
        assert f"{room.fitter.name} accepted the difference: She likes it." in body


def test_nothing_is_said_of_accepting_where_all_is_on_target():
    shop()
    room = Workshop()
    assert "Accepted as it came out" not in as_built.html(as_built_values(handed_over(room)))


def test_the_sheet_says_what_a_lost_club_is_built_from():
    """What the order was made with is typed in `tests/order_room.py`."""
    shop()
    order = handed_over(Workshop())
    words = words_of(as_built.pdf(as_built_values(order)))
    for said in (
        "As built R Ivo", "right hand", "1 Sand", "asked for 55°", "asked for 63°",
        "asked for 35 1/4 in", "sole on a 60° plane", "asked for D4", "Stamping I B",
        "taper tip, not trimmed", "Ferrule black", "Weight added none noted",
        "base tape and 2 extra", "Grip's logo up",
    ):  # fmt: skip
        assert said in words, words


def test_a_ruler_s_length_and_what_went_into_the_hosel_are_said():
    shop()
    room = Workshop()
    order = handed_over(room)
    club = room.club(order)
    club.length_method = "ruler"
    club.tip_kind, club.tip_trim_mm = "parallel", Decimal("25.4")
    club.save()
    dry = club.steps.get(step="dry_weight")
    dry.values = {"added_g": "4"}
    dry.save()
    (values,) = as_built_values(order)["clubs"]
    assert values["length_how"] == "along the shaft, to the top of the cap, grip on"
    assert values["tip"] == "1 in trimmed off the tip"
    assert values["added"] == "4 g"


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_four_clubs_stand_on_one_page(paper):
    shop(paper=paper)
    values = as_built_values(handed_over(Workshop(), loft="56"))
    values["clubs"] = values["clubs"] * 4
    content = kept(as_built.pdf(values), f"four-{paper}")
    with pdfplumber.open(io.BytesIO(content)) as document:
        assert len(document.pages) == 1


def test_a_letter_queued_before_who_accepted_was_said_still_renders():
    shop()
    values = as_built_values(handed_over(Workshop()))
    values["clubs"][0]["accepted"] = "loft"
    assert as_built.pdf(values).startswith(b"%PDF")
