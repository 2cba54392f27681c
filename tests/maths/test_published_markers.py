"""The hook that refuses a published check without its source, tried on marks that lack one."""

import pytest

from tests.published.conftest import missing_source, printed_words

WHOLE = {"key": "nist-sp-811", "locator": "Appendix B.8", "value": "2.54 E-02 m"}


@pytest.mark.parametrize(
    ("mark", "said"),
    [
        (None, "has no published"),
        (pytest.mark.published.mark, "must name both"),
        (pytest.mark.published(key="nist-sp-811").mark, "must name both"),
        (pytest.mark.published(key="nist-sp-811", locator="").mark, "must name both"),
        (pytest.mark.published(locator="page 3").mark, "must name both"),
        (pytest.mark.published(key="nist-sp-811", locator="page 3").mark, "value as printed"),
        (pytest.mark.published(key="hearsay", locator="page 3").mark, "not in the bibliography"),
        (pytest.mark.published(key="lai-1976", locator="page 3").mark, "only remembered"),
        (pytest.mark.published("nist-sp-811", "page 3").mark, "as keywords"),
    ],
)
def test_a_mark_without_its_source_is_refused(mark: pytest.Mark | None, said: str) -> None:
    assert said in missing_source(mark)


def test_a_mark_with_key_locator_and_value_passes() -> None:
    assert missing_source(pytest.mark.published(**WHOLE).mark) == ""


def test_the_summary_says_the_source_how_it_was_read_and_the_value() -> None:
    assert printed_words(pytest.mark.published(**WHOLE).mark) == (
        "Thompson and Taylor, Guide for the Use of the International System of Units (SI), "
        "NIST Special Publication 811, 2008 edition; Appendix B.8; read second hand: 2.54 E-02 m"
    )
