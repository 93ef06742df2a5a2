"""How a clearance changes when one size changes: which diameters and which sizes of the opening hold it back."""

from dataclasses import dataclass
from math import hypot, radians

import numpy as np

from planner.geometry.openings.opening_depth import Array, depths_mm, edge_distances
from planner.geometry.openings.opening_shape import (
    SeenArcs,
    SeenOpening,
    SeenOutline,
    opening_sizes,
    see_opening,
    vary_opening,
)
from planner.geometry.packing.contacts import edge_of_side
from planner.geometry.packing.set_clearance import SetClearance
from planner.geometry.packing.walls import reach_of_arcs
from planner.parts import Opening

_TOUCHING_MM = 5e-4
_SIZE_STEP_MM = 1e-6
_ROUNDING = 1e-9
_SIDES = ((1, 0), (0, 1), (-1, 0), (0, -1), (1, 1), (-1, 1), (-1, -1), (1, -1))


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceSlopes:
    """Change of a clearance for each mm of a size.

    by_thing : for each diameter, in the order of the placement; below zero [mm/mm]
    by_size : for each size of the opening, by name [mm/mm]
    """

    by_thing: tuple[float, ...]
    by_size: dict[str, float]


def find_clearance_slopes(
    *, opening: Opening, tilt_deg: float, wall_thickness_mm: float, clearance: SetClearance
) -> ClearanceSlopes:
    """How a clearance changes with each size, from what holds its placement.

    The share each contact has in holding the placement is also the share of the clearance it would give, were it eased.
    Where more things touch than are needed, the shares are spread as evenly as they can be.

    Returns exact for small changes where just as many things touch as are needed.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    clearance : the clearance there, with its placement

    Source: The envelope theorem; textbook, from memory.
    """
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
    centres, sizes = np.array(clearance.placement.centres_mm), np.array(clearance.placement.diameters_mm)
    touching, normals, rows = _contacts(seen, centres, sizes, clearance.clearance_mm)
    shares = _shares(np.array(rows))
    by_thing = np.zeros(len(sizes))
    for things, share in zip(touching, shares, strict=True):
        by_thing[list(things)] -= share / 2
    by_size = {
        name: float(
            sum(
                share * gain
                for share, gain in zip(
                    shares[len(touching) - len(normals) :],
                    _reach_gains(opening, tilt_deg, wall_thickness_mm, name, normals),
                    strict=True,
                )
            )
        )
        for name in opening_sizes(opening)
    }
    return ClearanceSlopes(by_thing=tuple(by_thing.tolist()), by_size=by_size)


def _contacts(
    seen: SeenOpening, centres: Array, sizes: Array, growth: float
) -> tuple[list[tuple[int, ...]], list[tuple[float, float]], list[list[float]]]:
    """Which things touch each other or the edge, the edge's normals, and how each contact moves with the centres."""
    touching: list[tuple[int, ...]] = []
    normals: list[tuple[float, float]] = []
    rows: list[list[float]] = []
    wide = 2 * len(sizes) + 1
    for i in range(len(sizes)):
        for j in range(i + 1, len(sizes)):
            dx, dy = (centres[i] - centres[j]).tolist()
            apart = hypot(dx, dy)
            if apart - (sizes[i] + sizes[j]) / 2 - growth < _TOUCHING_MM:
                row = [0.0] * wide
                if apart > 0:  # else less than nothing in one heap: no way apart is better than another
                    row[2 * i : 2 * i + 2] = [dx / apart, dy / apart]
                    row[2 * j : 2 * j + 2] = [-dx / apart, -dy / apart]
                row[-1] = -1.0
                touching.append((i, j))
                rows.append(row)
    for i, (x, y) in enumerate(centres.tolist()):
        for depth, nx, ny in _edges_about(seen, x, y):
            if depth - (sizes[i] + growth) / 2 < _TOUCHING_MM:
                row = [0.0] * wide
                row[2 * i], row[2 * i + 1], row[-1] = -nx, -ny, -0.5
                touching.append((i,))
                normals.append((nx, ny))
                rows.append(row)
    return touching, normals, rows


def _edges_about(seen: SeenOpening, x: float, y: float) -> list[tuple[float, float, float]]:
    if isinstance(seen, SeenOutline):
        point = np.array([[x, y]])
        distance, away, _ = edge_distances(seen=seen, points_mm=point, margin_mm=0.0)
        told = [(float(d), -float(nx), -float(ny)) for d, (nx, ny) in zip(distance[0], away[0], strict=True)]
        if depths_mm(seen=seen, points_mm=point)[0] < 0:  # a thing of less than nothing, behind its nearest edge
            depth, nx, ny = min(told)
            return [(-depth, -nx, -ny)]
        return told
    return [edge_of_side(seen=seen, x_mm=x, y_mm=y, side=side)[:3] for side in _SIDES if _has_side(seen, side)]


def _has_side(seen: SeenArcs, side: tuple[int, int]) -> bool:
    if side[0] == 0:
        return seen.flat_x_mm > 0
    return seen.flat_y_mm > 0 if side[1] == 0 else True


def _shares(rows: Array) -> Array:
    """Shares, none below zero, for which the contacts' pulls on every centre cancel and the growth is held by one."""
    kept = np.arange(len(rows))
    target = np.zeros(rows.shape[1])
    target[-1] = -1.0
    while True:
        found = np.linalg.lstsq(rows[kept].T, target, rcond=1e-10)[0]
        if len(kept) <= 1 or found.min() >= -_ROUNDING:
            break
        kept = np.delete(kept, int(found.argmin()))
    shares = np.zeros(len(rows))
    shares[kept] = found
    return shares


def _reach_gains(
    opening: Opening, tilt_deg: float, wall_thickness_mm: float, name: str, normals: list[tuple[float, float]]
) -> list[float]:
    """How far the edge moves out along each normal for each mm of one of the opening's sizes."""
    if not normals:
        return []
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
    if isinstance(seen, SeenOutline):
        narrowing = float(np.cos(radians(tilt_deg)))
        return [hypot(nx * narrowing, ny) for nx, ny in normals]
    varied = vary_opening(opening=opening, changes_mm={name: _SIZE_STEP_MM})
    wider = see_opening(opening=varied, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
    assert isinstance(wider, SeenArcs)
    across = np.array(normals)
    change = reach_of_arcs(seen=wider, normals=across) - reach_of_arcs(seen=seen, normals=across)
    return [float(gain) for gain in change / _SIZE_STEP_MM]
