"""Loft after a lie bend, by turning vectors."""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from sessions.maths.bending import loft_after_lie_bend


@pytest.mark.independent(library="scipy", call="Rotation.from_euler('x', d).apply(normal)")
@pytest.mark.parametrize("loft", [46.0, 52.0, 56.0, 60.0])
@pytest.mark.parametrize("lie_bend", [-2.0, 0.5, 4.0])
def test_a_lie_bend_turns_the_head_about_the_target_line(loft: float, lie_bend: float) -> None:
    normal = np.array([np.cos(np.radians(loft)), 0.0, np.sin(np.radians(loft))])
    turned = Rotation.from_euler("x", lie_bend, degrees=True).apply(normal)
    assert loft_after_lie_bend(loft, lie_bend) == pytest.approx(
        float(np.degrees(np.arcsin(turned[2]))), abs=1e-9
    )


# Worked by hand from sin L' = sin L cos 2, kept with the project's reference values.
@pytest.mark.worked_by_hand(how="asin(sin L cos d)")
@pytest.mark.parametrize(
    ("loft", "after"), [(46, 45.964), (52, 51.955), (56, 55.948), (60, 59.940)]
)
def test_two_degrees_of_lie_hardly_move_the_loft(loft: float, after: float) -> None:
    assert loft_after_lie_bend(loft, 2.0) == pytest.approx(after, abs=5e-4)
