"""Can three lines wedge in a round hole: drawn in side by side across its middle, with no room to fall back?"""

from collections.abc import Sequence

from planner.parts import Opening, RoundOpening
from planner.quick_dataclass import dataclass
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, State

LEAST_RATIO, MOST_RATIO = 2.8, 3.2
"""Hole over line, between which three lines alike can line up across the hole and jam.

Source: NFPA 70 (NEC), chapter 9, table 1, informational note 2, as transcribed in public notes, read 2026-11-26.
"""

ALIKE_RATIO = 0.05
"""Lines whose diameters differ by no more than this share count as alike; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wedge:
    """Three lines that can wedge.

    ratio : hole over line
    least_ratio, most_ratio : between which they can
    """

    ratio: float
    least_ratio: float
    most_ratio: float


def find_wedge(
    *,
    hole_mm: float,
    diameters_mm: Sequence[float],
    least_ratio: float = LEAST_RATIO,
    most_ratio: float = MOST_RATIO,
    alike_ratio: float = ALIKE_RATIO,
) -> Wedge | None:
    """Whether three lines alike can wedge in a round hole or bore though there is room for them.

    Below the band they cannot line up across the hole, above it they fall past each other; with four and more it is
    very unlikely. Not asked of slots and boxes, in which lines lie in a row anyway.

    Returns the ratio; None where they cannot, or there are not three alike.

    hole_mm : its diameter
    diameters_mm : of all lines that are drawn through together
    least_ratio, most_ratio : hole over line, the band
    alike_ratio : how much thicker the thickest of three alike may be

    Source: NFPA 70 (NEC), chapter 9, table 1, informational note 2, as transcribed in public notes, read 2026-11-26.
    """
    if len(diameters_mm) != 3 or max(diameters_mm) > (1 + alike_ratio) * min(diameters_mm):
        return None
    ratio = hole_mm * len(diameters_mm) / sum(diameters_mm)
    if not least_ratio <= ratio <= most_ratio:
        return None
    return Wedge(ratio=ratio, least_ratio=least_ratio, most_ratio=most_ratio)


def wedge_in(*, opening: Opening | None, diameters_mm: Sequence[float]) -> Wedge | None:
    """Three lines alike that can wedge in a hole, if it is round.

    opening : the hole; None when nobody measured it
    diameters_mm : of all that is in it while one is drawn
    """
    if not isinstance(opening, RoundOpening):
        return None
    return find_wedge(hole_mm=opening.diameter_mm, diameters_mm=diameters_mm)


def check_of_wedge(
    wedge: Wedge, *, port_id: str | None = None, run_id: str | None = None, with_ids: tuple[str, ...] = ()
) -> Check:
    """The caution that three lines alike can wedge.

    Returns rule "wedge", always TIGHT: it may go well, with care.

    port_id, run_id : the hole or guide; None where it is not of a frame
    with_ids : the lines beside the one that is drawn
    """
    return Check(
        rule=PlaceRule.WEDGE,
        outcome=Outcome.TIGHT,
        state=State.DRAWING,
        port_id=port_id,
        run_id=run_id,
        with_ids=with_ids,
        note=f"{wedge.ratio:.2f}",
    )
