"""The hook that refuses an outside check which does not say by what, tried on marks that don't."""

import pytest

from tests.independent import test_bending, test_next_trial
from tests.independent.conftest import missing_outside, rooms_imports

BY = pytest.mark.independent
HOW = pytest.mark.worked_by_hand(how="asin(sin L cos d)").mark


@pytest.mark.parametrize(
    ("mark", "by_hand", "said"),
    [
        (None, None, "not by what"),
        (None, pytest.mark.worked_by_hand.mark, "not by what"),
        (BY(library="pint").mark, None, "library and call"),
        (BY(library="none: worked by hand", call="x").mark, None, "worked_by_hand"),
        (BY(library="SciPy", call="quad(f)").mark, None, "imports SciPy too"),
    ],
)
def test_a_mark_that_does_not_say_by_what_is_refused(
    mark: pytest.Mark | None, by_hand: pytest.Mark | None, said: str
) -> None:
    lack = missing_outside({"independent": mark, "worked_by_hand": by_hand}, {"math", "scipy"})
    assert said in lack


@pytest.mark.parametrize(
    ("mark", "by_hand"),
    [
        (None, HOW),
        (BY(library="pint", call="Quantity(1, 'yard')").mark, None),
        (BY(library="scipy", call="quad(f)", though="a closed form there").mark, None),
    ],
)
def test_a_mark_that_says_by_what_passes(
    mark: pytest.Mark | None, by_hand: pytest.Mark | None
) -> None:
    assert missing_outside({"independent": mark, "worked_by_hand": by_hand}, {"scipy"}) == ""


def test_what_the_tested_room_imports_is_found() -> None:
    assert "scipy" in rooms_imports(test_next_trial)
    assert "scipy" not in rooms_imports(test_bending)
