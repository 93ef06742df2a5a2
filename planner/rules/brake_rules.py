"""Rules about a brake on its frame: mount, adapter, rotor, hub, bar, and which end it is for."""

from planner.rules.row import (
    FITS,
    NO_FIT,
    UNKNOWN,
    About,
    Measure,
    Row,
    RuleOfTopic,
)

_ROTOR_NOT_STATED = "the job does not say which rotor is wanted: measure the one on the wheel across its outside"
_NATIVE_NOT_STATED = (
    "which rotor this mount stands for without an adapter is not stated: read it on the frame, the fork or their paper"
)


class BrakeRule(RuleOfTopic):
    """What is asked of a brake and what it is bolted to."""

    MOUNT = (
        "mount",
        Row(
            measures=Measure.PART,
            about=About.PARTS,
            says={
                (FITS, "direct"): "the caliper bolts straight to the frame for a rotor of {size}, the one this"
                " mount stands for",
                (FITS, "same_mount"): "caliper and frame have the same kind of mount",
                (FITS, "with_adapter"): "the caliper bolts to the frame with the adapter {with} for a rotor of"
                " {size}; the mount by itself stands for {available}",
                (NO_FIT, "below_native"): "a rotor of {size} is smaller than the {available} this mount stands"
                " for: adapters only move a caliper outwards",
                (NO_FIT, "no_adapter"): "the mount stands for {available} and a rotor of {size} needs an adapter"
                " in one piece that the catalog does not have; two are never stacked",
                (NO_FIT, "no_bracket"): "a post caliper never bolts straight to tabs, and the catalog has no"
                " bracket for this end and rotor",
                (NO_FIT, "no_plate"): "a flat mount on a fork always has its front plate between, and the catalog"
                " has none for this rotor",
                (NO_FIT, "other_mount"): "caliper and frame have different mounts, and no adapter in the catalog"
                " joins them for this rotor",
                (UNKNOWN, "ask_seldom_sold"): "a rotor of {size} on a mount for {available} would take the"
                " adapter {with}, which is seldom sold: find one before anything is taken apart",
                (UNKNOWN, "ask_maker_allows"): "a rotor of {size} on a mount for {available} would take {with}:"
                " only where the maker of frame or fork allows it",
                (UNKNOWN, "ask_piece_in_hand"): "caliper and frame have different mounts; {with} may join them:"
                " look with the piece in hand whether it does, for this rotor and this room",
                (UNKNOWN, "other_native"): "for a rotor of {size} the adapter {with} would serve, but it is made"
                " for another mount than one for {available}: ask the maker of frame or fork",
                (UNKNOWN, "tabs_on_tabs"): "a caliper made for tabs is bolted on with thin shims that centre it:"
                " is it made for this end and this rotor?",
                (UNKNOWN, "tab_base_not_known"): "the shop has not said which rotor the lowest bracket on these"
                " tabs gives",
                (UNKNOWN, "end_not_known"): "the caliper sits ahead of the bottom bracket but is not marked as"
                " moving with the bar: is it on the fork? Say so (moves_with: bar); until then mount, rotor and"
                " lengths of this end are not proven",
                (UNKNOWN, "frame_mount_not_known"): "which mount this end of the frame has is not in the catalog:"
                " look whether the bolts point along the axle, at the wheel or through a flat stay",
                (UNKNOWN, "caliper_mount_not_known"): "how the caliper bolts on is not in the catalog",
                (UNKNOWN, "rotor_not_stated"): _ROTOR_NOT_STATED,
                (UNKNOWN, "native_not_stated"): _NATIVE_NOT_STATED,
                (UNKNOWN, "native_likely"): f"{_NATIVE_NOT_STATED}; its least rotor, {{available}}, is the likely one",
            },
        ),
    )
    ADAPTER_LIFT = (
        "adapter_lift",
        Row(
            measures=Measure.HEIGHT,
            about=About.PARTS,
            says={
                (FITS, "half_the_change"): "the adapter {with} lifts the caliper by {available}, half the change"
                " of rotor size",
                (NO_FIT, "lift_off"): "the adapter {with} lifts the caliper by {available} where its step asks"
                " for {size}: measure it before it is used",
                (UNKNOWN, "lift_not_measured"): "the lift of the adapter {with} was not measured; its step asks"
                " for {size}",
                (UNKNOWN, "tolerance_not_known"): "the adapter {with} lifts the caliper by {available}, its step"
                " asks for {size}, and the shop has not said how far off it may be",
            },
        ),
    )
    ROTOR_SIZE = (
        "rotor_size",
        Row(
            measures=Measure.PART,
            about=About.PARTS,
            says={
                (FITS, "within_limits"): "a rotor of {size} lies within the frame's limits, up to {available}",
                (NO_FIT, "above_frame"): "a rotor of {size} is larger than the frame allows: {available} at most",
                (NO_FIT, "below_frame"): "a rotor of {size} is smaller than the frame takes: {available} at least",
                (UNKNOWN, "rotor_not_stated"): _ROTOR_NOT_STATED,
                (FITS, "is_native"): "a rotor of {size} is the one the mount stands for",
                (UNKNOWN, "maximum_not_stated"): "the greatest rotor this end of the frame takes is not stated:"
                " ask its maker before a rotor of {size} goes on",
            },
        ),
    )
    CALIPER_ROTOR = (
        "caliper_rotor",
        Row(
            measures=Measure.DIAMETER,
            about=About.PARTS,
            says={
                (FITS, "within_limits"): "a rotor of {size} lies within the caliper's limits",
                (NO_FIT, "above_caliper"): "a rotor of {size} is larger than the caliper takes: {available} at most",
                (NO_FIT, "below_caliper"): "a rotor of {size} is smaller than the caliper takes: {available} at least",
            },
        ),
    )
    BRAKE_END = (
        "brake_end",
        Row(
            measures=Measure.PART,
            about=About.PARTS,
            says={
                (FITS, "this_end"): "the brake is made for this end",
                (NO_FIT, "rear_brake_on_fork"): "the brake is made for the rear and does not go on a fork: take"
                " the front one",
                (UNKNOWN, "is_rear_brake_meant"): "is the rear brake meant to go on the fork? Only where its"
                " maker says that it serves both ends; then leave its end out of the catalog",
                (UNKNOWN, "front_brake_on_rear"): "the brake is made for the front: is it meant to go on the"
                " rear? Ask its maker",
            },
        ),
    )
    HUB = (
        "hub",
        Row(
            measures=Measure.PART,
            about=About.PARTS,
            says={
                (FITS, "same_seat"): "the rotor sits on the hub as it is",
                (NO_FIT, "six_bolt_on_splined"): "a six-bolt rotor does not sit on a splined hub: take a splined"
                " rotor, or an adapter ring made for this hub",
                (NO_FIT, "splined_on_six_bolt"): "a splined rotor does not sit on a six-bolt hub: take a six-bolt"
                " rotor",
                (UNKNOWN, "hub_not_known"): "how rotors sit on this hub is not in the catalog: look at the wheel",
                (UNKNOWN, "rotor_seat_not_stated"): "the job does not say how the rotor sits on its hub",
            },
        ),
    )
    LEVER_CLAMP = (
        "lever_clamp",
        Row(
            measures=Measure.DIAMETER,
            about=About.PARTS,
            says={
                (FITS, "same_size"): "the lever's clamp of {available} sits on a bar of {size}",
                (NO_FIT, "clamp_too_small"): "the lever's clamp of {available} does not close around a bar of {size}",
                (NO_FIT, "clamp_too_large"): "the lever's clamp of {available} cannot hold a bar of {size}",
                (UNKNOWN, "clamp_not_measured"): "the lever's clamp was not measured",
                (UNKNOWN, "bar_not_measured"): "the bar was not measured where the lever sits",
                (UNKNOWN, "tolerance_not_known"): "the lever's clamp of {available} and the bar of {size} differ,"
                " and the shop has not said how far they may",
            },
        ),
    )
    LEVER_SIDE = (
        "lever_side",
        Row(
            measures=Measure.PART,
            about=About.PARTS,
            says={
                (UNKNOWN, "right_hand_rear_brake"): "as written, the right hand works the rear brake: is that"
                " what the rider wants and the country asks for?",
                (UNKNOWN, "left_hand_rear_brake"): "as written, the left hand works the rear brake: is that what"
                " the rider wants and the country asks for?",
                (UNKNOWN, "right_hand_front_brake"): "as written, the right hand works the front brake: is that"
                " what the rider wants and the country asks for?",
                (UNKNOWN, "left_hand_front_brake"): "as written, the left hand works the front brake: is that"
                " what the rider wants and the country asks for?",
                (UNKNOWN, "side_not_told"): "which hand is to work this brake? Ask the rider",
            },
        ),
    )
