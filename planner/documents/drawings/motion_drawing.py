"""How a stiff piece dips through a hole in a tube wall and lies down: a strip of poses, true to one scale."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, cos, hypot, radians, sin

from planner.documents.drawings.drawing_marks import badge, cut_wall
from planner.documents.drawings.hole_drawing import outcome_head
from planner.documents.drawings.hole_outline import Flat
from planner.documents.drawings.label_places import wrapped
from planner.documents.drawings.side_view import SCALES
from planner.documents.drawings.svg import (
    INK,
    NEW_LINE,
    SOFT_INK,
    TUBE,
    PaperPoint,
    PaperView,
    Picture,
    box,
    group,
    polyline,
    sheet,
    text,
)
from planner.errors import ImpossibleDimensionError
from planner.geometry.rigid.wall_opening import gap_along_tube_mm
from planner.verdicts import Check, Pose, Thing

MARGIN_MM = 5.0
TYPE_MM = 2.9
GAP_MM = 3.0
FEWEST_POSES, MOST_POSES = 5, 7


def draw_motion(
    check: Check, *, label: str = "", pose_count: int = 6, width_mm: float = 180.0, is_on_paper: bool = True
) -> Picture:
    """The proof that a stiff piece gets through a wall, as a strip of poses; the tube lies below its wall.

    Without a motion in the check, the piece is drawn beside the hole it does not get through. Where hole or tube were
    not measured, that is said.

    check : of a stiff piece and a wall, with its motion where there is one
    label : the hole's name for people; "" to call it by its id
    pose_count : how many moments are shown, 5 to 7
    width_mm : of the paper; the height follows
    is_on_paper : whether it keeps its size; a screen shows it at any, so that no scale told would be true

    Raises ImpossibleDimensionError when fewer than 5 or more than 7 poses are asked for, and ValueError for a check
        that is not of a piece and a wall.
    """
    if not FEWEST_POSES <= pose_count <= MOST_POSES:
        raise ImpossibleDimensionError(name="pose_count", value=pose_count, unit="poses", rule="must be 5 to 7")
    piece, room = check.thing, check.room
    if piece is None or room is None:
        raise ValueError(f"the check {check.rule} is of no piece and no wall")
    name = label or check.port_id or "hole"
    parts, y = _head(check, piece, name, width_mm=width_mm)
    if room.opening is None or room.corridor_mm is None:
        return sheet(parts, width_mm=width_mm, height_mm=y + 3, title=f"{name}: not measured")
    gap_mm = gap_along_tube_mm(
        opening=room.opening, piece_diameter_mm=piece.diameter_mm, wall_thickness_mm=room.wall_thickness_mm
    )
    shown = poses_to_show(check.motion or (), count=pose_count, wall_thickness_mm=room.wall_thickness_mm)
    beside = Pose(x_mm=0.0, y_mm=-room.wall_thickness_mm - piece.diameter_mm, tilt_deg=0.0)
    sizes = {"length_mm": piece.rigid_length_mm, "diameter_mm": piece.diameter_mm}
    corners = [piece_corners(pose, **sizes) for pose in shown or (beside,)]
    strip, y, scale_words = _strip(
        shown or (beside,), corners, gap_mm, room.wall_thickness_mm, room.corridor_mm, top_mm=y, width_mm=width_mm
    )
    if is_on_paper:
        strip.append(text((MARGIN_MM, y + 2), scale_words, height_mm=TYPE_MM, fill=SOFT_INK))
        y += 5
    return sheet([*parts, *strip], width_mm=width_mm, height_mm=y, title=f"{name}: how the stiff piece gets through")


def poses_to_show(motion: Sequence[Pose], *, count: int, wall_thickness_mm: float) -> tuple[Pose, ...]:
    """Moments of a motion, evenly spread from where the piece reaches the wall to its end.

    motion : the whole motion; it goes evenly from each pose to the next
    count : how many moments
    wall_thickness_mm : of the wall; what happens far outside it is left out
    """
    if not motion:
        return ()
    ends_inside = motion[-1].y_mm > motion[0].y_mm
    ordered = list(motion) if ends_inside else list(reversed(motion))
    near = [number for number, pose in enumerate(ordered) if pose.y_mm > -wall_thickness_mm - 18]
    ordered = ordered[max(near[0] - 1, 0) :] if near else ordered
    chosen = _evenly(ordered, count)
    return tuple(chosen if ends_inside else reversed(chosen))


def piece_corners(pose: Pose, *, length_mm: float, diameter_mm: float) -> tuple[Flat, ...]:
    """The four corners of the piece, x along the tube, y into the cavity.

    pose : middle and tilt of the piece
    """
    along = (cos(radians(pose.tilt_deg)) * length_mm / 2, sin(radians(pose.tilt_deg)) * length_mm / 2)
    across = (-sin(radians(pose.tilt_deg)) * diameter_mm / 2, cos(radians(pose.tilt_deg)) * diameter_mm / 2)
    return tuple(
        (pose.x_mm + a * along[0] + b * across[0], pose.y_mm + a * along[1] + b * across[1])
        for a, b in ((1, 1), (1, -1), (-1, -1), (-1, 1))
    )


def _evenly(motion: Sequence[Pose], count: int) -> list[Pose]:
    steps = [_step_size(a, b) for a, b in pairwise(motion)]
    whole = sum(steps)
    if whole == 0:
        return [motion[0]] * count
    chosen = []
    for number in range(count):
        left = whole * number / (count - 1)
        for (a, b), step in zip(pairwise(motion), steps, strict=True):
            if left <= step + 1e-9 and step > 0:
                chosen.append(_between(a, b, left / step))
                break
            left -= step
        else:
            chosen.append(motion[-1])
    return chosen


def _step_size(a: Pose, b: Pose) -> float:
    return hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm) + abs(b.tilt_deg - a.tilt_deg) / 3


def _between(a: Pose, b: Pose, share: float) -> Pose:
    return Pose(
        x_mm=a.x_mm + (b.x_mm - a.x_mm) * share,
        y_mm=a.y_mm + (b.y_mm - a.y_mm) * share,
        tilt_deg=a.tilt_deg + (b.tilt_deg - a.tilt_deg) * share,
    )


def _head(check: Check, piece: Thing, name: str, *, width_mm: float) -> tuple[list[str], float]:
    parts, y = outcome_head(check.outcome, name, width_mm=width_mm)
    size = f"{piece.rigid_length_mm:.1f} mm long, {piece.diameter_mm:.2f} mm thick"
    told = f"A stiff piece {size}, through the wall and down into the tube"
    if not check.motion:
        told += "; no motion was found"
    rows = wrapped(told, height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM)
    parts += [text((MARGIN_MM, y + k * 4.2), row, height_mm=TYPE_MM, fill=SOFT_INK) for k, row in enumerate(rows)]
    return parts, y + len(rows) * 4.2


def _strip(
    poses: Sequence[Pose],
    corners: Sequence[tuple[Flat, ...]],
    gap_mm: float,
    wall_mm: float,
    corridor_mm: float,
    *,
    top_mm: float,
    width_mm: float,
) -> tuple[list[str], float, str]:
    points = [point for piece in corners for point in piece]
    left = min(*(x for x, _ in points), -gap_mm / 2) - 5
    right = max(*(x for x, _ in points), gap_mm / 2) + 5
    outer = min(*(y for _, y in points), -wall_mm) - 2
    inner = corridor_mm + max(wall_mm, 1.0)
    columns = min(len(poses), 3 if width_mm >= 150 else 2)
    room_mm = (width_mm - 2 * MARGIN_MM - (columns - 1) * GAP_MM) / columns
    divisor = next((s for s in SCALES if right - left <= room_mm * s), SCALES[-1])
    height_mm = (inner - outer) / divisor + 6
    parts = []
    for number, (pose, piece) in enumerate(zip(poses, corners, strict=True)):
        row, column = divmod(number, columns)
        origin = (MARGIN_MM + column * (room_mm + GAP_MM), top_mm + row * (height_mm + GAP_MM))
        # depth counts downwards, so it enters the view as a height below nought
        view = PaperView(left_mm=left, top_mm=-outer, scale_ratio=1 / divisor, origin_mm=origin)
        parts.append(_moment(number + 1, pose, piece, view, (left, right), gap_mm, wall_mm, corridor_mm, inner))
    return parts, top_mm + ceil(len(poses) / columns) * (height_mm + GAP_MM), f"Scale 1:{divisor:g}"


def _moment(
    number: int,
    pose: Pose,
    piece: tuple[Flat, ...],
    view: PaperView,
    sides: tuple[float, float],
    gap_mm: float,
    wall_mm: float,
    corridor_mm: float,
    inner: float,
) -> str:
    thickness_mm = max(wall_mm, 0.4)
    (x1, y1), (x2, y2) = view.at(sides[0], thickness_mm), view.at(sides[1], -corridor_mm)
    parts = [box((x1, y1), width_mm=x2 - x1, height_mm=y2 - y1, fill=TUBE)]
    for start, end in ((sides[0], -gap_mm / 2), (gap_mm / 2, sides[1])):
        parts.append(_wall(view.at(start, thickness_mm), view.at(end, 0.0)))
    parts.append(_wall(view.at(sides[0], -corridor_mm), view.at(sides[1], -inner)))
    shape = [view.at(x, -y) for x, y in piece]
    parts.append(polyline(shape, fill=NEW_LINE, stroke=INK, width_mm=0.25, is_closed=True))
    caption = view.at(sides[0], -inner)
    parts.append(badge((caption[0] + 2.1, caption[1] + 3), str(number), diameter_mm=4.0))
    tilt = f"{pose.tilt_deg:.0f}° to the tube".replace("-0°", "0°")
    parts.append(text((caption[0] + 5.4, caption[1] + 4), tilt, height_mm=TYPE_MM))
    return group(parts, role="moment", name=str(number))


def _wall(corner: PaperPoint, opposite: PaperPoint) -> str:
    return cut_wall(corner, width_mm=opposite[0] - corner[0], height_mm=opposite[1] - corner[1])
