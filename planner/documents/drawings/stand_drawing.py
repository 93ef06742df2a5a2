"""How the bicycle is held for a step that says so: upright in the stand by its seat post, or on its wheels."""

from planner.documents.drawings.svg import INK, METAL, NEW_LINE, SOFT_INK, Picture, box, circle, polyline, sheet, text

HELD = {
    "stand": "Upright in the stand, held by the seat post",
    "stand-on-axles": "Upright on its wheels, or held by its axles",
}
"""What the steps say that settle how it is held, by their ids in the starter catalog; of others nothing is drawn."""

_WIDTH_MM, _GROUND_MM = 80.0, 54.0
_WHEEL_MM = 22.0


def draw_held(step_id: str) -> Picture | None:
    """The bicycle as a step holds it; None for a step that does not say.

    step_id : of the work order
    """
    if step_id not in HELD:
        return None
    is_in_stand = step_id == "stand"
    lift = 7.0 if is_in_stand else 0.0
    rear, front = ((x, _GROUND_MM - _WHEEL_MM / 2 - lift) for x in (24.0, 59.0))
    bb, seat, head = (39.0, rear[1] + 1), (35.0, rear[1] - 15), (53.0, rear[1] - 16)
    parts = [circle(hub, diameter_mm=_WHEEL_MM, stroke=SOFT_INK, width_mm=1.0) for hub in (rear, front)]
    for way in ((rear, bb, seat, rear), (bb, head, seat), (head, front)):
        parts.append(polyline(way, width_mm=1.1))
    post, bar = (33.2, seat[1] - 8.5), (52.2, head[1] - 4)
    parts += [polyline((seat, post), width_mm=1.1), polyline(((30, post[1]), (38, post[1])), width_mm=1.4)]
    parts += [polyline((head, bar, (58, bar[1] - 0.5)), width_mm=1.1)]
    parts.append(polyline(((4, _GROUND_MM), (74, _GROUND_MM)), stroke=SOFT_INK, width_mm=0.4))
    if is_in_stand:
        clamp = (33.0, seat[1] - 4.6)
        parts.append(polyline(((7, _GROUND_MM), (7, clamp[1] + 1), (31, clamp[1] + 1)), stroke=NEW_LINE, width_mm=1.4))
        parts.append(box((31, clamp[1] - 0.4), width_mm=6, height_mm=2.8, fill=METAL, stroke=INK))
    parts.append(text((_WIDTH_MM / 2, _GROUND_MM + 6), HELD[step_id], height_mm=3.0, anchor="middle"))
    return sheet(parts, width_mm=_WIDTH_MM, height_mm=_GROUND_MM + 10, title=HELD[step_id])
