"""How long a hole is along its tube: the gap that a rigid piece dips through."""

import shapely

from planner.parts import Opening, OutlineOpening, RoundOpening


def gap_along_tube_mm(*, opening: Opening) -> float:
    """The longest way across a hole along its tube.

    Returns diameter or length of a plain shape; of a measured outline the longest straight line along the tube that
    stays inside it.

    opening : the hole; its length runs along the tube
    """
    if isinstance(opening, RoundOpening):
        return opening.diameter_mm
    if not isinstance(opening, OutlineOpening):
        return opening.length_mm
    hole = shapely.Polygon(opening.points_mm)
    left_mm, _, right_mm, _ = hole.bounds
    levels_mm = sorted({y for _, y in opening.points_mm})  # between two corners a chord's length changes evenly
    chords = (hole.intersection(shapely.LineString([(left_mm, y), (right_mm, y)])) for y in levels_mm)
    return max(float(piece.length) for chord in chords for piece in shapely.get_parts(chord))
