"""The as-built sheet and its letter: enough to build a lost club again, and nothing hidden."""

import io
import json
import os
from decimal import Decimal
from pathlib import Path

import pdfplumber
import pytest

from fitshop.models import OutgoingMessage
from orders.documents import as_built, ticket
from orders.models import Concession
from orders.selectors.as_built import as_built_values
from orders.selectors.ticket import ticket_values
from orders.services.checks import check_sign, concession_sign
from orders.services.hand_over import order_hand_over, order_ready
from tests.letters import words_of
from tests.order_room import CURED, Workshop
from tests.spec_room import shop

pytestmark = pytest.mark.django_db


def handed_over(room, reason="She likes it.", player_words="", **figures):
    """Built, its loft accepted where it is out, checked and handed over."""
    order = room.built(**figures)
    if figures.get("loft"):
        concession_sign(
            club=room.club(order), measure="loft", reason=reason, player_words=player_words,
            by=room.fitter, at=CURED,
        )  # fmt: skip
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
    order = handed_over(room, loft="56", player_words="A degree weaker, to fill the gap.")
    words = words_of(kept(as_built.pdf(as_built_values(order)), "accepted"))
    assert "1 Sand, loft 56°: A degree weaker, to fill the gap." in words
    letter = OutgoingMessage.objects.get(kind="order_as_built")
    for body in (letter.body_text, letter.body_html):
        assert "A degree weaker, to fill the gap." in body


def test_without_words_of_its_own_the_player_reads_the_figures():
    shop()
    room = Workshop()
    order = handed_over(room, loft="56")
    (club,) = as_built_values(order)["clubs"]
    (accepted,) = club["accepted"]
    assert accepted["said"] == (
        f"The loft came out at 56° instead of 55°; {room.fitter.name} accepted it."
    )


@pytest.mark.parametrize("player_words", ["", "It came out a degree weaker."])
def test_the_shop_s_own_reason_is_in_no_byte_that_reaches_the_player(player_words):
    """Every column of every letter with its attachments, the sheet as values, page and PDF."""
    shop()
    room = Workshop()
    room.agree_to_mail()
    order = handed_over(room, loft="56", reason="ZQX he never notices", player_words=player_words)
    assert Concession.objects.get().reason == "ZQX he never notices"
    letters = list(OutgoingMessage.objects.values())
    assert len(letters) >= 2
    sheets = [
        attached["values"]
        for letter in letters
        for attached in letter["attachments"]
        if attached["document"] == "as_built"
    ]
    bytes_of = [
        json.dumps(letters, default=str),
        json.dumps(as_built_values(order)),
        *(as_built.html(sheet) for sheet in sheets),
        *(words_of(as_built.pdf(sheet)) for sheet in sheets),
    ]
    assert sheets
    assert not [content for content in bytes_of if "ZQX" in content]
    # The shop's own paper has it.
    assert "ZQX" in ticket.html(ticket_values(order.revisions.get(), printed_at=CURED))


def test_a_letter_queued_with_the_shop_s_reason_in_its_sheet_renders_without_it():
    shop()
    values = as_built_values(handed_over(Workshop(), loft="56"))
    values["clubs"][0]["accepted"] = [
        {"what": "loft", "asked": "55°", "came": "56°", "by": "Mara Quill", "why": "ZQX"}
    ]
    page = as_built.html(values)
    assert "Asked for 55°; the difference was accepted by Mara Quill." in page
    assert "ZQX" not in page


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
