"""The workshop: its limits, its methods, its small parts, and how it works step by step."""

from collections.abc import Mapping
from dataclasses import field
from decimal import Decimal
from enum import StrEnum

from planner.parts.adapters import Adapter
from planner.parts.brakes import Brake
from planner.parts.facts import Fact
from planner.parts.frame_words import GeometryError
from planner.parts.lines import Fitting, Line
from planner.parts.methods import Method
from planner.parts.slip_limits import SlipLimits
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceErrors:
    """How far the places of a frame are off, as one standard deviation.

    port_mm, anchor_mm : along each axis [mm]
    heading_deg : of where a line points [deg]
    """

    port_mm: float
    anchor_mm: float
    heading_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopLimits:
    """Margins a workshop chooses; catalog data, never constants in code.

    running_clearance_mm : wanted in the worst case for a line that is to slide, diametral [mm]
    stud_squeeze_min_mm, stud_squeeze_max_mm : how much a stud must be thicker than the bore it is screwed into [mm]
    trim_allowance_mm : added to a cut length for trimming square [mm]
    length_step_mm : cut lengths are rounded up to this [mm]
    free_span_mm : longest open leg outside without a clip [mm]
    slack_variation_mm : change of a moving leg's slack that wants a caution [mm]
    pull_margin_ratio : a joint is pulled only where it holds this many times the drag
    ease_margin_ratio : and eased gently where it holds this many times the drag
    friction_ratio : used for a line whose own is not known
    entry_drag_n : used for a port whose own is not known [N]
    mass_g_per_m : used for a line whose own is not known
    hand_force_loss_ratio : share of a hand's force lost in a housing that wants a caution
    measured_length_ratio : difference to a measured old line that is questioned
    currency, labour_per_hour, tax_ratio, money_step : the shop's money
    quote_valid_days : how long a quote stands, from the day it is handed over
    shop_name, shop_address : who stands on paper; "" for nobody
    time_zone : whose days are the shop's, by its name in the IANA list; "" for the machine's own
    match_clamp_mm : how far a lever's clamp and the bar may differ; None when the shop has not said [mm]
    match_bore_mm : how far a hose's bore and the one its insert is made for may differ; None likewise [mm]
    match_lift_mm : how far an adapter's lift and half the change of rotor may differ; None likewise [mm]
    tab_base_front_mm, tab_base_rear_mm : rotor the lowest bracket on tabs gives at each end; None likewise [mm]
    sleeve_modulus_mpa : Young's modulus of a sleeve's rubber at small strain; None when not known [MPa]
    sleeve_friction_ratio : of a sleeve on a line; None when not known
    sleeve_stretch_max_ratio : line over sleeve bore, beyond which nobody gets the sleeve on; None for no limit told
    coupler_cut_away_mm, sleeve_cut_away_mm, spoke_cut_away_mm : how much more of the new line than the joint covered
        is cut away afterwards; None where the shop cuts nothing away [mm]
    undone_end_mm : how much of a line is lost where a fitting is taken off it and set again; None likewise [mm]
    touched_cut_away_mm : the same as for a coupler where the old line held another class of fluid; None likewise [mm]
    cut_over_mm : how much longer than told a cut may come out, never shorter; None when the shop has not said [mm]
    hose_cut_tolerances : rows of (up to this length, plus or minus on a hose ordered to it), shortest first [mm]
    hole_work_rows : how much of a hole each search for room may look at, counted; None for the usual
    plan_work_rows : how much all searches of one plan may look at together, counted; None for any number
    hose_cut_tolerance_over_ratio : plus or minus beyond the last row, as a part of the length; None when not known
    outlet_move_mm : how far a new outlet may lie from the old one's where nobody measured it; None likewise [mm]
    geometry_error : how well places are told on a frame that does not say; None adds nothing for it
    place_errors : how far places are off for each of these; none for what gets no figure
    slips : from where on a frame as told is asked about; None where the shop asks nothing
    """

    running_clearance_mm: float
    stud_squeeze_min_mm: float
    stud_squeeze_max_mm: float
    trim_allowance_mm: float
    length_step_mm: float
    free_span_mm: float
    slack_variation_mm: float
    pull_margin_ratio: float
    ease_margin_ratio: float
    friction_ratio: float
    entry_drag_n: float
    mass_g_per_m: float
    hand_force_loss_ratio: float
    measured_length_ratio: float
    currency: str
    labour_per_hour: Decimal
    tax_ratio: Decimal
    money_step: Decimal
    quote_valid_days: int
    time_zone: str = ""
    shop_name: str = ""
    shop_address: str = ""
    match_clamp_mm: float | None = None
    match_bore_mm: float | None = None
    match_lift_mm: float | None = None
    tab_base_front_mm: float | None = None
    tab_base_rear_mm: float | None = None
    sleeve_modulus_mpa: float | None = None
    sleeve_friction_ratio: float | None = None
    coupler_cut_away_mm: float | None = None
    sleeve_cut_away_mm: float | None = None
    spoke_cut_away_mm: float | None = None
    touched_cut_away_mm: float | None = None
    undone_end_mm: float | None = None
    cut_over_mm: float | None = None
    hose_cut_tolerances: tuple[tuple[float, float], ...] = ()
    hose_cut_tolerance_over_ratio: float | None = None
    sleeve_stretch_max_ratio: float | None = None
    hole_work_rows: int | None = None
    plan_work_rows: int | None = None
    outlet_move_mm: float | None = None
    geometry_error: GeometryError | None = None
    place_errors: Mapping[GeometryError, PlaceErrors] = field(default_factory=dict)
    slips: SlipLimits | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallPart:
    """An olive, washer, insert, adapter, bottle or tool part kept on the bench.

    id, name : as in the catalog
    price : None when not priced
    on_shelf : pieces the shop has; None where nobody counted
    """

    id: str
    name: str
    price: Decimal | None = None
    on_shelf: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Minutes:
    """A three-point estimate of how long something takes.

    least, likely, most : [min]
    """

    least: float
    likely: float
    most: float


class WorkPart(StrEnum):
    """The stretches of a job, in the order of the hands."""

    BEFORE = "before"
    OPEN = "open"
    FREE = "free"
    THROUGH = "through"
    ON = "on"
    CLOSE = "close"
    PROVE = "prove"


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkStep:
    """One step of the work order, with the conditions under which it is done.

    id : stable name
    text, why : sentences with {placeholders} for the facts of the plan
    short : the text in a few words; "" to tell the whole text
    tightens : which bolts it tightens for good; "" for none, or where nobody said
    part : the stretch of the work it belongs to; None for that of the step before
    cautions : ids of the cautions told at this step
    when : facts that must all hold
    when_any : facts of which one must hold; empty for no such wish
    unless : facts of which none may hold
    minutes : how long it takes
    is_redone : whether it is done again when the joint comes apart on the way
    shows_rescue : whether what to do when it sticks or parts is shown with it
    is_once : whether once is enough where several lines are changed in one visit
    """

    id: str
    text: str
    why: str
    cautions: tuple[str, ...] = ()
    when: tuple[Fact, ...] = ()
    when_any: tuple[Fact, ...] = ()
    unless: tuple[Fact, ...] = ()
    minutes: Minutes
    is_redone: bool = False
    shows_rescue: bool = False
    is_once: bool = False
    short: str = ""
    tightens: str = ""
    part: WorkPart | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """What can hurt, with whom to defer to.

    id : stable name
    text : the sentence
    short : the same in a few words; "" to tell the whole sentence
    when, when_any, unless : facts under which it is told; one with none is told at steps that name it only
    asks_torque : whether it is told where a step tightens something; a step that names it has a torque to read
    """

    id: str
    text: str
    short: str = ""
    when: tuple[Fact, ...] = ()
    when_any: tuple[Fact, ...] = ()
    unless: tuple[Fact, ...] = ()
    asks_torque: bool = False


class RescueCase(StrEnum):
    """What went wrong on the way through the frame."""

    STUCK = "stuck"
    PARTED = "parted"


class RescueKind(StrEnum):
    """What is said then: never this, try that, stop here."""

    NEVER = "never"
    TRY = "try"
    STOP = "stop"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rescue:
    """What to do, or never to do, when a line sticks or a joint parts inside the frame.

    id : stable name
    case, kind : when it is said, and as what
    text : the sentence, with {placeholders}; after NEVER and STOP it goes on from those words
    when, when_any, unless : facts under which it is said
    """

    id: str
    case: RescueCase
    kind: RescueKind
    text: str
    when: tuple[Fact, ...] = ()
    when_any: tuple[Fact, ...] = ()
    unless: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class AtHand:
    """A tool or supply that must lie within reach before a job begins, beside the small parts that are counted.

    id : stable name
    text : what it is, with {placeholders}
    when, when_any, unless : facts under which it is wanted
    """

    id: str
    text: str
    when: tuple[Fact, ...] = ()
    when_any: tuple[Fact, ...] = ()
    unless: tuple[Fact, ...] = ()


class Measured(StrEnum):
    """What is measured at the bicycle."""

    ROUND = "round"
    SLOT = "slot"
    LEAN = "lean"
    WALL = "wall"
    INSERT = "insert"
    GUIDE = "guide"
    LENGTH = "length"
    OLD_LINE = "old_line"
    MOUNT = "mount"
    LINE = "line"
    PAPER = "paper"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """With which tool a thing is measured, and how well that usually goes.

    id : stable name
    of : what is measured
    tool : in workshop words
    give_or_take : plus or minus, in mm; in degrees for a lean; None where the answer is no number
    hint : what spoils the reading
    """

    id: str
    of: Measured
    tool: str
    give_or_take: float | None
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """What a workshop has and how it works.

    limits : its margins
    methods : in catalog order
    small_parts, lines, fittings : by id
    steps : in working order
    cautions : by id
    adapters : between caliper mounts, in catalog order
    rescues : for what sticks or parts, in the order they are tried
    measures : with what to measure, best tool first
    at_hand : tools and supplies, in the order they are laid out
    brakes : that a job could name instead, by id
    """

    limits: ShopLimits
    methods: tuple[Method, ...]
    small_parts: dict[str, SmallPart]
    lines: dict[str, Line]
    fittings: dict[str, Fitting]
    steps: tuple[WorkStep, ...]
    cautions: dict[str, Caution]
    adapters: tuple[Adapter, ...] = ()
    rescues: tuple[Rescue, ...] = ()
    measures: tuple[Measure, ...] = ()
    at_hand: tuple[AtHand, ...] = ()
    brakes: Mapping[str, Brake] = field(default_factory=dict)
