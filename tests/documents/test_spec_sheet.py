"""The player's spec sheet on paper: what stands on it, its size, its structure."""

import io

import pdfplumber
import pikepdf
import pytest

from sessions.documents import spec_sheet
from sessions.selectors.spec_sheet import sheet_values
from sessions.services.specs import spec_draft
from tests.spec_room import AT, Room, shop

pytestmark = pytest.mark.django_db


def values_of(paper="A4"):
    shop(paper=paper)
    room = Room()
    return sheet_values(spec_draft(visit=room.visit, by=room.fitter, at=AT))


def test_the_sheet_says_every_figure_and_the_hand():
    made = spec_sheet.pdf(values_of())
    with pdfplumber.open(io.BytesIO(made)) as pdf:
        text = " ".join((pdf.pages[0].extract_text() or "").split())
        assert len(pdf.pages) == 1
        assert (round(pdf.pages[0].width), round(pdf.pages[0].height)) == (595, 842)
    for said in ("Ivo Brandvold", "right hand", "draft, not signed", "2 Sand wedge",
                 "one degree of loft taken off", "35 1/4 in", "Pitching wedge, 46°",
                 "Your old 56 leaves the bag.", "page 1 of 1"):  # fmt: skip
        assert said in text


def test_letter_paper_where_the_shop_has_it():
    with pdfplumber.open(io.BytesIO(spec_sheet.pdf(values_of("letter")))) as pdf:
        assert (round(pdf.pages[0].width), round(pdf.pages[0].height)) == (612, 792)


def test_it_is_tagged_with_language_and_title_and_made_alike_twice():
    values = values_of()
    made = spec_sheet.pdf(values)
    assert made == spec_sheet.pdf(values)
    with pikepdf.open(io.BytesIO(made)) as pdf:
        assert str(pdf.Root.Lang) == "en"
        assert "/StructTreeRoot" in pdf.Root
        assert str(pdf.docinfo["/Title"]) == "Spec sheet for Ivo Brandvold, version 1"


def test_headings_come_in_order_and_headers_say_their_scope():
    html = spec_sheet.html(values_of())
    assert html.count("<h1") == 1
    assert html.index("<h1") < html.index("<h2")
    assert html.count("<th") - html.count("<thead") == html.count('<th scope="')


SIX_LINES = {
    "leaving": ["52", "56"],
    "keep_fix": [["Keep", "Chip", "not shown"], ["Keep", "Flop", "not shown"],
                 ["Fix", "Full", "fixed"], ["Fix", "Sand", "not shown"]],
}  # fmt: skip


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_three_clubs_and_six_lines_worth_knowing_stand_on_one_page(paper):
    """The fuller of the two clubs twice, with as much said of it as a bent new one has."""
    values = values_of(paper)
    own, new = values["clubs"]
    new = {**new, "why": "Fills the hole below the pitching wedge, and goes through the turf."}
    values |= {"clubs": [own, new, new], "gaps": [*values["gaps"], values["gaps"][-1]], **SIX_LINES}
    with pdfplumber.open(io.BytesIO(spec_sheet.pdf(values))) as pdf:
        (page,) = pdf.pages
        text = " ".join((page.extract_text() or "").split())
    assert "Your full shots: better than before." in text
    assert "Keep this sheet." in text


def test_an_own_club_is_the_player_s_in_every_place_of_the_sheet():
    html = spec_sheet.html(values_of())
    assert "1 Your 50" in html
    assert "Your 50, 50.5°" in html
    assert "your 50, " in html or ">your 50<" in html
    assert "Own 50" not in html
    assert "60 degree plane" not in html
