"""Faces have one key where they lie over one another, and not where they do not."""

import numpy as np
import shapely

from stitchpath.geometry.faces import find_faces
from stitchpath.geometry.points import Points
from stitchpath.geometry.same_faces import face_keys


def _ring(shape: shapely.Polygon) -> Points:
    return np.asarray(shapely.get_coordinates(shape.exterior))


def _keys(paths: list[Points]) -> list[bytes]:
    """Return the keys of all faces but the outside, and of those that are moved."""
    faces = find_faces(paths)
    return face_keys(faces.borders, np.arange(1, len(faces.widest)))


def test_a_moved_shape_has_the_same_key_whichever_way_it_is_drawn() -> None:
    corners = np.array([[0.0, 0.0], [9.0, 1.0], [7.0, 5.0], [2.0, 6.0], [0.0, 0.0]])
    moved = np.add(corners, (1234.5678, -87.654321))
    from_another_corner = np.concatenate([moved[2:], moved[1:3]])[::-1]
    one, other = _keys([corners, from_another_corner])
    assert one == other


def test_squares_of_a_crosshatch_are_one_shape() -> None:
    at = 10 * np.arange(11) / 3
    lines = [np.array([[x, 0.0], [x, at[-1]]]) for x in at]
    keys = _keys([*lines, *(line[:, ::-1] for line in lines)])
    assert len(keys) == 100
    assert len(set(keys)) == 1


def test_a_turned_mirrored_or_larger_shape_has_another_key() -> None:
    corners = np.array([[0.0, 0.0], [9.0, 1.0], [7.0, 5.0], [2.0, 6.0], [0.0, 0.0]])
    others = [corners[:, ::-1], corners * (-1, 1), corners * 1.001]
    paths = [
        corners,
        *(np.add(other, (0, 20 * row)) for row, other in enumerate(others, start=1)),
    ]
    assert len(set(_keys(paths))) == len(paths)


def test_a_loose_line_inside_makes_another_shape_and_its_place_counts() -> None:
    square = _ring(shapely.box(0, 0, 10, 10))
    barb = np.array([[0.0, 5.0], [4.0, 5.0]])
    bare, one, same, lower = _keys(
        [
            square,
            *(np.add(square, (20, 0)), np.add(barb, (20, 0))),
            *(np.add(square, (40, 0)), np.add(barb, (40, 0))),
            *(np.add(square, (60, 0)), np.add(barb, (60, 1))),
        ]
    )
    assert one == same
    assert len({bare, one, lower}) == 3
