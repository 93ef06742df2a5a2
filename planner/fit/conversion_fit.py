"""A cable brake becomes a hydraulic one, or cable gears electric ones: what comes off, what is new, what stays open?"""

from planner.parts import Job, LineFamily
from planner.quick_dataclass import dataclass
from planner.rules import PartRule
from planner.verdicts import Check, Outcome

COMES_OFF = {
    LineFamily.HYDRAULIC: ("hose", "lever", "caliper"),
    LineFamily.MECHANICAL: ("inner_cable", "housing", "lever", "far_end"),
    LineFamily.ELECTRIC: ("wire", "switch", "far_end"),
}
"""Keys of what belongs to a line of each family and leaves with it."""

IS_NEW = {
    LineFamily.HYDRAULIC: ("hose", "lever", "caliper", "fluid", "bleed_kit"),
    LineFamily.MECHANICAL: ("inner_cable", "housing", "lever", "far_end", "end_caps"),
    LineFamily.ELECTRIC: ("wire", "switch", "far_end", "battery"),
}
"""Keys of what a line of each family needs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conversion:
    """A change from one family of lines to another.

    was, becomes : the two families
    comes_off, is_new : keys of the parts, see planner.documents.words.need_words
    open_port_ids : ports the old line leaves and nothing else uses: each needs a plug; None when the old line's way or
        the new one's is not known
    """

    was: LineFamily
    becomes: LineFamily
    comes_off: tuple[str, ...]
    is_new: tuple[str, ...]
    open_port_ids: tuple[str, ...] | None


def find_open_ports(*, job: Job, route: tuple[str, ...] | None) -> tuple[str, ...] | None:
    """Ports that the old line leaves and neither the new line nor one that stays goes through.

    Returns in the old line's order; empty for an empty frame; None when the way of the old or of the new line is not
    known.

    route : ids of the ports of the new line's way; None before it is known
    """
    if job.old is None:
        return ()
    if route is None or not job.old.through:
        return None
    in_use = {*route, *(place for staying in job.ridden_beside for place in staying.through)}
    return tuple(place for place in job.old.through if place in job.frame.ports and place not in in_use)


def find_conversion(*, job: Job, route: tuple[str, ...] | None) -> Conversion | None:
    """What changes when the new line is of another family than the old one.

    None where nothing is converted.

    route : ids of the ports of the new line's way; None before it is known
    """
    if job.old is None:
        return None
    was, becomes = job.old.line.kind.family, job.new.line.kind.family
    if was is becomes:
        return None
    return Conversion(
        was=was,
        becomes=becomes,
        comes_off=COMES_OFF[was],
        is_new=IS_NEW[becomes],
        open_port_ids=find_open_ports(job=job, route=route),
    )


def check_conversion(*, job: Job, conversion: Conversion | None) -> Check | None:
    """Whether the job brings all that a conversion needs.

    Returns rule "conversion": FITS with note such as "mechanical_to_hydraulic"; NO_FIT with "hose_without_brake"
    where a hose is to replace a cable and no hydraulic brake comes with it. None where nothing is converted.

    conversion : what changes; None where nothing is converted
    """
    if conversion is None:
        return None
    if conversion.becomes is LineFamily.HYDRAULIC and job.new.brake is None:
        return Check(
            rule=PartRule.CONVERSION, outcome=Outcome.NO_FIT, note="hose_without_brake", with_ids=(job.new.line.id,)
        )
    return Check(rule=PartRule.CONVERSION, outcome=Outcome.FITS, note=f"{conversion.was}_to_{conversion.becomes}")
