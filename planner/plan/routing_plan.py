"""A finished plan, as data: everything the sheet, the page and the file are drawn from."""

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from planner.fit.measure_first import MeasureFirst
from planner.parts import JobEnd, Method, PullWord, RescueCase, RescueKind, WorkPart
from planner.plan.lengths import Lengths
from planner.plan.names import NO_NAMES, Names
from planner.plan.way_out import WayOut
from planner.quick_dataclass import dataclass
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


@dataclass(frozen=True, slots=True, kw_only=True)
class NoRoute:
    """Why there is no way: the proof of a "no".

    reason : why there is none
    ports : the fewest ports that stop every route; empty unless the reason is that every way is stopped
    runs : runs that must be named with them because a bend or bore inside a zone stops the line
    is_fewest : False where it was left undecided whether fewer places would do
    ports_twice : ports that the only way, or the only one left open, would go through more than once
    ways_out : what would change it, nearest at hand first
    parts_against : parts that do not belong together either
    old_too_thick_at : ids of stopping ports that the old line, which lies in there, does not pass by its size either
    old_line_mm : that line's diameter [mm]
    closest_misses : for each method, the least bad place on its best way, worst number first
    """

    reason: NoWay
    ports: tuple[str, ...]
    runs: tuple[str, ...]
    closest_misses: tuple[Rejection, ...]
    ways_out: tuple[WayOut, ...] = ()
    parts_against: tuple[Check, ...] = ()
    old_too_thick_at: tuple[str, ...] = ()
    old_line_mm: float | None = None
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
    tightens : which bolts it tightens for good; "" for none, or where nobody said
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
    tightens: str = ""
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
    stock_line_id : the new line, where a shop may cut it from its stock; "" where it comes with an end of its own
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
    ways_out : what would change a no of the parts or of the supplied length, nearest at hand first
    parts, steps, cautions, measure_first : for the bench
    fit_chance : chance that everything fits when sizes vary within their tolerances; None when not measured
    advisories : questions to settle and things to know, with their numbers; no part of the outcome
    needs : what the job needs beside parts of the catalog, such as fluid by class or a plug for a port left open
    from_anchor_id, to_anchor_id : the two ends of the job
    names : what people call the places and things that are told by their ids
    short_cautions : cautions in a few words, by their sentence
    at_hand : tools and supplies that the steps take up, beside the parts that are counted
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
    ways_out: tuple[WayOut, ...] = ()
    parts: tuple[PartNeeded, ...] = ()
    steps: tuple[Step, ...] = ()
    cautions: tuple[str, ...] = ()
    measure_first: tuple[MeasureFirst, ...] = ()
    fit_chance: float | None = None
    advisories: tuple[Check, ...] = ()
    needs: tuple[str, ...] = ()
    from_anchor_id: str = ""
    to_anchor_id: str = ""
    stock_line_id: str = ""
    names: Names = NO_NAMES
    short_cautions: Mapping[str, str] = field(default_factory=dict)
    at_hand: tuple[str, ...] = ()
    rescue: tuple[RescueLine, ...] = ()
