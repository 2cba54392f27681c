"""The paper's letters: the shipped font is embedded, and letters of many languages come out."""

import io

import pdfplumber

from fitshop.rendering import pdf_from

NAMES = "Žofia Łuczak-Őrsi and Çelik Nuñez, 55.5° at 35 1/4 in, ±0.5"


def test_letters_of_both_font_files_are_drawn_as_themselves():
    html = (
        '<!doctype html><html lang="en"><head><title>Letters</title></head><body>'
        f'<p class="foot-left">Build order 2041 revision B</p><h1>{NAMES}</h1>'
        f'<p>{NAMES}</p><p class="big">{NAMES}</p></body></html>'
    )
    pdf = pdf_from(html, css=["fitshop/paper.css"], identifier="letters", title="Letters")
    with pdfplumber.open(io.BytesIO(pdf)) as document:
        page = document.pages[0]
        text = " ".join((page.extract_text() or "").split())
        fonts = {char["fontname"].split("+")[1] for char in page.chars}
    assert text.count(NAMES) == 3
    assert text.endswith("Build order 2041 revision B page 1 of 1")
    assert all(font.startswith("Atkinson-Hyperlegible-Next") for font in fonts)
    assert any(font.startswith("Atkinson-Hyperlegible-Next-Ext") for font in fonts)
