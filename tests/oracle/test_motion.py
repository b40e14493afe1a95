"""Best motions against scipy: its rotation alignment, its linear solver, its optimiser.

The alignment is W. Kabsch's solution (Acta Cryst. A32, 1976, p. 922) by singular value
decomposition, as scipy's page on `Rotation.align_vectors` says. The best similarity without
mirroring is linear in its four numbers, so a linear solver finds it (S. Umeyama, IEEE Trans.
Pattern Anal. Mach. Intell. 13(4), 1991, gives the same in closed form).
"""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.linalg import lstsq
from scipy.optimize import minimize_scalar
from scipy.spatial.transform import Rotation

from stitchpath.geometry.motion import best_motion
from stitchpath.geometry.points import Points

seeds = st.integers(0, 10_000)


def noisy_marks(seed: int, count: int) -> tuple[Points, Points]:
    """Return marks in a field of 200 x 300 mm, and where they were found, 1 mm off or so."""
    chance = np.random.default_rng(seed)
    before = chance.uniform([-95, -145], [95, 145], (count, 2))
    angle = chance.uniform(-0.2, 0.2)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    noise = chance.normal(0, 0.7, (count, 2))
    return before, before @ turn.T + chance.uniform(-5, 5, 2) + noise


@given(seed=seeds, count=st.integers(3, 6))
def test_rigid_motion_is_that_of_the_rotation_alignment(seed: int, count: int) -> None:
    before, after = noisy_marks(seed, count)
    flat = [
        np.column_stack([places - places.mean(axis=0), np.zeros(count)])
        for places in (after, before)
    ]
    turn = Rotation.align_vectors(*flat)[0].as_matrix()[:2, :2]
    # marks nearly in line: in space, turning over may fit better than a turn in the plane
    assume(np.linalg.det(turn) > 0)
    expected = (before - before.mean(axis=0)) @ turn.T + after.mean(axis=0)
    assert np.abs(best_motion(before, after).moved(before) - expected).max() <= 1e-9


@given(seed=seeds)
def test_rigid_motion_of_two_marks_is_where_the_optimiser_ends(seed: int) -> None:
    """The optimiser stops when the sum is flat, so its angle is good to about 1e-8."""
    before, after = noisy_marks(seed, 2)
    motion = best_motion(before, after)
    mine, others = before - before.mean(axis=0), after - after.mean(axis=0)

    def missed(angle: float) -> float:
        c, s = np.cos(angle), np.sin(angle)
        return float(np.square(mine @ np.array([[c, s], [-s, c]]) - others).sum())

    best = minimize_scalar(
        missed, bounds=(-0.5, 0.5), method="bounded", options={"xatol": 1e-10}
    )
    assert missed(motion.angle_rad) <= best.fun + 1e-9
    assert np.square(motion.moved(before) - after).sum() == pytest.approx(
        missed(motion.angle_rad), abs=1e-9
    )


@given(seed=seeds, count=st.integers(2, 6))
def test_similarity_is_that_of_a_linear_solver(seed: int, count: int) -> None:
    """`u = a x - b y + s`, `v = b x + a y + t` in the unknown a, b, s, t."""
    before, after = noisy_marks(seed, count)
    (x, y), one, zero = before.T, np.ones(count), np.zeros(count)
    rows = np.vstack([np.column_stack([x, -y, one, zero]), np.column_stack([y, x, zero, one])])
    a, b, s, t = lstsq(rows, after.T.ravel())[0]
    motion = best_motion(before, after, may_stretch=True)
    assert motion.scale == pytest.approx(np.hypot(a, b), abs=1e-9)
    assert motion.angle_rad == pytest.approx(np.arctan2(b, a), abs=1e-9)
    expected = np.column_stack([a * x - b * y + s, b * x + a * y + t])
    assert np.abs(motion.moved(before) - expected).max() <= 1e-9
