"""The fewest sets that hold everything: an integer programme, solved by HiGHS."""

from dataclasses import dataclass
from math import ceil, isfinite

import numpy as np
from highspy import (  # type: ignore[attr-defined] # its stubs leave out `_Highs`
    Highs,
    HighsVarType,
    MatrixFormat,
    ObjSense,
    SolutionStatus,
    _Highs,
    kHighsInf,
)
from numpy.typing import NDArray

from stitchpath.geometry.tolerance import SOLVER_MISS

MOST_NODES = 20
"""Of the search tree. A limit on time would make the plan depend on the machine."""
_OPTIONS = {"output_flag": False, "threads": 1, "random_seed": 0, "mip_max_nodes": MOST_NODES}
"""One thread, so that the process can still be split to share work."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FewestSets:
    """What the solver found.

    Attributes:
        chosen: The sets that hold everything, or None where none were found in time.
        bound: No fewer hold everything.
    """

    chosen: NDArray[np.intp] | None
    bound: int


def fewest_sets(held: NDArray[np.bool_]) -> FewestSets:
    """Return the fewest sets that hold everything, and what bounds their number.

    Args:
        held: What each set holds, shape (sets, things); each thing is held by one at least.

    Not promised: of choices as few, another may come back from another release of the solver.

    Example:
        >>> fewest_sets(np.array([[1, 1, 0], [0, 1, 0], [0, 1, 1]], dtype=bool)).chosen
        array([0, 2])
    """
    solver = _Highs()  # not `Highs`, which greets on the terminal as it is made
    for name, value in _OPTIONS.items():
        solver.setOptionValue(name, value)
    _pass_model(solver, held)
    # a solver in the same process may have threads already, and then none with one thread runs
    solver.resetGlobalScheduler(True)  # noqa: FBT003 - takes no name
    solver.run()
    info = solver.getInfo()
    bound = ceil(info.mip_dual_bound - SOLVER_MISS) if isfinite(info.mip_dual_bound) else 0
    if info.primal_solution_status != int(SolutionStatus.kSolutionStatusFeasible):
        return FewestSets(chosen=None, bound=bound)
    taken = np.asarray(solver.getSolution().col_value)
    half = 0.5  # each is 0 or 1, but as a float
    return FewestSets(chosen=np.flatnonzero(half < taken), bound=bound)


def _pass_model(solver: Highs, held: NDArray[np.bool_]) -> None:
    """Tell a solver to take each set 0 or 1 times, and of those that hold a thing 1 or more."""
    sets, things = held.shape
    thing = np.nonzero(held)[1]
    solver.passModel(
        sets,
        things,
        len(thing),
        int(MatrixFormat.kColwise),
        int(ObjSense.kMinimize),
        0.0,
        np.ones(sets),
        np.zeros(sets),
        np.ones(sets),
        np.ones(things),
        np.full(things, kHighsInf),
        np.concatenate([[0], np.cumsum(held.sum(axis=1))]),
        thing,
        np.ones(len(thing)),
        np.full(sets, int(HighsVarType.kInteger)),
    )
