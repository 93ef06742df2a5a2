"""What the checks of the parts say: one sentence for each rule, outcome and note."""

from planner.documents.words.sizes_in_words import millimetres
from planner.verdicts import Check, Outcome

FITS, TIGHT, UNKNOWN, NO_FIT = Outcome.FITS, Outcome.TIGHT, Outcome.UNKNOWN, Outcome.NO_FIT

_ROTOR_NOT_STATED = "the job does not say which rotor is wanted: measure the one on the wheel across its outside"
_NATIVE_NOT_STATED = (
    "which rotor this mount stands for without an adapter is not stated: read it on the frame, the fork or their paper"
)

PART_SENTENCES: dict[str, dict[tuple[Outcome, str], str]] = {
    "mount": {
        (
            FITS,
            "direct",
        ): "the caliper bolts straight to the frame for a rotor of {size}, the one this mount stands for",
        (FITS, "same_mount"): "caliper and frame have the same kind of mount",
        (
            FITS,
            "with_adapter",
        ): "the caliper bolts to the frame with the adapter {with} for a rotor of {size}; the mount"
        " by itself stands for {available}",
        (NO_FIT, "below_native"): "a rotor of {size} is smaller than the {available} this mount stands for: adapters"
        " only move a caliper outwards",
        (NO_FIT, "no_adapter"): "the mount stands for {available} and a rotor of {size} needs an adapter in one piece"
        " that the catalog does not have; two are never stacked",
        (NO_FIT, "no_bracket"): "a post caliper never bolts straight to tabs, and the catalog has no bracket for this"
        " end and rotor",
        (NO_FIT, "no_plate"): "a flat mount on a fork always has its front plate between, and the catalog has none for"
        " this rotor",
        (NO_FIT, "other_mount"): "caliper and frame have different mounts, and no adapter in the catalog joins them for"
        " this rotor",
        (
            UNKNOWN,
            "ask_seldom_sold",
        ): "a rotor of {size} on a mount for {available} would take the adapter {with}, which"
        " is seldom sold: find one before anything is taken apart",
        (UNKNOWN, "ask_maker_allows"): "a rotor of {size} on a mount for {available} would take {with}: only where the"
        " maker of frame or fork allows it",
        (UNKNOWN, "ask_piece_in_hand"): "caliper and frame have different mounts; {with} may join them: look with the"
        " piece in hand whether it does, for this rotor and this room",
        (UNKNOWN, "other_native"): "for a rotor of {size} the adapter {with} would serve, but it is made for another"
        " mount than one for {available}: ask the maker of frame or fork",
        (UNKNOWN, "tabs_on_tabs"): "a caliper made for tabs is bolted on with thin shims that centre it: is it made for"
        " this end and this rotor?",
        (UNKNOWN, "tab_base_not_known"): "the shop has not said which rotor the lowest bracket on these tabs gives",
        (UNKNOWN, "end_not_known"): "the caliper sits ahead of the bottom bracket but is not marked as moving with"
        " the bar: is it on the fork? Say so (moves_with: bar); until then mount, rotor and lengths of this end are not"
        " proven",
        (UNKNOWN, "frame_mount_not_known"): "which mount this end of the frame has is not in the catalog: look whether"
        " the bolts point along the axle, at the wheel or through a flat stay",
        (UNKNOWN, "caliper_mount_not_known"): "how the caliper bolts on is not in the catalog",
        (UNKNOWN, "rotor_not_stated"): _ROTOR_NOT_STATED,
        (UNKNOWN, "native_not_stated"): _NATIVE_NOT_STATED,
        (UNKNOWN, "native_likely"): f"{_NATIVE_NOT_STATED}; its least rotor, {{available}}, is the likely one",
    },
    "adapter_lift": {
        (FITS, "half_the_change"): "the adapter {with} lifts the caliper by {available}, half the change of rotor size",
        (
            NO_FIT,
            "lift_off",
        ): "the adapter {with} lifts the caliper by {available} where its step asks for {size}:"
        " measure it before it is used",
        (
            UNKNOWN,
            "lift_not_measured",
        ): "the lift of the adapter {with} was not measured; its step asks for {size}",
        (UNKNOWN, "tolerance_not_known"): "the adapter {with} lifts the caliper by {available}, its step asks for"
        " {size}, and the shop has not said how far off it may be",
    },
    "rotor_size": {
        (FITS, "within_limits"): "a rotor of {size} lies within the frame's limits, up to {available}",
        (NO_FIT, "above_frame"): "a rotor of {size} is larger than the frame allows: {available} at most",
        (NO_FIT, "below_frame"): "a rotor of {size} is smaller than the frame takes: {available} at least",
        (UNKNOWN, "rotor_not_stated"): _ROTOR_NOT_STATED,
        (FITS, "is_native"): "a rotor of {size} is the one the mount stands for",
        (UNKNOWN, "maximum_not_stated"): "the greatest rotor this end of the frame takes is not stated: ask its maker"
        " before a rotor of {size} goes on",
    },
    "caliper_rotor": {
        (FITS, "within_limits"): "a rotor of {size} lies within the caliper's limits",
        (NO_FIT, "above_caliper"): "a rotor of {size} is larger than the caliper takes: {available} at most",
        (NO_FIT, "below_caliper"): "a rotor of {size} is smaller than the caliper takes: {available} at least",
    },
    "brake_end": {
        (FITS, "this_end"): "the brake is made for this end",
        (NO_FIT, "rear_brake_on_fork"): "the brake is made for the rear and does not go on a fork: take the front one",
        (UNKNOWN, "is_rear_brake_meant"): "is the rear brake meant to go on the fork? Only where its maker says that it"
        " serves both ends; then leave its end out of the catalog",
        (
            UNKNOWN,
            "front_brake_on_rear",
        ): "the brake is made for the front: is it meant to go on the rear? Ask its maker",
    },
    "hub": {
        (FITS, "same_seat"): "the rotor sits on the hub as it is",
        (NO_FIT, "six_bolt_on_splined"): "a six-bolt rotor does not sit on a splined hub: take a splined rotor, or an"
        " adapter ring made for this hub",
        (NO_FIT, "splined_on_six_bolt"): "a splined rotor does not sit on a six-bolt hub: take a six-bolt rotor",
        (UNKNOWN, "hub_not_known"): "how rotors sit on this hub is not in the catalog: look at the wheel",
        (UNKNOWN, "rotor_seat_not_stated"): "the job does not say how the rotor sits on its hub",
    },
    "lever_clamp": {
        (FITS, "same_size"): "the lever's clamp of {available} sits on a bar of {size}",
        (NO_FIT, "clamp_too_small"): "the lever's clamp of {available} does not close around a bar of {size}",
        (NO_FIT, "clamp_too_large"): "the lever's clamp of {available} cannot hold a bar of {size}",
        (UNKNOWN, "clamp_not_measured"): "the lever's clamp was not measured",
        (UNKNOWN, "bar_not_measured"): "the bar was not measured where the lever sits",
        (UNKNOWN, "tolerance_not_known"): "the lever's clamp of {available} and the bar of {size} differ, and the shop"
        " has not said how far they may",
    },
    "fluid": {
        (FITS, "same_class"): "old and new brake take fluid of one class",
        (FITS, "new_system"): "nothing wet was there before: fill with the fluid named on the brake",
        (FITS, "as_the_brake"): "the new hose is filled with the fluid of the brake that stays",
        (
            TIGHT,
            "keep_apart",
        ): "old and new brake take fluids that never mix: no hose, olive or bleed kit of the old one is used again",
        (TIGHT, "old_fluid_not_known"): "what was in the old hose is not known: nothing wet of it is used again",
        (UNKNOWN, "fluid_not_known"): "the brake's fluid is not in the catalog: read it on the reservoir's cover",
        (UNKNOWN, "brake_not_known"): "the job does not say which brake this hose is for, and so not what fills it",
    },
    "hose_reuse": {
        (FITS, "same_class"): "what held this fluid may hold it again",
        (NO_FIT, "never_mix"): "what held one class of fluid is never filled with another: its seals swell and fail",
        (UNKNOWN, "fluid_not_known"): "what was in it is not known: use a new one",
    },
    "fill": {
        (FITS, "as_made_for"): "the fluid is the one the brake is made for",
        (FITS, "boils_higher"): "the fluid is of the same class and boils no lower",
        (TIGHT, "boils_lower"): "the fluid is of the same class but boils lower than the one the brake is made for",
        (NO_FIT, "never_mix"): "this fluid never goes into this brake: its seals swell and fail",
        (UNKNOWN, "fluid_not_known"): "one of the two fluids is not known",
    },
    "hose_end_outer": {
        (FITS, "made_for_it"): "the fitting is made for a line of {size}",
        (FITS, "sits_already"): "the fitting already sits on the line",
        (NO_FIT, "line_too_thick"): "the line of {size} is too thick for a fitting made for {available}",
        (
            NO_FIT,
            "line_too_thin",
        ): "the line of {size} is too thin for a fitting made for {available}: the olive would not seal",
        (UNKNOWN, "line_not_measured"): "the line's outside was not measured",
        (UNKNOWN, "fitting_not_measured"): "which line the fitting is made for was not told; the line measures {size}",
    },
    "hose_end_bore": {
        (FITS, "made_for_it"): "the insert is made for a bore of {size}",
        (
            UNKNOWN,
            "tolerance_not_known",
        ): "the bore of {size} and the {available} its insert is made for differ, and the"
        " shop has not said how far they may",
        (NO_FIT, "bore_too_wide"): "the bore of {size} is too wide for an insert made for {available}",
        (
            NO_FIT,
            "bore_too_narrow",
        ): "the bore of {size} is too narrow for an insert made for {available}: it would split the hose",
        (UNKNOWN, "line_not_measured"): "the hose's bore was not measured",
        (UNKNOWN, "fitting_not_measured"): "which bore the insert is made for was not told; the hose measures {size}",
    },
    "thread": {
        (FITS, "same_thread"): "nut and body have the same thread",
        (NO_FIT, "other_diameter"): "nut and body have threads of different diameter",
        (
            NO_FIT,
            "other_pitch",
        ): "nut and body have threads of different pitch: the nut starts, then binds; never force it",
        (NO_FIT, "other_thread"): "nut and body have different threads",
        (UNKNOWN, "thread_not_known"): "one of the two threads is not known: measure it with a thread gauge",
    },
    "port_admits": {
        (FITS, "takes_all"): "{place} takes any line that fits",
        (FITS, "takes_it"): "{place} takes this kind of line",
        (
            NO_FIT,
            "closed_stop",
        ): "{place} is a closed stop for an inner cable: lead the line another way, or clip it to the"
        " frame beside the stop; never drill it out",
        (NO_FIT, "other_kind"): "{place} is made for another kind of line: lead it another way",
    },
    "conversion": {
        (FITS, "mechanical_to_hydraulic"): "cable gives way to hose: lever, caliper and line change together",
        (FITS, "hydraulic_to_mechanical"): "hose gives way to cable: lever, caliper and line change together",
        (FITS, "mechanical_to_electric"): "cable gives way to wire: switch, far end and line change together",
        (FITS, "electric_to_mechanical"): "wire gives way to cable: lever, far end and line change together",
        (FITS, "hydraulic_to_electric"): "hose gives way to wire in the same frame",
        (FITS, "electric_to_hydraulic"): "wire gives way to hose in the same frame",
        (
            NO_FIT,
            "hose_without_brake",
        ): "a hose takes the place of a cable, but no hydraulic brake is named to go with it",
    },
    "lever_side": {
        (
            UNKNOWN,
            "right_hand_rear_brake",
        ): "as written, the right hand works the rear brake: is that what the rider wants and the country asks for?",
        (
            UNKNOWN,
            "left_hand_rear_brake",
        ): "as written, the left hand works the rear brake: is that what the rider wants and the country asks for?",
        (UNKNOWN, "right_hand_front_brake"): "as written, the right hand works the front brake: is that what the rider"
        " wants and the country asks for?",
        (
            UNKNOWN,
            "left_hand_front_brake",
        ): "as written, the left hand works the front brake: is that what the rider wants and the country asks for?",
        (UNKNOWN, "side_not_told"): "which hand is to work this brake? Ask the rider",
    },
}

PART_WORDS = {
    "hose": "hose",
    "lever": "lever",
    "caliper": "caliper",
    "inner_cable": "inner cable",
    "housing": "housing",
    "far_end": "the part at the far end, such as caliper, derailleur or seatpost",
    "wire": "wire",
    "switch": "switch",
    "battery": "battery",
    "end_caps": "end caps",
    "fluid": "fluid",
    "bleed_kit": "bleed kit",
    "plug": "plug for the open hole {place}",
}
"""Names of the parts a conversion takes off or brings, and of what a job needs beside them."""


def part_sentence(check: Check, *, labels: dict[str, str] | None = None) -> str:
    """What a check of the parts says, in one sentence without its full stop.

    Returns with units beside every number.

    check : from planner.fit.compatibility
    labels : names of ports and parts for people; ids stand where a name is missing
    """
    names = labels or {}
    place = "this place" if check.port_id is None else names.get(check.port_id, check.port_id)
    facts = {
        "place": place,
        "size": millimetres(check.size_mm),
        "available": millimetres(check.available_mm),
        "with": ", ".join(names.get(part_id, part_id) for part_id in check.with_ids),
    }
    return PART_SENTENCES[check.rule][check.outcome, check.note].format_map(facts)


def need_words(need: str, *, labels: dict[str, str] | None = None) -> str:
    """What a job needs beside the parts named, such as "plug:side-port", in words.

    need : one of CompatibilityResult.needs: a key, a colon, and what it is about
    labels : names of ports for people
    """
    key, _, about = need.partition(":")
    if key == "plug":
        return PART_WORDS[key].format(place=(labels or {}).get(about, about))
    return f"{PART_WORDS[key]}: {FLUID_WORDS[about]}"


FLUID_WORDS = {
    "glycol_dot3": "DOT 3",
    "glycol_dot4": "DOT 4",
    "glycol_dot5_1": "DOT 5.1",
    "silicone_dot5": "DOT 5 (silicone)",
    "mineral_oil": "mineral oil as the brake's maker names it",
    "glycol": "for glycol fluids (DOT 3, 4, 5.1) only",
    "silicone": "for silicone fluid only",
    "mineral": "for mineral oil only",
}
"""Fluids, and bleed kits by the class they are kept to."""
