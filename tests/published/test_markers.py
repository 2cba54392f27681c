"""The hook that refuses a published check without its source, tried on marks that lack one."""

import pytest

from tests.published.conftest import missing_source

BOTH = {"key": "nist-sp-811", "locator": "Appendix B.8"}


@pytest.mark.published(**BOTH)
@pytest.mark.parametrize(
    ("mark", "said"),
    [
        (None, "has no published"),
        (pytest.mark.published.mark, "must name both"),
        (pytest.mark.published(key="nist-sp-811").mark, "must name both"),
        (pytest.mark.published(key="nist-sp-811", locator="").mark, "must name both"),
        (pytest.mark.published(locator="page 3").mark, "must name both"),
        (pytest.mark.published(key="hearsay", locator="page 3").mark, "not in the bibliography"),
        (pytest.mark.published(key="lai-1976", locator="page 3").mark, "only remembered"),
        (pytest.mark.published("nist-sp-811", "page 3").mark, "as keywords"),
    ],
)
def test_a_mark_without_its_source_is_refused(mark: pytest.Mark | None, said: str) -> None:
    assert said in missing_source(mark)


@pytest.mark.published(**BOTH)
def test_a_mark_with_key_and_locator_passes() -> None:
    assert missing_source(pytest.mark.published(**BOTH).mark) == ""
