"""A finished plan, as data: everything the sheet, the page and the file are drawn from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from planner.fit.measure_first import MeasureFirst
from planner.geometry.motion.frame_axes import Curve
from planner.parts import GeometryError, JobEnd, LengthBy, Method, Opening, PullWord, RescueCase, RescueKind, WorkPart
from planner.plan.names import NO_NAMES, Names
from planner.verdicts import Check, NoWay, Outcome, Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """The joint that moves through the frame.

    thing : as what must pass every place
    holds_n : pull it holds; None when not measured [N]
    drag_n : estimated pull to draw it through; None when not estimated [N]
    advice : what the hands may do to it; None when not estimated
    ease_up_to_n : the pull not to exceed; None when there is none to give [N]
    is_drag_least : whether the way may drag more, for not every turn of it was told
    """

    thing: Thing
    holds_n: float | None
    drag_n: float | None = None
    advice: PullWord | None = None
    ease_up_to_n: float | None = None
    is_drag_least: bool = False


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
    cutting_tolerance_mm : plus or minus on a hose ordered to this length; None where no table row applies [mm]
    measured_old_mm : the old line as measured; None when not told [mm]
    measured_difference_ratio : measured old line against the planned need; None when not told
    posture : "at rest", or "worst posture of bar and rear" where something moves; "as measured" where every leg was
    allow_mm : added for errors in what was told; None where nobody said how well it was, or a length is not known [mm]
    geometry_error : how well places were told, where that was added for
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
    cutting_tolerance_mm: float | None = None
    measured_old_mm: float | None = None
    measured_difference_ratio: float | None = None
    posture: str = "at rest"
    allow_mm: float | None = None
    geometry_error: GeometryError | None = None

    @property
    def final_mm(self) -> float | None:
        """Length to trim to once what the joint marked and what an undone end cost are off; None where not known."""
        return None if self.cut_mm is None else self.cut_mm - self.bitten_mm - self.undone_mm

    @property
    def known(self) -> bool:
        """Whether the length of every leg is known, so that there is a length to cut to."""
        return self.cut_mm is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rejection:
    """Why a method and feed direction, or one place on its way, was ruled out.

    method_id, feed_from : what was tried
    check : the check that ruled it out: NO_FIT, or UNKNOWN where it could not be proven
    """

    method_id: str
    feed_from: JobEnd
    check: Check


class Remark(StrEnum):
    """What is said beside a way of doing the job."""

    NONE = ""
    HOLDS_NOTHING = "holds_nothing"
    NO_JOINT = "no_joint"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanOption:
    """One way of doing the job that works, in short; the first is the plan.

    method, feed_from, cut_old_at : how
    part_ids : small parts its ends and its joint take, one for each piece
    route : ids of the ports, in order from the job's `from`
    outcome : the worst of its checks
    joint : its joint
    holds_drag : whether the joint holds the estimated drag; None when not estimated
    work_min : expected minutes, repeats of what fails counted [min]
    length_mm : of the route, lower bound at rest; None where that of a leg is not known [mm]
    step_ids : its steps in order, as the workshop names them
    cut_mm : length the new line is cut to; None where that is not known [mm]
    """

    method: Method
    feed_from: JobEnd
    cut_old_at: JobEnd | None
    part_ids: tuple[str, ...]
    route: tuple[str, ...]
    outcome: Outcome
    joint: Joint
    holds_drag: bool | None
    work_min: float
    length_mm: float | None
    step_ids: tuple[str, ...]
    cut_mm: float | None
    remark: Remark = Remark.NONE

    @property
    def method_id(self) -> str:
        """Its method by id."""
        return self.method.id


class WayOutKind(StrEnum):
    """What would change a no."""

    INSERTS_OUT = "inserts_out"
    OLD_BRAKE_GIVEN_UP = "old_brake_given_up"
    BARE_ENDS = "bare_ends"
    SPOKE_LINK = "spoke_link"
    THINNER_JOINT = "thinner_joint"
    THINNER_LINE = "thinner_line"
    LARGER_HOLE = "larger_hole"


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One change that would make a plan of a job that has none.

    port_id : the hole it is about
    size_mm : thickest line or joint that passes, rod of a spoke link, or how much larger a hole would have to be
    opening : the smallest hole that would do
    """

    kind: WayOutKind
    port_id: str | None = None
    size_mm: float | None = None
    opening: Opening | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NoRoute:
    """Why there is no way: the proof of a "no".

    reason : why there is none
    ports : the fewest ports that stop every route; empty unless the reason is that every way is stopped
    runs : runs that must be named with them because a bend or bore inside a zone stops the line
    is_fewest : False where it was left undecided whether fewer places would do
    ports_twice : ports that the only way, or the only one left open, would go through more than once
    ways_out : what would change it, nearest at hand first
    closest_misses : for each method, the least bad place on its best way, worst number first
    """

    reason: NoWay
    ports: tuple[str, ...]
    runs: tuple[str, ...]
    closest_misses: tuple[Rejection, ...]
    ways_out: tuple[WayOut, ...] = ()
    is_fewest: bool = True
    ports_twice: tuple[str, ...] = ()

    @property
    def is_connected(self) -> bool:
        """False when the frame's runs do not link the two anchors at all."""
        return self.reason is not NoWay.NOT_LINKED


@dataclass(frozen=True, slots=True, kw_only=True)
class PartNeeded:
    """A small part to have ready.

    id, name : as in the catalog
    quantity : how many
    """

    id: str
    name: str
    quantity: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One numbered step of the work order.

    n : number, from 1
    id : stable name
    text, why : sentences
    cautions : sentences
    short : the text in a few words; "" to tell the whole text
    part : the stretch of the work it belongs to; None where the workshop has not said
    shows_rescue : whether what to do when it sticks or parts is shown with it
    least_min, likely_min, most_min : three-point estimate [min]
    """

    n: int
    id: str
    text: str
    why: str
    cautions: tuple[str, ...]
    least_min: float
    likely_min: float
    most_min: float
    short: str = ""
    part: WorkPart | None = None
    shows_rescue: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RescueLine:
    """A line of the sheet for what sticks or parts.

    case, kind : when it is said, and as what
    text : the sentence
    """

    case: RescueCase
    kind: RescueKind
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoutingPlan:
    """The answer to a job.

    job_id, job_title, frame_id, frame_name : what was asked
    new_line_name, old_line_name : for the sheet; old is "" for an empty frame
    outcome : of the whole plan
    route : ids of the ports, in order from the job's `from`; empty for no plan
    runs : ids of the runs, likewise
    method_id, method_name, feed_from, cut_old_at : how; None for no plan or where there is nothing to cut
    joint : the moving joint; None for no plan
    checks : every question asked along the route, with its numbers
    lengths : None for no plan
    rejected : every method, direction and place that was ruled out
    options : all ways that work, best first
    no_route : the proof where there is no plan
    parts, steps, cautions, measure_first : for the bench
    fit_chance : chance that everything fits when sizes vary within their tolerances; None when not measured
    advisories : questions to settle and things to know, with their numbers; no part of the outcome
    needs : what the job needs beside parts of the catalog, such as fluid by class or a plug for a port left open
    from_anchor_id, to_anchor_id : the two ends of the job
    names : what people call the places and things that are told by their ids
    short_cautions : cautions in a few words, by their sentence
    rescue : what to do when it sticks or parts; empty where nothing goes through the frame
    """

    job_id: str
    job_title: str
    frame_id: str
    frame_name: str
    new_line_name: str
    old_line_name: str
    outcome: Outcome
    route: tuple[str, ...] = ()
    runs: tuple[str, ...] = ()
    method_id: str | None = None
    method_name: str = ""
    feed_from: JobEnd | None = None
    cut_old_at: JobEnd | None = None
    joint: Joint | None = None
    checks: tuple[Check, ...] = ()
    lengths: Lengths | None = None
    rejected: tuple[Rejection, ...] = ()
    options: tuple[PlanOption, ...] = ()
    no_route: NoRoute | None = None
    parts: tuple[PartNeeded, ...] = ()
    steps: tuple[Step, ...] = ()
    cautions: tuple[str, ...] = ()
    measure_first: tuple[MeasureFirst, ...] = ()
    fit_chance: float | None = None
    advisories: tuple[Check, ...] = ()
    needs: tuple[str, ...] = ()
    from_anchor_id: str = ""
    to_anchor_id: str = ""
    names: Names = NO_NAMES
    short_cautions: Mapping[str, str] = field(default_factory=dict)
    rescue: tuple[RescueLine, ...] = ()
