"""Every tolerance of the package, with its unit, its reason, and what breaks either way."""

from typing import Final

SAME_POINT_MM: Final = 1e-6
"""Two points nearer than this are one. Larger would merge designed points (a hundredth of a
millimetre is a designed distance); smaller would see float noise (1e-12 at 10 m) as a gap."""

GRID_MM: Final = 0.1
"""The step of every stitch format written here; positions in files are whole multiples."""

STEPS_PER_MM: Final = round(1 / GRID_MM)
"""Steps of that grid in a millimetre."""

ROUNDING_MM: Final = 0.15
"""Room kept for rounding to the grid. A point moves by up to 0.0708 mm, a distance by up to
0.1415 mm. Smaller and a stitch at a limit can cross it in the file; larger wastes reach."""

DEVIATION_MM: Final = 0.05
"""How far a sewn stitch may leave the line it follows. Larger shows on tight curves; smaller
costs stitches that the needle cannot place anyway (the grid rounds by 0.07 mm)."""

FLATNESS_MM: Final = 0.01
"""How far the chords of a flattened curve may be from it. Larger begins to add to
`DEVIATION_MM`; smaller makes twice the vertices for each quarter of it, and nothing is seen."""

SHARP_TURN_DEG: Final = 30.0
"""A vertex that turns by more is a corner and gets a needle point. Larger would round off
drawn corners; smaller would take the flattening of a tight curve for corners."""

GAP_MM: Final = 0.5
"""How exactly the widest unquilted gap is known. Smaller costs time and says no more about
a batting whose limit is a round number; larger could hide a wrong spacing."""

JOIN_ROOM_MM: Final = 2.0
"""How far a field reaches past its cell at the least, even where no overlap is asked for, so
that a line that ends just past a border is not cut for a stub. Smaller leaves stubs shorter
than a stitch; larger costs hoopings."""

MEETING_MM: Final = 1e-3
"""Line ends and crossings nearer than this are one place. Larger would join lines that are
drawn apart (a needle sees 0.1 mm); smaller would miss that three lines cross in one point,
which clipping and flattening blur by up to 1e-6 mm."""

NARROWEST_MM: Final = 1.0
"""A part of an area that is nowhere wider holds no quilting. Larger would leave narrow borders
out; smaller keeps slivers that only rounding made, where shapes are taken from one another."""

BLUNT_MM: Final = 0.25
"""How far a needle point may lie off the stitch that replaces it, where a bend is so tight that
its stitches would be too short. Larger cuts drawn corners; smaller leaves stitches of a tenth
of a millimetre in bends that no needle can follow."""

CROSSING_DEG: Final = 15.0
"""Lines that meet at a smaller angle do not hide a join at their crossing: for millimetres one
runs beside the other, and a shift shows between them. Larger would pass over crossings of
slender diamonds (30 degrees and more); smaller would take lines side by side for crossing."""

NEARNESS: Final = 1e-6
"""How exactly distances from a field's centre, as shares of its size, are compared when it is
chosen which of two fields sews a line. Larger would not tell places a hair apart; smaller would
let float noise choose, and lines of one row would go to different hoopings."""

SOLVER_MISS: Final = 1e-6
"""By how much a solver's bound may lie above a whole number that it means. Smaller would make a
bound of 8.0000001 a 9, which is none; larger would lose a bound that is barely above."""

STATED_SIZE_MM: Final = 1.0
"""How far the size in a stitch file's header may be from that of its stitches. Smaller finds
fault with writers that count the small jumps of a cut or round to whole millimetres; larger
would miss a design of which a part is gone."""

CROWDED_CELL_MM: Final = 2.0
"""Side of the squares that needle points are counted in. Larger would take two lines that pass
each other for a crowd; smaller holds no more than the stitches of one line and its tie."""

STRAIGHT: Final = 1e-11
"""Sine of a turn that is none. Ten thousand such turns one way, a stitch apart, leave a line by
0.002 mm; larger would add up to more, smaller is float noise (1e-13 at 3 m)."""

PARALLEL: Final = 1e-9
"""Sine of the angle below which segments run along one another. Larger would take lines that
cross far away for ones that never do; smaller divides by float noise."""

STRAIGHT_RAD: Final = 1e-6
"""A walk round a face that turns by no more goes straight on. Larger would take the chords of
a wide arc for one line; smaller sees corners in float noise."""

NO_WIDTH_MM: Final = 1e-3
"""A drawing that is narrower has no width by which it could be scaled. Larger would refuse fine
drawings in large units; smaller would blow float noise up to the size of a quilt."""

TOUCHING_SHARE: Final = 1e-6
"""Of a radius: by how much circles that touch may overlap. Larger shows where they are sewn;
smaller would take touching circles for overlapping ones, and none would be packed closely."""

TOUCHING_MM: Final = 1e-4
"""Arcs that go on from one another at a touching point end within this. Larger would swallow
arcs of small circles; smaller leaves steps between them that no needle can make."""

LEAST_GAIN_MM: Final = 1e-9
"""An order that saves no more travel than this is no better. Larger would leave savings out;
smaller would let float noise change orders to and fro."""

WHOLE: Final = 1e-9
"""Relative: a length that is n stitches but for this takes n. Larger would stretch stitches
beyond their limit; smaller would let float noise add a stitch."""
