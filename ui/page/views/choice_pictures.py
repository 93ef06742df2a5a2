"""The choices of a field drawn small below it, so that a word one does not know can be picked by its look."""

from collections.abc import Callable, Sequence

from planner import can_draw_choices, draw_choices
from ui.page.views.port_picker import pick_port, show_picture

ROW_MM, ROW_PX = 172.0, 720
"""Wide enough for six in a row."""
COLUMN_MM, COLUMN_PX = 114.0, 540
"""Four in a row, for a form that has something beside it."""
NARROW_MM = 85.0


def show_choices(
    words: Sequence[str],
    *,
    picked: str | None,
    key: str,
    when_picked: Callable[[str], None] | None = None,
    is_row: bool = False,
) -> None:
    """A drawing of each choice with its word, the chosen one framed; nothing where one of them has no drawing.

    when_picked : what a click in the picture does; None where it is only to be looked at
    is_row : whether the form has the whole width
    """
    if not can_draw_choices(words):
        return
    width_mm, most_px = (ROW_MM, ROW_PX) if is_row else (COLUMN_MM, COLUMN_PX)
    wide, narrow = (draw_choices(words, picked=picked or "", width_mm=mm) for mm in (width_mm, NARROW_MM))
    if when_picked is None:
        show_picture(wide, narrow=narrow, key=key, most_px=most_px)
    else:
        pick_port(wide, narrow=narrow, picked_port=picked or "", key=key, when_picked=when_picked, most_px=most_px)
