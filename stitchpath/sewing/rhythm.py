"""How the stitches of stretches follow on one another, and where that puts their holes."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import WHOLE
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.stagger import find_hosts, phase_beside


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rhythm:
    """The stitches of stretches, one row each.

    Attributes:
        count: How many stitches a stretch takes.
        pitch: A stitch as a share of its stretch.
        shift: Where its first hole lies, in stitches.
        moved: Whether its holes keep out of the way of others.
    """

    count: NDArray[np.intp]
    pitch: NDArray[np.float64]
    shift: NDArray[np.float64]
    moved: NDArray[np.bool_]

    @classmethod
    def of_equal_stitches(
        cls, counts: NDArray[np.intp], shifts: NDArray[np.float64]
    ) -> "Rhythm":
        """Return stitches that divide each stretch, shifted by parts of a stitch."""
        return cls(count=counts, pitch=1 / counts, shift=shifts, moved=shifts > 0)

    def chosen(self, stretches: NDArray[np.intp]) -> "Rhythm":
        """Return the stitches of some of the stretches."""
        return Rhythm(
            count=self.count[stretches],
            pitch=self.pitch[stretches],
            shift=self.shift[stretches],
            moved=self.moved[stretches],
        )

    def beside_hosts(
        self, starts: Points, ends: Points, lengths: NDArray[np.float64]
    ) -> "Rhythm":
        """Return a rhythm where stretches on a longer one have their holes between its holes.

        Args:
            starts: Where each stretch begins, shape (n, 2), mm.
            ends: Where it ends, shape (n, 2), mm.
            lengths: How long each is along its path, shape (n,), mm.
        """
        host = find_hosts(starts, ends, lengths)
        own = np.flatnonzero((host >= 0) & ~self.moved & ~self.moved[host])
        on = host[own]
        pitch_mm = self.pitch[on] * lengths[on]
        is_back = ((ends[own] - starts[own]) * (ends[on] - starts[on])).sum(axis=1) < 0
        first = np.where(is_back[:, None], ends[on], starts[on])
        last = np.where(is_back[:, None], starts[on], ends[on])
        pitch, shift = self.pitch.copy(), self.shift.copy()
        count, moved = self.count.copy(), self.moved.copy()
        pitch[own] = pitch_mm / lengths[own]
        count[own] = np.ceil(1 / pitch[own])
        shift[own] = phase_beside(starts[own], first, last, pitch_mm)
        moved[own] = True
        return Rhythm(count=count, pitch=pitch, shift=shift, moved=moved)


def shares(
    rhythm: Rhythm, length: NDArray[np.float64], limits: StitchLimits
) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Return, for each needle point, its stretch and how far along it lies, 0 < share <= 1.

    Moved points nearer to an end than the shortest stitch are left out; where that leaves a
    stitch longer than the longest, it gets a point in its middle.
    """
    counts = rhythm.count
    stretch = np.repeat(np.arange(len(counts)), counts + 1)
    begins = np.cumsum(counts + 1) - (counts + 1)
    step = np.arange(len(stretch)) - begins[stretch]
    moved = rhythm.moved[stretch]
    share = np.minimum((step + rhythm.shift[stretch]) * rhythm.pitch[stretch], 1.0)
    share[step == counts[stretch]] = 1.0
    room = limits.shortest_mm / length[stretch] * (1 - WHOLE)
    stays = ~moved | ((room <= share) & (room <= 1 - share))
    keep = (step == counts[stretch]) | ((share > 0) & stays)
    stretch, share, moved = stretch[keep], share[keep], moved[keep]
    before = np.where(np.diff(stretch, prepend=-1) == 0, np.roll(share, 1), 0.0)
    is_wide = limits.longest_mm * (1 + WHOLE) < (share - before) * length[stretch]
    wide = np.flatnonzero(is_wide & moved)
    middle = (share[wide] + before[wide]) / 2
    return np.insert(stretch, wide, stretch[wide]), np.insert(share, wide, middle)
