"""The lines of a hooping as a planar graph: where they end, meet and cross.

Every line of a graph keeps its nodes in order; see `geometry.nodes`.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.faces import sides_between
from stitchpath.geometry.nodes import Visits, find_nodes
from stitchpath.geometry.paths import Paths, ranges
from stitchpath.geometry.points import Points
from stitchpath.model.line import Line


@dataclass(frozen=True, kw_only=True, eq=False)
class LineGraph:
    """Lines and the nodes on them.

    Attributes:
        lines: The lines.
        paths: Their points.
        visits: The nodes on them, line by line.
        rows: Where in `visits` each line's nodes begin, and how many there are.
    """

    lines: tuple[Line, ...]
    paths: Paths
    visits: Visits
    rows: list[int]

    @property
    def places(self) -> Points:
        """Where each node lies, shape (n, 2), mm."""
        return self.visits.places

    @cached_property
    def nodes(self) -> tuple[NDArray[np.intp], ...]:
        """For each line, its nodes in order; the first and last are its ends."""
        return tuple(self.visits.node[first:last] for first, last in pairwise(self.rows))

    @cached_property
    def along(self) -> tuple[NDArray[np.float64], ...]:
        """For each line, how far along it each of its nodes lies, mm."""
        return tuple(self.visits.along[first:last] for first, last in pairwise(self.rows))

    @cached_property
    def parts(self) -> NDArray[np.intp]:
        """For each node, the number of its connected part, shape (places,)."""
        parts = np.empty(len(self.places), dtype=np.intp)
        parts[self.visits.node] = self.visits.parts[self.visits.path]
        return parts

    @cached_property
    def ends(self) -> NDArray[np.intp]:
        """The nodes at both ends of each line, shape (lines, 2)."""
        rows = np.array(self.rows)
        return np.column_stack([self.visits.node[rows[:-1]], self.visits.node[rows[1:] - 1]])

    @cached_property
    def is_exact(self) -> list[bool]:
        """For each line, whether it begins and ends exactly on its nodes."""
        is_same = self.paths.ends == self.places[self.ends]
        return list(is_same.all(axis=(1, 2)).tolist())

    @cached_property
    def sides(self) -> NDArray[np.intp]:
        """The faces on the two sides of each stretch, 0 the outside, shape (stretches, 2)."""
        return self._beside[0]

    @cached_property
    def _beside(self) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """The sides, and for each row of `visits` the stretch after it: all that is kept.

        What else faces are told by takes ten times as much memory.
        """
        stretches, sides = sides_between(self.paths, self.visits)
        return sides, stretches.after

    @property
    def least_runs(self) -> int:
        """The fewest runs that sew every line once: for each part half its odd nodes, or one.

        Euler's theorem; only line ends make the degree of a node odd.
        """
        is_odd = np.bincount(self.ends.ravel(), minlength=len(self.places)) % 2
        odd_of_part = np.bincount(self.parts, weights=is_odd)
        return int(np.maximum(odd_of_part / 2, 1).sum())

    def stretches(
        self,
        line: NDArray[np.intp],
        start: NDArray[np.float64],
        end: NDArray[np.float64],
    ) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """Return which stretches of `sides` some parts of lines have, part after part.

        Args:
            line: Which line each part is of, shape (n,).
            start: How far along it the part begins, on a node, mm.
            end: How far along it the part ends, on a later node, mm.

        Returns:
            The stretches, and how many of them each part has, shape (n,).
        """
        # complex numbers are in the order of lines, and of places along them
        at_row = self.visits.path + 1j * self.visits.along
        first = np.searchsorted(at_row, line + 1j * start)
        counts = np.searchsorted(at_row, line + 1j * end) - first
        return self._beside[1][ranges(first, counts)], counts


def line_graph(lines: tuple[Line, ...]) -> LineGraph:
    """Return the graph of some lines; there is at least one."""
    paths = Paths.of([line.points for line in lines])
    visits = find_nodes(paths)
    rows = [0, *visits.bounds.tolist(), len(visits.path)]
    return LineGraph(lines=lines, paths=paths, visits=visits, rows=rows)
