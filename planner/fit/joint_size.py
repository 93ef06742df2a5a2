"""How thick and how stiff is the joint of old and new line, and can it be made at all?

A joint's worst diameter is its nominal one plus the larger tolerance of the two lines, not the swelling worked again
with a thicker hose: the larger of the two by some 0.002 mm on a 5 mm hose, and a mechanic can add it up on paper.
"""

from collections.abc import Iterator
from math import nan, sqrt

from planner.errors import ImpossibleDimensionError
from planner.fit.way_in_fit import check_leader, check_liner, check_over_cable, check_stud_in_bore
from planner.parts import (
    LaidOutside,
    LeaderLine,
    Line,
    LineKind,
    LinerTube,
    Method,
    OverCable,
    ShopLimits,
    SleeveTube,
    SpokeLink,
    ThreadedCoupler,
    TiedOn,
)
from planner.rules import JointRule, Rule
from planner.verdicts import Check, Outcome, State, Thing, ThingKind

LINES_WITHOUT_BORE = (LineKind.INNER_CABLE, LineKind.ELECTRIC_WIRE)


def stretched_sleeve_diameter_mm(
    *, outer_diameter_mm: float, bore_diameter_mm: float, line_diameter_mm: float
) -> float:
    """Outer diameter of a soft tube stretched over a line.

    Rubber keeps its volume, and the tube is taken to keep its length; a tube that may shorten is thinner, so this is
    the upper bound.

    Returns outside diameter over the line.

    outer_diameter_mm : the tube at rest, outside
    bore_diameter_mm : the tube at rest, inside
    line_diameter_mm : the line it is pushed over

    >>> round(stretched_sleeve_diameter_mm(outer_diameter_mm=6, bore_diameter_mm=4, line_diameter_mm=5), 3)
    6.708

    Raises ImpossibleDimensionError when the tube's bore is not smaller than its outside.

    Source: incompressible rubber, any text on elastomers; from memory.
    """
    _refuse_bore_outside_wall(bore_diameter_mm=bore_diameter_mm, outer_diameter_mm=outer_diameter_mm)
    return sqrt(outer_diameter_mm**2 - bore_diameter_mm**2 + line_diameter_mm**2)


def swollen_line_diameter_mm(*, outer_diameter_mm: float, bore_diameter_mm: float, stud_diameter_mm: float) -> float:
    """Outer diameter of a line whose bore is spread by a thicker stud.

    The wall's area is kept. A stud thinner than the bore swells nothing.

    Returns outside diameter over the stud.

    outer_diameter_mm : the line at rest, outside
    bore_diameter_mm : the line at rest, inside
    stud_diameter_mm : the stud screwed into the bore

    >>> round(swollen_line_diameter_mm(outer_diameter_mm=5, bore_diameter_mm=2.1, stud_diameter_mm=2.6), 3)
    5.23

    Raises ImpossibleDimensionError when the bore is not smaller than the outside.

    Source: as for `stretched_sleeve_diameter_mm`; derived.
    """
    _refuse_bore_outside_wall(bore_diameter_mm=bore_diameter_mm, outer_diameter_mm=outer_diameter_mm)
    if stud_diameter_mm <= bore_diameter_mm:
        return outer_diameter_mm
    return sqrt(outer_diameter_mm**2 + stud_diameter_mm**2 - bore_diameter_mm**2)


def _refuse_bore_outside_wall(*, bore_diameter_mm: float, outer_diameter_mm: float) -> None:
    if not 0 <= bore_diameter_mm < outer_diameter_mm:
        raise ImpossibleDimensionError(
            name="bore_diameter_mm", value=bore_diameter_mm, unit="mm", rule=f"must be 0 to {outer_diameter_mm:g} mm"
        )


def check_method_suits_lines(
    *,
    method: Method,
    old: Line | None,
    new: Line,
    limits: ShopLimits,
    is_old_fitted: bool = False,
    is_new_fitted: bool = False,
) -> tuple[Check, ...]:
    """Whether this joint can be made between these two lines.

    Returns one for each side, rules "leader_use", "joint_needs_line", "joint_bore", "stud_squeeze", "sleeve_grip",
    "sleeve_stretch", "spoke_bore", those of `planner.fit.way_in_fit`, or "goes_outside". UNKNOWN when a bore was not
    measured.

    method : how they would be joined
    old : the line in the frame; None for an empty frame
    limits : holds the squeeze a stud needs
    is_old_fitted, is_new_fitted : whether a sleeve goes over a fitting on that line, which is asked for itself

    Common practice, no source: a stud cuts its thread into the bore, a sleeve grips by its stretch, a spoke
    link lies loosely in both bores, and a leader draws through an empty frame or takes the place of a bare cable.
    Whatever can be wound round can be tied on behind another line's joint.
    """
    if isinstance(method, LaidOutside):
        return (Check(rule=JointRule.GOES_OUTSIDE, outcome=Outcome.FITS, state=State.RIDING, with_ids=(new.id,)),)
    if isinstance(method, TiedOn):
        return ()
    if isinstance(method, LeaderLine):
        return tuple(check_leader(leader=method, old=old, new=new, limits=limits))
    if isinstance(method, OverCable):
        clearance_mm = limits.running_clearance_mm
        return tuple(check_over_cable(method=method, old=old, new=new, running_clearance_mm=clearance_mm))
    if isinstance(method, LinerTube):
        clearance_mm = limits.running_clearance_mm
        return tuple(check_liner(liner=method, old=old, new=new, running_clearance_mm=clearance_mm))
    if old is None:
        return (
            Check(rule=JointRule.JOINT_NEEDS_LINE, outcome=Outcome.NO_FIT, state=State.DRAWING, with_ids=(method.id,)),
        )
    sides = ((old, is_old_fitted), (new, is_new_fitted))
    is_sleeve = isinstance(method, SleeveTube)
    return tuple(_check_side(method, line, limits) for line, is_fitted in sides if not (is_sleeve and is_fitted))


def _check_side(method: ThreadedCoupler | SleeveTube | SpokeLink, line: Line, limits: ShopLimits) -> Check:
    if isinstance(method, SleeveTube):
        return _check_sleeve(method, line, limits)
    with_ids = (method.id, line.id)
    if isinstance(method, ThreadedCoupler):
        return check_stud_in_bore(stud_diameter_mm=method.stud_diameter_mm, line=line, limits=limits, with_ids=with_ids)
    if line.bore_diameter_mm is None:
        outcome = Outcome.NO_FIT if line.kind in LINES_WITHOUT_BORE else Outcome.UNKNOWN
        return Check(rule=JointRule.JOINT_BORE, outcome=outcome, state=State.DRAWING, with_ids=(line.id,))
    return _joint_check(JointRule.SPOKE_BORE, method, line, line.bore_diameter_mm - method.rod_diameter_mm)


def _check_sleeve(sleeve: SleeveTube, line: Line, limits: ShopLimits) -> Check:
    """A sleeve grips what is thicker than its bore, up to what it can be stretched over."""
    most_ratio = limits.sleeve_stretch_max_ratio
    if most_ratio is not None and line.outer_diameter_mm > most_ratio * sleeve.bore_diameter_mm:
        room_mm = most_ratio * sleeve.bore_diameter_mm - line.outer_diameter_mm
        return _joint_check(JointRule.SLEEVE_STRETCH, sleeve, line, room_mm)
    return _joint_check(
        JointRule.SLEEVE_GRIP, sleeve, line, line.outer_diameter_mm - sleeve.bore_diameter_mm, above_zero=True
    )


def _joint_check(
    rule: Rule, method: SleeveTube | SpokeLink, line: Line, room_mm: float, *, above_zero: bool = False
) -> Check:
    room_mm = round(room_mm, 9)  # 2.3 - 2.1 is 0.1999..., and a limit that is met exactly is met
    does_suit = room_mm > 0 if above_zero else room_mm >= 0
    return Check(
        rule=rule,
        outcome=Outcome.FITS if does_suit else Outcome.NO_FIT,
        state=State.DRAWING,
        with_ids=(method.id, line.id),
        size_mm=method.bore_diameter_mm if isinstance(method, SleeveTube) else method.rod_diameter_mm,
        available_mm=line.outer_diameter_mm if isinstance(method, SleeveTube) else line.bore_diameter_mm,
        clearance_mm=room_mm,
    )


def find_joint_size(*, method: Method, old: Line | None, new: Line, least_squeeze_mm: float | None = None) -> Thing:
    """The largest diameter and the stiff length of the joint that moves through the frame.

    Only asked of a method that suits both lines, or may suit them (`check_method_suits_lines`).

    Returns nominal diameter, its tolerance and the rigid length.

    method : how the lines are joined
    old : the line in the frame; None for an empty frame
    least_squeeze_mm : for a bore that nobody measured: how much thicker than it a stud is at least, so that the joint
        is told no thicker than it can be; None to refuse

    Raises ImpossibleDimensionError when a line's bore is unknown where the joint lies in it.

    Source: conservation of volume for a stretched sleeve, of wall area for a swollen hose, derived. Rigid lengths:
    common practice, no source.
    """
    lines = tuple(line for line in (old, new) if line is not None)
    foam_mm = new.foam_diameter_mm or 0.0
    thickest_mm = max(line.outer_diameter_mm for line in lines)
    tolerance_mm = max(line.outer_tolerance_mm for line in lines)
    if isinstance(method, LeaderLine):
        diameter_mm, rigid_mm = max(method.joint_diameter_mm, new.outer_diameter_mm), method.joint_length_mm
    elif isinstance(method, OverCable | LaidOutside):
        diameter_mm, tolerance_mm, rigid_mm = new.outer_diameter_mm, new.outer_tolerance_mm, 0.0
    elif isinstance(method, LinerTube):
        goes_over = new.bore_diameter_mm is not None and new.bore_diameter_mm >= method.outer_diameter_mm
        diameter_mm = new.outer_diameter_mm if goes_over else method.outer_diameter_mm
        rigid_mm = 0.0
    elif isinstance(method, SpokeLink):
        diameter_mm, rigid_mm = thickest_mm, 2 * method.reach_mm
    elif isinstance(method, SleeveTube):
        diameter_mm, rigid_mm = max(_sleeve_diameters_mm(method, lines)), 0.0
    else:
        diameter_mm = max(method.collar_diameter_mm, *_stud_diameters_mm(method, lines, least_squeeze_mm))
        rigid_mm = 2 * method.stud_length_mm + method.collar_length_mm
    return Thing(
        id="joint",
        kind=ThingKind.JOINT,
        diameter_mm=max(diameter_mm, foam_mm),
        tolerance_mm=tolerance_mm,
        rigid_length_mm=rigid_mm,
    )


def _sleeve_diameters_mm(sleeve: SleeveTube, lines: tuple[Line, ...]) -> Iterator[float]:
    for line in lines:
        yield stretched_sleeve_diameter_mm(
            outer_diameter_mm=sleeve.outer_diameter_mm,
            bore_diameter_mm=sleeve.bore_diameter_mm,
            line_diameter_mm=line.outer_diameter_mm,
        )


def _stud_diameters_mm(
    coupler: ThreadedCoupler, lines: tuple[Line, ...], least_squeeze_mm: float | None
) -> Iterator[float]:
    for line in lines:
        bore_mm = line.bore_diameter_mm
        if bore_mm is None and least_squeeze_mm is not None:
            bore_mm = min(coupler.stud_diameter_mm, line.outer_diameter_mm) - least_squeeze_mm
        if bore_mm is None:
            raise ImpossibleDimensionError(
                name=f"bore of {line.id}",
                value=nan,
                unit="mm",
                rule="must be measured before a stud is screwed into it",
            )
        yield swollen_line_diameter_mm(
            outer_diameter_mm=line.outer_diameter_mm,
            bore_diameter_mm=bore_mm,
            stud_diameter_mm=coupler.stud_diameter_mm,
        )
