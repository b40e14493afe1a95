"""Islands: runs sewn inside a loop that is closed already, with nowhere for slack to go.

Method: the lines part the plane into faces. A run is an island if every way from it to the
outside crosses a line sewn before it. Faces are joined over the lines between them, the last
sewn first, until all that are left apart are apart by lines sewn before (union-find). A stretch
that is sewn again counts from the first time on.
"""

import numpy as np

from stitchpath.geometry.faces import find_faces
from stitchpath.model.stitches import Run


def count_islands(runs: tuple[Run, ...]) -> int:
    """Return how many runs have a stretch inside a loop that the runs before them closed.

    Cost: O(n log n) for n stretches.
    """
    lines = [(number, line.points) for number, run in enumerate(runs) for line in run.lines]
    faces = find_faces([points for _, points in lines])
    run = np.array([number for number, _ in lines])[faces.borders.stretches.path]
    sides = faces.sides
    root = list(range(int(sides.max()) + 1))

    def find(face: int) -> int:
        while root[face] != face:
            root[face] = root[root[face]]
            face = root[face]
        return face

    islands: set[int] = set()
    order = np.argsort(-run, kind="stable")
    for group in np.split(order, np.flatnonzero(np.diff(run[order])) + 1):
        for one, other in sides[group].tolist():
            low, high = sorted((find(one), find(other)))
            root[high] = low  # face 0 is the outside, so it stays the root of what is open
        if any(find(one) != 0 for one in sides[group, 0].tolist()):
            islands.add(int(run[group[0]]))
    return len(islands)
