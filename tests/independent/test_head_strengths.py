"""Strengths of heads against choix, and against a curvature found by differences."""

import choix
import numpy as np
import pytest

from sessions.maths.head_strengths import head_strengths

HEADS = ("high", "mid", "low", "softened")
TOLD = [
    ("high", "mid"), ("high", "low"), ("mid", "low"), ("softened", "low"), ("high", "softened"),
    ("mid", "softened"), ("low", "mid"), ("high", "mid"), ("softened", "mid"), ("high", "low"),
]  # fmt: skip


@pytest.mark.independent(library="choix", call="opt_pairwise(n, pairs, alpha=1 / (2 sd^2))")
@pytest.mark.parametrize("prior_sd", [0.5, 1.0, 3.0])
def test_strengths_under_a_belief(prior_sd: float) -> None:
    found = head_strengths(HEADS, TOLD, prior_sd=prior_sd)
    pairs = [(HEADS.index(a), HEADS.index(b)) for a, b in TOLD]
    # choix adds alpha times the sum of squares: a normal belief of variance 1 / (2 alpha).
    wanted = choix.opt_pairwise(4, pairs, alpha=1 / (2 * prior_sd**2), tol=1e-10)
    ours = {head.head_id: head.strength for head in found.heads}
    assert [ours[head] for head in HEADS] == pytest.approx(wanted - wanted.mean(), abs=1e-6)


@pytest.mark.independent(library="choix", call="opt.PairwiseFcts(pairs, alpha).hessian")
def test_the_doubt_is_the_curvature() -> None:
    found = head_strengths(HEADS, TOLD)
    pairs = [(HEADS.index(a), HEADS.index(b)) for a, b in TOLD]
    top = choix.opt_pairwise(4, pairs, alpha=0.5, tol=1e-10)
    inverse = np.linalg.inv(choix.opt.PairwiseFcts(pairs, 0.5).hessian(top))
    centre = np.eye(4) - 0.25
    assert np.asarray(found.covariance) == pytest.approx(centre @ inverse @ centre, abs=1e-6)
