"""Length by the bench ruler against planes cut with a line by NumPy's solver."""

from decimal import Decimal as D

import numpy as np
import pytest

from sessions.maths.cutting import length_by_ruler


@pytest.mark.independent(library="numpy", call="numpy.linalg.solve(two lines)")
@pytest.mark.parametrize("lie_deg", [56.0, 60.0, 62.5, 64.0, 66.0])
@pytest.mark.parametrize("point_mm", [5.0, 22.0, 40.0])
def test_the_ruler_begins_where_the_bench_meets_the_back_of_the_shaft(
    lie_deg: float, point_mm: float
) -> None:
    def meets_the_back_at(plane_deg: float) -> float:
        """Along the shaft, from beside the sole's point; the back of the shaft is y = 0."""
        towards_player = np.array([np.cos(np.radians(plane_deg)), -np.sin(np.radians(plane_deg))])
        back_of_shaft = np.array([1.0, 0.0])
        # point + s * plane = t * back of the shaft
        steps = np.linalg.solve(
            np.column_stack([towards_player, -back_of_shaft]), np.array([0.0, -point_mm])
        )
        return float(steps[1])

    butt = 900.0 + meets_the_back_at(60.0)
    assert float(
        length_by_ruler(D(900), lie_deg=D(str(lie_deg)), sole_point_mm=D(str(point_mm)))
    ) == pytest.approx(butt - meets_the_back_at(lie_deg), abs=1e-4)
