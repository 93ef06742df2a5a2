"""What is said wherever a hole is traced."""

from catalog import WITHIN_MM, TracedOutline

WITHIN_WORDS = (
    f"Where its edge is curved the outline lies up to {WITHIN_MM:g} mm inside it and never outside; "
    "straight sides are kept."
)
"""How true an outline is to what was drawn."""


def corners_typed(traced: TracedOutline) -> str:
    """The corners alone, as a field for them takes them."""
    return traced.typed.partition(" ")[2]
