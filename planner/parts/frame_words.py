"""The words in which a frame is told: what moves, what is found where, and how a length was found."""

from enum import StrEnum


class MovesWith(StrEnum):
    """What a port or anchor rides on when it does not stand still; the bar stands for all that steers, the fork too."""

    BAR = "bar"
    REAR = "rear"


class FrameFeature(StrEnum):
    """What a frame is or has, as far as the hands must know it before they begin."""

    CARBON = "carbon"
    EBIKE = "ebike"
    MOTOR_IN_WAY = "motor_in_way"
    SUSPENSION = "suspension"
    STEEL = "steel"


class PortPlace(StrEnum):
    """Where on the bicycle a port lies, where other parts must come off to reach it."""

    HEADSET = "headset"
    BAR = "bar"
    FORK_LEG = "fork_leg"
    BOTTOM_BRACKET = "bottom_bracket"


class AnchorServes(StrEnum):
    """What the line that ends at an anchor works."""

    BRAKE = "brake"
    GEARS = "gears"
    DROPPER = "dropper"
    ELECTRICS = "electrics"


class AnchorPart(StrEnum):
    """The part of the bicycle that a line starts or ends at."""

    LEVER = "lever"
    SHIFTER = "shifter"
    CALIPER = "caliper"
    DERAILLEUR = "derailleur"


class RiderSide(StrEnum):
    """A side of the bicycle as the rider on it sees it."""

    LEFT = "left"
    RIGHT = "right"


class PortLooks(StrEnum):
    """Which way a hole looks at its tube."""

    SIDE = "side"
    """Through the tube's side: a line has to dive in."""

    ALONG = "along"
    """Along the tube, like a boss, a stay exit, a headset cover or a window between two cavities."""


class GeometryError(StrEnum):
    """How well the places of a frame were told, by how they were found."""

    CAREFUL = "careful"
    """With tape and rule, square on."""

    ORDINARY = "ordinary"
    """From a photograph with a rule in it, or in words and measures along the tubes."""

    ROUGH = "rough"
    """By eye: no length can be told from it."""


class LengthBy(StrEnum):
    """How somebody found the length of a run."""

    TAPE = "tape"
    WIRE = "wire"
    OLD_LINE = "old_line"
    DRAWING = "drawing"
    PHOTO = "photo"
