"""Triple-diagonal: slanting lines in close threes.

Construction: lines at 45 degrees in groups of 3; groups are `spacing` apart, from middle to
middle, and the lines of a group `gap` apart. A group runs through the middle, or begins at the
upper left corner. The line nearest to the middle is the anchor. Source: R. S. McKim, "101
Patchwork Patterns" (1931), chapter VI, at 101patchworkpatterns.com: the single diagonal lines
made in sets of two and three are the double and triple diagonals. The default gap is common
practice, no source.
"""

from typing import Final

from stitchpath.layouts._groups import slanting_groups
from stitchpath.layouts._layout import Layout

LAYOUT: Final[Layout] = slanting_groups(3, in_words="threes")
