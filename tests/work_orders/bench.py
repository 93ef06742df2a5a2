"""A bench that refuses: every step of the starter's work order by what it needs and what it changes.

The rules are those of a workshop (common practice, no source): no lever is pressed with nothing between the pistons, no
hose is filled that is open, nothing that is taken out stays out, nothing plugged is cut, nobody rides before the test.
"""

from dataclasses import dataclass, field

Change = dict[str, bool]
NOW = "now"


@dataclass(frozen=True, slots=True, kw_only=True)
class Deed:
    """What a step needs to hold, and what holds after it."""

    needs: Change = field(default_factory=dict)
    makes: Change = field(default_factory=dict)


def deed(needs: str = "", makes: str = "") -> Deed:
    """`pads !block`: pads must be in, no block may be."""

    def read(words: str) -> Change:
        return {word.removeprefix("!"): not word.startswith("!") for word in words.split()}

    return Deed(needs=read(needs), makes=read(makes))


AT_REST = {
    "pads": True,
    "wheel": True,
    "block": False,
    "filled": False,
    "old_wet": False,
    "old_cut": False,
    "leading_closed": True,
    "trailing_closed": True,
    "leading_square": False,
    "old_cable": False,
    "headless": False,
    "clamp_in_reach": True,
    "plugged": False,
    "cable_in": False,
    "plugged_in": False,
    "power": True,
    "cover": True,
    "bar_taped": True,
    "cockpit": True,
    "inserts": True,
    "post": True,
    "clips": True,
    "caliper_centred": True,
    "cable_clamped": True,
    "joint": False,
    "tied": False,
    "through": False,
    "bitten": False,
    "shock_noted": False,
    "torqued": False,
    "firm": False,
    "stood": False,
    "tested": False,
}

PRESSED_ON = "pads wheel"
DEEDS = {
    "read-first": deed(),
    "parts-check": deed("!old_cut"),
    "fluid-check": deed("!old_cut !filled"),
    "note-before": deed("cockpit inserts"),
    "note-shock": deed(makes="shock_noted"),
    "stand": deed("post"),
    "stand-on-axles": deed("post"),
    "power-off": deed(makes="!power"),
    "settle-hands": deed(),
    "wheel-out": deed("wheel", "!wheel"),
    "pads-out": deed("pads !wheel", "!pads"),
    "block-old": deed("!pads !wheel", "block"),
    "cover": deed(),
    "motor-cover": deed("cover !power", "!cover"),
    "bar-open": deed("bar_taped", "!bar_taped"),
    "cable-slack": deed("!clips clamp_in_reach", "!cable_clamped"),
    "post-out": deed("post !clips", "!post clamp_in_reach"),
    "cockpit-down": deed("cockpit !clips", "!cockpit"),
    "fork-down": deed("!cockpit"),
    "clips-off": deed("clips cockpit post", "!clips"),
    "inserts-out": deed("inserts !clips", "!inserts"),
    "inserts-apart": deed("inserts !clips", "!inserts"),
    "drain-old": deed("!clips !old_cut", "!old_wet !leading_closed !trailing_closed"),
    "cable-out": deed("!cable_clamped", "!old_cable"),
    "cable-head": deed("!cable_clamped !clips old_cable !headless", "headless"),
    "free-old-wire": deed("!power", "old_cut"),
    "cut-old": deed("!old_wet !power_matters !clips", "old_cut !leading_closed !trailing_closed"),
    "cut-old-to-keep": deed("!old_wet !power_matters !clips", "old_cut !leading_closed !trailing_closed"),
    "plug-old": deed("!old_wet"),
    "dry-end": deed("old_cut !old_wet"),
    "class-barrier": deed("old_cut !old_wet !joint"),
    "old-unbolt": deed("!clips"),
    "old-away": deed("!clips !old_wet !joint"),
    "old-out": deed("!clips !old_wet !joint"),
    "unset-leading": deed("!through !joint !leading_square", "leading_square"),
    "square-new": deed("!through !leading_square", "leading_square"),
    "plug-new": deed("!through leading_square", "plugged"),
    "housing-off": deed("!cable_clamped !clips old_cable !headless"),
    "foam-on": deed("!through"),
    "fish-leader": deed("!through"),
    "suck-cord": deed("!through"),
    "lead-magnet": deed("!through"),
    "slide-over": deed("!cable_clamped !through old_cable", "through"),
    "slide-over-dropper": deed("!cable_clamped !through old_cable", "through"),
    "cable-away": deed("through", "!old_cable"),
    "liner-in": deed("!cable_clamped !through headless old_cable", "!old_cable"),
    "line-by-liner": deed("!through !old_cable !plugged", "through"),
    "leader-for-cable": deed("!cable_clamped !through headless old_cable", "!old_cable"),
    "join-coupler": deed("old_cut !old_wet !joint", "joint bitten"),
    "join-sleeve": deed("old_cut !old_wet !joint", "joint"),
    "join-spoke": deed("old_cut !old_wet !joint !plugged", "joint"),
    "join-leader": deed("!joint", "joint"),
    "try-joint": deed("joint !through"),
    "tie-on": deed("joint !through", "tied"),
    "feed-pushing": deed("joint !clips", "through"),
    "feed-easing": deed("joint !clips", "through"),
    "feed-leader": deed("joint", "through"),
    "joint-out": deed("joint through", "!joint"),
    "tie-out": deed("tied through", "!tied"),
    "cut-bitten": deed("!joint through", "!bitten"),
    "staying-lines": deed("through !joint"),
    "bb-clear": deed("through"),
    "cockpit-up": deed("!cockpit !joint", "cockpit"),
    "preload": deed("cockpit"),
    "rotor-on": deed("!wheel"),
    "adapter-on": deed("!wheel"),
    "caliper-on": deed("!wheel", "!caliper_centred"),
    "rim-caliper-on": deed(),
    "lever-on": deed(),
    "lay-line": deed("cockpit !joint"),
    "lay-suspension": deed("shock_noted"),
    "lay-dropper": deed("!post"),
    "trim-new": deed("cockpit !joint !bitten !power_matters"),
    "stow-wire": deed("!joint"),
    "inserts-on": deed("!joint !inserts !plugged_in"),
    "thread-on": deed("!joint"),
    "set-leading": deed("!joint !bitten cockpit !leading_closed", "leading_closed"),
    "set-trailing": deed("!joint !bitten cockpit !trailing_closed", "trailing_closed"),
    "join-leading": deed("!joint !bitten cockpit", "leading_closed"),
    "join-trailing": deed("!joint !bitten cockpit", "trailing_closed"),
    "housing-ends": deed("!joint"),
    "plug-in": deed("!joint !power", "plugged_in"),
    "function": deed("!power"),
    "inserts-back": deed("!inserts !joint", "inserts"),
    "clips-on": deed("cockpit !joint", "clips"),
    "motor-close": deed("!cover !power", "cover"),
    "pistons-back": deed("!pads !wheel", "!block"),
    "block-in": deed("!pads !wheel !block", "block"),
    "flush": deed("leading_closed trailing_closed block"),
    "bleed-glycol": deed("leading_closed trailing_closed !wheel cockpit !joint", "filled"),
    "bleed-mineral": deed("leading_closed trailing_closed !wheel cockpit !joint", "filled"),
    "bleed-silicone": deed("leading_closed trailing_closed !wheel cockpit !joint", "filled"),
    "bleed-named": deed("leading_closed trailing_closed !wheel cockpit !joint", "filled"),
    "leaks": deed("leading_closed trailing_closed filled block"),
    "clean": deed(makes="!block"),
    "pads-in": deed("!pads !block !wheel", "pads"),
    "wheel-in": deed("pads !block !wheel", "wheel"),
    "pump-up": deed(f"filled leading_closed trailing_closed {PRESSED_ON}"),
    "inner-cable": deed("clips !joint cockpit", "cable_clamped"),
    "clamp-cable": deed("clips !joint", "cable_clamped"),
    "cable-brake-set": deed(f"cable_clamped {PRESSED_ON}"),
    "align": deed(PRESSED_ON, "caliper_centred"),
    "gears": deed("cable_clamped wheel"),
    "cable-for-post": deed("!joint cockpit !post", "cable_in"),
    "post-in": deed("!post cable_in !clips", "post"),
    "cable-at-lever": deed("post cable_in", "cable_clamped"),
    "dropper-set": deed("post cable_clamped"),
    "torque": deed("wheel cockpit caliper_centred post", "torqued"),
    "route-check": deed("wheel clips"),
    "shock-back": deed("shock_noted", "!shock_noted"),
    "lever-firm": deed(f"filled leading_closed trailing_closed caliper_centred torqued {PRESSED_ON}", "firm"),
    "bar-close": deed("!bar_taped", "bar_taped"),
    "power-on": deed("!power clips", "power"),
    "ebike-on": deed("!power clips cover", "power"),
    "stand-test": deed(f"torqued {PRESSED_ON}", "stood"),
    "test": deed("stood torqued power clips cockpit bar_taped cover inserts", "tested"),
    "bed-in": deed("tested"),
    "ride-dry": deed("torqued wheel power clips cockpit bar_taped cover inserts post cable_clamped", "tested"),
    "waste": deed("!old_wet"),
    "hand-over": deed("tested"),
}

PUT_BACK = (
    "pads wheel !block power cover bar_taped cockpit inserts post clips caliper_centred cable_clamped !joint !tied"
    " !bitten !shock_noted tested"
)
"""What must hold when the hands let go."""


def walk(step_ids: list[str], start: Change) -> list[str]:
    """Everything the bench refuses, in order; empty for an order that can be worked.

    start : where the bicycle differs from AT_REST before the first step; `has_cable` off where no cable works after
    """
    state = {**AT_REST, "has_cable": True, "power_matters": False, **start}
    refused = []
    for step_id in step_ids:
        done = DEEDS[step_id]
        refused += [
            f"{step_id}: {_said(key, wanted)}" for key, wanted in done.needs.items() if state[key] is not wanted
        ]
        state.update(done.makes)
        state["bitten"] = state["bitten"] and state["leading_square"]  # where a fitting came on, the joint sits on that
    left = deed(PUT_BACK).needs
    if not state["has_cable"]:
        left.pop("cable_clamped")
    return refused + [f"at the end: {_said(key, wanted)}" for key, wanted in left.items() if state[key] is not wanted]


def _said(key: str, wanted: bool) -> str:
    return f"{key} must {'' if wanted else 'not '}hold"
