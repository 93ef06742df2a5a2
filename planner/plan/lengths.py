"""How long the new line must be, leg by leg and altogether, as data."""

from planner.geometry.motion.frame_axes import Curve
from planner.parts import GeometryError, LengthBy
from planner.quick_dataclass import dataclass
from planner.verdicts import Check


@dataclass(frozen=True, slots=True, kw_only=True)
class LegLength:
    """Length of the new line along one run of the route.

    run_id : the run
    from_place, to_place : ids of the ports or anchors at its ends
    way_mm : of the curve it is drawn by, also where its length is not known; nothing is cut by it; None where nobody
        told its length or the places of both ends [mm]
    nominal_mm : at rest, the shortest curve the line can take; None where the length is not known, as the next three
        [mm]
    low_mm : the same in the slackest posture: nothing less is ever taken up [mm]
    high_mm : the upper estimate in the worst posture; the cut uses it [mm]
    least_mm : the shortest curve in the worst posture: nothing shorter reaches [mm]
    basis : "told" of the run or "measured" of its guide; "shortest curve"; with an upper estimate "relaxed shape", or
        "estimate" where no shape was found; "not known", or "not measured" where there is nothing to find it from
    worst_posture, slackest_posture : as a short text with angles; "at rest" where nothing moves; "not known" of a told
        length that nobody tried in every posture
    slack_variation_mm : how much the slack changes over the motion; None where that was not looked at [mm]
    curve : the leg at rest, for drawing
    relaxed_curve : the relaxed shape at rest, for drawing; None where none was made
    tightest_radius_mm : of the leg's centre line at rest; None for a straight leg [mm]
    bend_checks : places where the line would be bent tighter than it allows
    length_checks : what is to be seen to of its length: motions not described, two ways to lie, why it is not known
    tolerance_mm : plus or minus on a told length; None for a leg that nobody told [mm]
    told_by : how a told length was found; None likewise
    """

    run_id: str
    from_place: str
    to_place: str
    way_mm: float | None
    nominal_mm: float | None
    low_mm: float | None
    high_mm: float | None
    least_mm: float | None
    basis: str
    worst_posture: str = "at rest"
    slackest_posture: str = "at rest"
    slack_variation_mm: float | None = 0.0
    curve: Curve | None = None
    relaxed_curve: Curve | None = None
    tightest_radius_mm: float | None = None
    bend_checks: tuple[Check, ...] = ()
    length_checks: tuple[Check, ...] = ()
    tolerance_mm: float | None = None
    told_by: LengthBy | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengths:
    """How long the new line must be.

    legs : in route order
    need_mm : the legs together, without what goes into the fittings; None where a leg's length is not known [mm]
    cut_mm : what the line must have before it goes in, rounded up: the answer; None likewise: then it is laid in and
        marked [mm]
    supplied_mm : as supplied; None when not told [mm]
    spare_mm : supplied minus cut; negative is what is missing; None when either is not told [mm]
    insertion_mm : depth of both fittings together [mm]
    trim_mm : allowance for trimming [mm]
    bitten_mm : cut off the leading end because the joint marked it [mm]
    undone_mm : lost where a fitting is taken off and set again [mm]
    pressure_mm : by how much the line may shorten under pressure; None where it is not known to, or its length is not
        [mm]
    cut_over_mm : how much longer a workshop's cut may come out, never shorter; None where the shop has not said [mm]
    is_cut : whether the line is cut to length; if not, both its ends came closed or it is a wire, and what is over is
        stowed
    cutting_tolerance_mm : plus or minus on a hose ordered to this length; None where no table row applies [mm]
    measured_old_mm : the old line as measured; None when not told [mm]
    old_makes_mm : what would be cut by the old line, to be held against the plan; None where it is not, or is the plan
        [mm]
    measured_difference_ratio : that against the cut; None likewise
    posture : "at rest", or "worst posture of bar and rear" where something moves; "as measured" where every leg was
    allow_mm : added for errors in what was told; None where nobody said how well it was, or a length is not known [mm]
    geometry_error : how well places were told, where that was added for
    is_from_old_line : whether need and cut come from the old line, as a leg's length is not known
    old_line_checks : what is asked of a measured old line
    """

    legs: tuple[LegLength, ...]
    need_mm: float | None
    cut_mm: float | None
    supplied_mm: float | None
    spare_mm: float | None
    insertion_mm: float
    trim_mm: float
    bitten_mm: float = 0.0
    undone_mm: float = 0.0
    pressure_mm: float | None = None
    cut_over_mm: float | None = None
    is_cut: bool = True
    cutting_tolerance_mm: float | None = None
    measured_old_mm: float | None = None
    old_makes_mm: float | None = None
    measured_difference_ratio: float | None = None
    posture: str = "at rest"
    allow_mm: float | None = None
    geometry_error: GeometryError | None = None
    is_from_old_line: bool = False
    old_line_checks: tuple[Check, ...] = ()

    @property
    def final_mm(self) -> float | None:
        """Length to trim to once what the joint marked and what an undone end cost are off; None where not known."""
        return None if self.cut_mm is None else self.cut_mm - self.bitten_mm - self.undone_mm

    @property
    def known(self) -> bool:
        """Whether the length of every leg is known, or that of the old line, so that there is a length to cut to."""
        return self.cut_mm is not None
