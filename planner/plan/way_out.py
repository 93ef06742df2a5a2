"""What would change a no, as data."""

from enum import StrEnum

from planner.parts import JobEnd, Method, Opening
from planner.quick_dataclass import dataclass
from planner.verdicts import Check, Outcome


class WayOutKind(StrEnum):
    """What would change a no."""

    INSERTS_OUT = "inserts_out"
    OLD_BRAKE_GIVEN_UP = "old_brake_given_up"
    OLD_WAY = "old_way"
    SPOKE_LINK = "spoke_link"
    COUPLER = "threaded_coupler"
    OVER_CABLE = "over_cable"
    CORD_FIRST = "cord_first"
    BARE_ENDS = "bare_ends"
    OTHER_ROTOR = "other_rotor"
    OTHER_ROTOR_SEAT = "other_rotor_seat"
    ADAPTER = "adapter"
    LONGER_LINE = "longer_line"
    OTHER_FITTING = "other_fitting"
    FITTING_MADE = "fitting_made"
    OTHER_LINE = "other_line"
    OTHER_BRAKE = "other_brake"
    OTHER_MOUNT = "other_mount"
    THINNER_JOINT = "thinner_joint"
    THINNER_LINE = "thinner_line"
    SUPPLER_LINE = "suppler_line"
    WIDER_INSERT = "wider_insert"
    LARGER_HOLE = "larger_hole"


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One change that would make a plan of a job that has none.

    port_id : the hole it is about
    size_mm : thickest line or joint that passes, rod or stud of a joint, rotor, bend radius, length to have, what an
        adapter adds to the rotor, or how much larger a hole would have to be
    opening : the smallest hole that would do
    end : the end it is about; None for both
    with_id, name : the catalog's line, fitting or brake that would serve, or the word for a mount or hub; "" for none
    missing_mm : how much too short the supplied line is
    method : the joint that would serve and that the shop has not; None where it is not about one
    outcome : of the job with this change
    leaves : what would still stand in the way then; empty where nothing does
    """

    kind: WayOutKind
    port_id: str | None = None
    size_mm: float | None = None
    opening: Opening | None = None
    end: JobEnd | None = None
    with_id: str = ""
    name: str = ""
    missing_mm: float | None = None
    method: Method | None = None
    outcome: Outcome = Outcome.TIGHT
    leaves: tuple[Check, ...] = ()
