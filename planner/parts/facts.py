"""The facts of a plan that steps and cautions depend on, and the words of a plan that their sentences quote.

A step names facts under `when` and `unless`; `planner.plan.job_facts` says what sets each. There is no fact that
nothing sets.
"""

from enum import StrEnum

from planner.parts.fluids import FluidClass
from planner.parts.methods import MethodKind, PullWord


class Fact(StrEnum):
    """What may hold for one way of doing a job, by the word that files use."""

    HYDRAULIC = "hydraulic"
    MECHANICAL = "mechanical"
    ELECTRIC = "electric"
    SHIFT = "shift"
    DROPPER = "dropper"
    HOUSING = "housing"
    BARE_CABLE = "bare_cable"
    LINE_ONLY = "line_only"
    BRAKE = "brake"
    DISC = "disc"
    FRONT = "front"
    NEW_LEVER = "new_lever"
    NEW_CALIPER = "new_caliper"
    NEW_PADS = "new_pads"
    NEW_ROTOR = "new_rotor"
    NEEDS_ADAPTER = "needs_adapter"
    FLUID_GLYCOL = f"fluid:{FluidClass.GLYCOL}"
    FLUID_SILICONE = f"fluid:{FluidClass.SILICONE}"
    FLUID_MINERAL = f"fluid:{FluidClass.MINERAL}"

    OLD_HYDRAULIC = "old_hydraulic"
    OLD_MECHANICAL = "old_mechanical"
    OLD_ELECTRIC = "old_electric"
    OLD_HOUSING = "old_housing"
    OLD_FLUID_GLYCOL = f"old_fluid:{FluidClass.GLYCOL}"
    OLD_FLUID_SILICONE = f"old_fluid:{FluidClass.SILICONE}"
    OLD_FLUID_MINERAL = f"old_fluid:{FluidClass.MINERAL}"
    FLUID_DIFFERS = "fluid_differs"
    EMPTY_FRAME = "empty_frame"
    LEAVES_OLD_WAY = "leaves_old_way"
    KEEPS_OLD_BRAKE = "keeps_old_brake"
    HAS_STAYING_LINES = "has_staying_lines"
    INSERTS_OUT = "inserts_out"

    CARBON = "carbon"
    EBIKE = "ebike"
    MOTOR_IN_WAY = "motor_in_way"
    SUSPENSION = "suspension"
    STEEL = "steel"
    HAS_FOAM = "has_foam"
    HEADSET_ROUTE = "headset_route"
    BAR_ROUTE = "bar_route"
    FORK_LEG = "fork_leg"
    BB_PASS = "bb_pass"
    OUTSIDE_ONLY = "outside_only"

    JOINED = "joined"
    LEADER = "leader"
    METHOD_THREADED_COUPLER = f"method:{MethodKind.THREADED_COUPLER}"
    METHOD_SLEEVE_TUBE = f"method:{MethodKind.SLEEVE_TUBE}"
    METHOD_SPOKE_LINK = f"method:{MethodKind.SPOKE_LINK}"
    METHOD_LEADER_LINE = f"method:{MethodKind.LEADER_LINE}"
    METHOD_SUCTION_CORD = f"method:{MethodKind.SUCTION_CORD}"
    METHOD_MAGNET_TIP = f"method:{MethodKind.MAGNET_TIP}"
    METHOD_OVER_CABLE = f"method:{MethodKind.OVER_CABLE}"
    METHOD_LINER_TUBE = f"method:{MethodKind.LINER_TUBE}"
    METHOD_LAID_OUTSIDE = f"method:{MethodKind.LAID_OUTSIDE}"
    BITES = "bites"
    HOLDS_NOTHING = "holds_nothing"
    ADVICE_PUSH_ONLY = f"advice:{PullWord.PUSH_ONLY}"
    ADVICE_EASE_GENTLY = f"advice:{PullWord.EASE_GENTLY}"
    ADVICE_MAY_PULL = f"advice:{PullWord.MAY_PULL}"

    FITTED_LEADING = "fitted_leading"
    LEADING_END_BARE = "leading_end_bare"
    SETS_LEADING_FITTING = "sets_leading_fitting"
    SETS_TRAILING_FITTING = "sets_trailing_fitting"
    TRIMS = "trims"


class Placeholder(StrEnum):
    """What a sentence may quote from a plan, between braces."""

    METHOD = "method"
    FEED_END = "feed_end"
    CUT_END = "cut_end"
    FAR_END = "far_end"
    CUT_LENGTH_MM = "cut_length_mm"
    ROUTE = "route"
    LEADING_FITTING = "leading_fitting"
    TRAILING_FITTING = "trailing_fitting"
    NEW_LINE = "new_line"
    OLD_LINE = "old_line"
    JOINT_DIAMETER_MM = "joint_diameter_mm"
    HOLDS_N = "holds_n"
    EASE_UP_TO_N = "ease_up_to_n"
    INSERTS = "inserts"
    FRAME = "frame"
    FROM_ANCHOR = "from_anchor"
    TO_ANCHOR = "to_anchor"
    ROTOR = "rotor"
    ADAPTER = "adapter"
    BITTEN = "bitten"
    FINAL_LENGTH_MM = "final_length_mm"
