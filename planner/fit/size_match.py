"""Are two sizes that are meant to be the same close enough? Common practice, no source."""


def match_room_mm(*, first_mm: float, second_mm: float, tolerance_mm: float | None) -> float | None:
    """How much of a tolerance two sizes leave.

    Sizes that are equal match whatever the tolerance, so they are answered without one, with nothing to spare.

    Returns negative is what they differ too much; None when they differ and nobody said how far they may.

    first_mm, second_mm : the two sizes
    tolerance_mm : how far they may differ; None when nobody said

    >>> match_room_mm(first_mm=22.2, second_mm=22.0, tolerance_mm=0.3)
    0.1
    """
    difference_mm = abs(first_mm - second_mm)
    if tolerance_mm is None:
        return None if difference_mm > 0 else 0.0
    return round(tolerance_mm - difference_mm, 9)
