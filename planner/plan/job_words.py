"""The words of a plan that steps and cautions quote."""

from planner.parts import FittingStyle, JobEnd, LineEnd, Placeholder
from planner.plan.cut_length import cut_words
from planner.plan.job_facts import JobWay, inserts_taken_out
from planner.plan.lengths import Lengths
from planner.plan.line_ends import ends_by_feed
from planner.plan.names import find_frame_names

_AS_MUCH = "as much as the way takes (how much is not known: lay it along and see)"
_ENOUGH = "enough length and to spare (how much is not known: lay it in, then mark)"


def find_job_words(way: JobWay, *, lengths: Lengths) -> dict[Placeholder, str]:
    """What fills each placeholder.

    lengths : how long the line must be
    """
    job, joint, feed_from = way.job, way.joint, way.feed_from
    leading, trailing = ends_by_feed(job=job, feed_from=feed_from)
    names = find_frame_names(job.frame)
    anchors = {JobEnd.FROM: names.place(job.from_anchor_id), JobEnd.TO: names.place(job.to_anchor_id)}
    inserts = [names.place(port_id) for port_id in inserts_taken_out(job=job, route=way.route)]
    as_fed = way.route if feed_from is JobEnd.FROM else way.route[::-1]
    return {
        Placeholder.METHOD: way.method.name,
        Placeholder.FEED_END: anchors[feed_from],
        Placeholder.CUT_END: anchors[feed_from],
        Placeholder.FAR_END: anchors[feed_from.other],
        Placeholder.CUT_LENGTH_MM: (
            cut_words(length_mm=lengths.cut_mm, cut_over_mm=lengths.cut_over_mm) if lengths.known else _ENOUGH
        ),
        Placeholder.LEAST_LENGTH_MM: f"{lengths.cut_mm:.0f} mm" if lengths.cut_mm is not None else _AS_MUCH,
        Placeholder.ROUTE: names.way(as_fed) or "outside, through no hole",
        Placeholder.LEADING_FITTING: _fitting_words(leading),
        Placeholder.TRAILING_FITTING: _fitting_words(trailing),
        Placeholder.NEW_LINE: job.new.line.name,
        Placeholder.OLD_LINE: "no old line" if job.old is None else job.old.line.name,
        Placeholder.JOINT_DIAMETER_MM: f"{joint.thing.diameter_mm:.2f} mm",
        Placeholder.HOLDS_N: "an unmeasured force" if joint.holds_n is None else f"{joint.holds_n:.0f} N",
        Placeholder.EASE_UP_TO_N: "0 N" if joint.ease_up_to_n is None else f"{joint.ease_up_to_n:.0f} N",
        Placeholder.INSERTS: " · ".join(inserts) or "none",
        Placeholder.FRAME: job.frame.name,
        Placeholder.BITTEN: f"{lengths.bitten_mm:.0f} mm",
        Placeholder.FINAL_LENGTH_MM: cut_words(length_mm=lengths.final_mm, cut_over_mm=lengths.cut_over_mm),
        Placeholder.ROTOR: "rotor" if job.rotor_mm is None else f"{job.rotor_mm:.0f} mm",
        Placeholder.ADAPTER: "no adapter" if way.adapter is None else way.adapter.name,
        Placeholder.FROM_ANCHOR: anchors[JobEnd.FROM],
        Placeholder.TO_ANCHOR: anchors[JobEnd.TO],
    }


def _fitting_words(end: LineEnd) -> str:
    if end.fitting is None:
        return "no fitting"
    style = "banjo end" if end.fitting.style is FittingStyle.BANJO else end.fitting.style.value
    return end.fitting.name or style
