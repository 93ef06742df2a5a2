"""Do two metric threads go together?"""

import re
from math import sqrt

from planner.errors import ImpossibleDimensionError
from planner.quick_dataclass import dataclass
from planner.rules import PartRule
from planner.verdicts import Check, Outcome

DESIGNATION = re.compile(r"\s*M\s*(\d+(?:\.\d+)?)\s*[x×*]\s*(\d+(?:\.\d+)?)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class MetricThread:
    """Basic sizes of an ISO metric thread.

    major_diameter_mm : over the crests of the screw; the number behind the M [mm]
    pitch_mm : from thread to thread [mm]
    pitch_diameter_mm : where thread and gap are equally wide [mm]
    nut_minor_diameter_mm : free bore of the nut [mm]
    root_diameter_mm : core of the screw with a rounded root [mm]
    """

    major_diameter_mm: float
    pitch_mm: float
    pitch_diameter_mm: float
    nut_minor_diameter_mm: float
    root_diameter_mm: float


def read_metric_thread(designation: str) -> MetricThread | None:
    """The basic sizes of a thread written such as M8x0.75.

    None for anything that is not a metric thread with its pitch.

    designation : as on the drawing, with its pitch: a bare M8 leaves the pitch to guesswork and is not read

    >>> round(read_metric_thread("M8x0.75").nut_minor_diameter_mm, 3)
    7.188

    Raises ImpossibleDimensionError when the pitch leaves no core.

    Source: ISO 68-1 (profile) and ISO 724 (basic dimensions); every size in the tests was read in a tap maker's
    table.
    """
    match = DESIGNATION.fullmatch(designation)
    if match is None:
        return None
    major_mm, pitch_mm = float(match[1]), float(match[2])
    height_mm = pitch_mm * sqrt(3) / 2
    root_mm = major_mm - 17 / 12 * height_mm
    if not (pitch_mm > 0 and root_mm > 0):
        raise ImpossibleDimensionError(
            name=f"pitch of {designation.strip()}",
            value=pitch_mm,
            unit="mm",
            rule="must be above zero and leave a core",
        )
    return MetricThread(
        major_diameter_mm=major_mm,
        pitch_mm=pitch_mm,
        pitch_diameter_mm=major_mm - 3 / 4 * height_mm,
        nut_minor_diameter_mm=major_mm - 5 / 4 * height_mm,
        root_diameter_mm=root_mm,
    )


def check_threads(*, nut: str, body: str) -> Check:
    """Whether a nut goes onto the thread of a lever or caliper.

    Returns rule "thread": FITS with note "same_thread"; NO_FIT with "other_diameter", "other_pitch" (it starts and
    then binds: never force it) or "other_thread" (designations that are not metric and differ); UNKNOWN with
    "thread_not_known". For metric threads the pitch diameters stand as size and room.

    nut : designation of the nut's thread; "" when not known
    body : designation of the thread it goes onto; "" when not known

    Source: ISO 724, basic dimensions.
    """
    if not nut.strip() or not body.strip():
        return Check(rule=PartRule.THREAD, outcome=Outcome.UNKNOWN, note="thread_not_known")
    one, other = read_metric_thread(nut), read_metric_thread(body)
    if one is None or other is None:
        is_same = nut.split() == body.split()
        note = "same_thread" if is_same else "other_thread"
        return Check(rule=PartRule.THREAD, outcome=Outcome.FITS if is_same else Outcome.NO_FIT, note=note)
    if one.major_diameter_mm != other.major_diameter_mm:
        outcome, note = Outcome.NO_FIT, "other_diameter"
    elif one.pitch_mm != other.pitch_mm:
        outcome, note = Outcome.NO_FIT, "other_pitch"
    else:
        outcome, note = Outcome.FITS, "same_thread"
    return Check(
        rule=PartRule.THREAD,
        outcome=outcome,
        note=note,
        size_mm=other.pitch_diameter_mm,
        available_mm=one.pitch_diameter_mm,
        clearance_mm=-abs(one.pitch_diameter_mm - other.pitch_diameter_mm),
    )
