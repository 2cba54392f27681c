"""Drag and lift of a golf ball: three open models, each a closed form in the spin factor.

The spin factor is S = r omega / V, with V the speed through the air. Force = 1/2 rho A V^2 C.
A wedge leaves the face at S = 0.4 to 0.5 and lands near or past 1, outside everything that was
ever published: the three models differ by a fifth in carry and an apex by a third. So a modelled
carry is never a measurement; the ratio of two of them, in two airs, is good, and the spread of the
three models says how good.

- ``SMITS_SMITH``: Smits and Smith 1994 without its term in the Reynolds number (key
  ``smits-smith-1994``): drag 0.24 + 0.18 S, lift 0.54 S^0.4.
- ``BEARMAN_HARVEY``: Bearman and Harvey 1976, measured on a ball with hexagonal dimples (key
  ``bearman-harvey-1976``), as two curves fitted to its digitised figures: drag 0.2106 + 0.4200 S,
  lift 0.5844 S^0.5378. The table of points is not kept here: its licence is not clear, and the
  curves need none.
- ``LYU``: the lift of one ball in still air (key ``lyu-2018``), 1.99 S - 3.25 S^2 and held at its
  peak from S = 0.306 on, with Smits and Smith's drag.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
LYU_PEAK_S = 1.99 / (2 * 3.25)


@dataclass(frozen=True)
class ForceModel:
    """Coefficients of drag and lift as functions of the spin factor (arrays in, arrays out)."""

    name: str
    drag: Callable[[Floats], Floats]
    lift: Callable[[Floats], Floats]


def _smits_smith_drag(s: Floats) -> Floats:
    return np.asarray(0.24 + 0.18 * s)


def _smits_smith_lift(s: Floats) -> Floats:
    return np.asarray(0.54 * s**0.4)


def _bearman_harvey_drag(s: Floats) -> Floats:
    return np.asarray(0.2106 + 0.4200 * s)


def _bearman_harvey_lift(s: Floats) -> Floats:
    return np.asarray(0.5844 * s**0.5378)


def _lyu_lift(s: Floats) -> Floats:
    held = np.minimum(s, LYU_PEAK_S)
    return np.asarray(held * (1.99 - 3.25 * held))


SMITS_SMITH = ForceModel("Smits and Smith", _smits_smith_drag, _smits_smith_lift)
BEARMAN_HARVEY = ForceModel("Bearman and Harvey", _bearman_harvey_drag, _bearman_harvey_lift)
LYU = ForceModel("Lyu and others", _smits_smith_drag, _lyu_lift)
MODELS = (SMITS_SMITH, BEARMAN_HARVEY, LYU)
