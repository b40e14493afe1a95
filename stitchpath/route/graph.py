"""The lines of a hooping as a planar graph: where they end, meet and cross.

Every line of a graph keeps its nodes in order; see `geometry.nodes`.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.nodes import find_nodes
from stitchpath.geometry.paths import Paths
from stitchpath.geometry.points import Points
from stitchpath.model.line import Line


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineGraph:
    """Lines and the nodes on them.

    Attributes:
        lines: The lines.
        places: Where each node lies, shape (n, 2), mm.
        nodes: For each line, its nodes in order; the first and last are its ends.
        along: For each line, how far along it each of its nodes lies, mm.
        parts: For each node, the number of its connected part, shape (places,).
    """

    lines: tuple[Line, ...]
    places: Points
    nodes: tuple[NDArray[np.intp], ...]
    along: tuple[NDArray[np.float64], ...]
    parts: NDArray[np.intp]

    @property
    def ends(self) -> NDArray[np.intp]:
        """The nodes at both ends of each line, shape (lines, 2)."""
        return np.array([(nodes[0], nodes[-1]) for nodes in self.nodes]).reshape(-1, 2)

    @property
    def least_runs(self) -> int:
        """The fewest runs that sew every line once: for each part half its odd nodes, or one.

        Euler's theorem; only line ends make the degree of a node odd.
        """
        is_odd = np.bincount(self.ends.ravel(), minlength=len(self.places)) % 2
        odd_of_part = np.bincount(self.parts, weights=is_odd)
        return int(np.maximum(odd_of_part / 2, 1).sum())


def line_graph(lines: tuple[Line, ...]) -> LineGraph:
    """Return the graph of some lines; there is at least one."""
    paths = Paths.of([line.points for line in lines])
    visits = find_nodes(paths)
    parts = np.empty(len(visits.places), dtype=np.intp)
    parts[visits.node] = visits.parts[visits.path]
    return LineGraph(
        lines=lines,
        places=visits.places,
        nodes=tuple(np.split(visits.node, visits.bounds)),
        along=tuple(np.split(visits.along, visits.bounds)),
        parts=parts,
    )
