"""Sizes as people read them, as fine as they are measured."""

from collections.abc import Callable
from math import floor

from planner.parts import LengthBy
from planner.plan.lengths import LegLength, Lengths
from planner.plan.names import NO_NAMES, Names
from planner.rules import Measure

NOT_MEASURED = "not measured"


def give_or_take(value: float, *, half: float) -> str:
    """A measure, with plus or minus where it was told as a range.

    value, half : in one unit [mm or deg]

    >>> give_or_take(1.6, half=0.0), give_or_take(32.5, half=12.5)
    ('1.6', '32.5 ±12.5')
    """
    return f"{value:g} ±{half:g}" if half else f"{value:g}"


def leg_size(length_mm: float | None, *, unit: str = " mm") -> str:
    """A leg's length in whole millimetres, as it is put into tables.

    Returns "not known" for None.

    unit : "" where the table's head names it
    """
    return "not known" if length_mm is None else f"{length_mm:.0f}{unit}"


_TOLD_BY = {
    LengthBy.TAPE: "tape",
    LengthBy.WIRE: "wire",
    LengthBy.OLD_LINE: "old line",
    LengthBy.DRAWING: "drawing",
    LengthBy.PHOTO: "photograph",
}


def basis_words(leg: LegLength) -> str:
    """How the length of a leg is known; of a told one by what it was measured, and how well."""
    if leg.told_by is None or leg.tolerance_mm is None:
        return leg.basis
    return f"{leg.basis}: {_TOLD_BY[leg.told_by]}, ±{leg.tolerance_mm:g}"


def unknown_legs_words(lengths: Lengths, *, names: Names = NO_NAMES) -> str:
    """The legs whose lengths are not known, by their runs.

    lengths : with at least one such leg
    names : what people call the runs
    """
    return ", ".join(names.run(leg.run_id) for leg in lengths.legs if leg.high_mm is None)


_FINEST_DIGITS = 9
"""Finer than any size is told; less is an error of counting."""


def finely(length_mm: float, *, digits: int, sign: str = "") -> str:
    """A size to so many digits, and finer where it would read as nothing: a small miss is not told as none.

    sign : "+" to tell that of a positive one too

    >>> finely(1.234, digits=2), finely(-0.0004, digits=2), finely(0.0, digits=2), finely(-1e-12, digits=2)
    ('1.23', '-0.0004', '0.00', '0.00')
    """
    size_mm = round(length_mm, _FINEST_DIGITS) or 0.0
    told = next(n for n in range(digits, _FINEST_DIGITS + 1) if not size_mm or round(size_mm, n))
    return f"{size_mm:{sign}.{told}f}"


def millimetres(length_mm: float | None) -> str:
    """A diameter or gap as calipers read it: hundredths below 100 mm, whole millimetres above.

    Returns "not measured" for None.
    """
    if length_mm is None:
        return NOT_MEASURED
    return f"{finely(length_mm, digits=2)} mm" if abs(length_mm) < 100 else f"{length_mm:.0f} mm"


def piece_millimetres(length_mm: float | None) -> str:
    """The length of a stiff piece, a lift: no finer than it is, never finer than calipers read it.

    Returns "not measured" for None.

    >>> piece_millimetres(21.0), piece_millimetres(52.548)
    ('21 mm', '52.55 mm')
    """
    return NOT_MEASURED if length_mm is None else f"{_stripped(millimetres(length_mm).removesuffix(' mm'))} mm"


def part_millimetres(size_mm: float | None) -> str:
    """A size that a part is made to, such as a rotor's: as its maker tells it, however large.

    Returns "not measured" for None.

    >>> part_millimetres(180.0), part_millimetres(180.5)
    ('180 mm', '180.5 mm')
    """
    return NOT_MEASURED if size_mm is None else f"{_stripped(finely(size_mm, digits=2))} mm"


def tape_millimetres(length_mm: float | None) -> str:
    """A length along a line or a radius of its bend, as a tape reads it; less than a millimetre in tenths.

    Returns "not measured" for None.

    >>> tape_millimetres(58.05), tape_millimetres(0.44), tape_millimetres(0.0)
    ('58 mm', '0.4 mm', '0 mm')
    """
    if length_mm is None:
        return NOT_MEASURED
    return f"{_stripped(finely(length_mm, digits=1))} mm" if abs(length_mm) < 1 else f"{length_mm:.0f} mm"


def reach_millimetres(length_mm: float | None) -> str:
    """A length that must not be exceeded, in whole millimetres, rounded down.

    Returns "not measured" for None.
    """
    return NOT_MEASURED if length_mm is None else f"{floor(length_mm + 1e-9)} mm"


def _stripped(number: str) -> str:
    return number.rstrip("0").rstrip(".") if "." in number else number


SIZE_WORDS: dict[Measure, Callable[[float | None], str]] = {
    Measure.DIAMETER: millimetres,
    Measure.STIFF_LENGTH: piece_millimetres,
    Measure.HEIGHT: piece_millimetres,
    Measure.LENGTH: tape_millimetres,
    Measure.RADIUS: tape_millimetres,
    Measure.REACH: reach_millimetres,
    Measure.FORCE: millimetres,
    Measure.PART: part_millimetres,
}
"""How the sizes of each measure are told."""


def spare_words(clearance_mm: float, measures: Measure) -> str:
    """What is to spare, or with a minus what is missing, without its unit: in mm, as its measure is told.

    >>> spare_words(0.973, Measure.DIAMETER), spare_words(-0.004, Measure.DIAMETER), spare_words(-3.4, Measure.RADIUS)
    ('+0.97', '−0.004', '−3')
    """
    sign = "\N{MINUS SIGN}" if clearance_mm < 0 else "+"
    told = SIZE_WORDS[measures](-clearance_mm if clearance_mm < 0 else clearance_mm)
    return f"{sign}{told.removesuffix(' mm')}"
