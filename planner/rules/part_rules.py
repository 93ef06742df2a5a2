"""Rules about fluids, ends, threads and kinds of line: whether the parts of a job belong together."""

from planner.rules.row import (
    FITS,
    NO_FIT,
    TIGHT,
    UNKNOWN,
    About,
    Measure,
    Row,
    RuleOfTopic,
)


class PartRule(RuleOfTopic):
    """What is asked of fluids, ends of lines, and kinds of line."""

    FLUID = (
        "fluid",
        Row(
            measures=Measure.PART,
            about=About.PARTS,
            says={
                (FITS, "same_class"): "old and new brake take fluid of one class",
                (FITS, "new_system"): "nothing wet was there before: fill with the fluid named on the brake",
                (FITS, "as_the_brake"): "the new hose is filled with the fluid of the brake that stays",
                (TIGHT, "keep_apart"): "old and new brake take fluids that never mix: no hose, olive or bleed kit"
                " of the old one is used again",
                (TIGHT, "old_fluid_not_known"): "what was in the old hose is not known: nothing wet of it is used"
                " again",
                (UNKNOWN, "fluid_not_known"): "the brake's fluid is not in the catalog: read it on the"
                " reservoir's cover",
                (UNKNOWN, "brake_not_known"): "the job does not say which brake this hose is for, and so not what"
                " fills it",
            },
        ),
    )
    HOSE_END_OUTER = (
        "hose_end_outer",
        Row(
            measures=Measure.DIAMETER,
            about=About.PARTS,
            says={
                (FITS, "made_for_it"): "the fitting is made for a line of {size}",
                (FITS, "sits_already"): "the fitting already sits on the line",
                (NO_FIT, "line_too_thick"): "the line of {size} is too thick for a fitting made for {available}",
                (NO_FIT, "line_too_thin"): "the line of {size} is too thin for a fitting made for {available}:"
                " the olive would not seal",
                (UNKNOWN, "line_not_measured"): "the line's outside was not measured",
                (UNKNOWN, "fitting_not_measured"): "which line the fitting is made for was not told; the line"
                " measures {size}",
            },
        ),
    )
    HOSE_END_BORE = (
        "hose_end_bore",
        Row(
            measures=Measure.DIAMETER,
            about=About.PARTS,
            says={
                (FITS, "made_for_it"): "the insert is made for a bore of {size}",
                (UNKNOWN, "tolerance_not_known"): "the bore of {size} and the {available} its insert is made for"
                " differ, and the shop has not said how far they may",
                (NO_FIT, "bore_too_wide"): "the bore of {size} is too wide for an insert made for {available}",
                (NO_FIT, "bore_too_narrow"): "the bore of {size} is too narrow for an insert made for"
                " {available}: it would split the hose",
                (UNKNOWN, "line_not_measured"): "the hose's bore was not measured",
                (UNKNOWN, "fitting_not_measured"): "which bore the insert is made for was not told; the hose"
                " measures {size}",
            },
        ),
    )
    THREAD = (
        "thread",
        Row(
            measures=Measure.DIAMETER,
            about=About.PARTS,
            says={
                (FITS, "same_thread"): "nut and body have the same thread",
                (NO_FIT, "other_diameter"): "nut and body have threads of different diameter",
                (NO_FIT, "other_pitch"): "nut and body have threads of different pitch: the nut starts, then"
                " binds; never force it",
                (NO_FIT, "other_thread"): "nut and body have different threads",
                (UNKNOWN, "thread_not_known"): "one of the two threads is not known: measure it with a thread gauge",
            },
        ),
    )
    PORT_ADMITS = (
        "port_admits",
        Row(
            measures=Measure.PART,
            about=About.PARTS,
            says={
                (FITS, "takes_all"): "{place} takes any line that fits",
                (FITS, "takes_it"): "{place} takes this kind of line",
                (NO_FIT, "closed_stop"): "{place} is a closed stop for an inner cable: lead the line another way,"
                " or clip it to the frame beside the stop; never drill it out",
                (NO_FIT, "other_kind"): "{place} is made for another kind of line: lead it another way",
            },
        ),
    )
    CONVERSION = (
        "conversion",
        Row(
            measures=Measure.PART,
            about=About.PARTS,
            says={
                (FITS, "mechanical_to_hydraulic"): "cable gives way to hose: lever, caliper and line change together",
                (FITS, "hydraulic_to_mechanical"): "hose gives way to cable: lever, caliper and line change together",
                (FITS, "mechanical_to_electric"): "cable gives way to wire: switch, far end and line change together",
                (FITS, "electric_to_mechanical"): "wire gives way to cable: lever, far end and line change together",
                (FITS, "hydraulic_to_electric"): "hose gives way to wire in the same frame",
                (FITS, "electric_to_hydraulic"): "wire gives way to hose in the same frame",
                (NO_FIT, "hose_without_brake"): "a hose takes the place of a cable, but no hydraulic brake is"
                " named to go with it",
            },
        ),
    )
