"""Many starts grown at once: round things pushed apart and off the walls while all their diameters grow together.

Pairs are turned to their new directions after each step. How two things, or a thing and an edge of an outline, stand to
each other bends away from its tangent, so a step that the tangents allow never makes things overlap: every state on the
way is a true placement against its walls.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

import numpy as np

from planner.geometry.openings.opening_depth import Array, edge_distances
from planner.geometry.openings.opening_shape import SeenOpening, SeenOutline
from planner.geometry.packing.step import Links, State, WallRows, make_links, make_wall_rows, step_towards
from planner.geometry.packing.walls import walls_about
from planner.geometry.packing.work import Work

_GAP_KEPT_RATIO = 0.2
_FIRST_ROOM_RATIO = 0.3
_LEAST_ROOM_MM = 0.5
_ROOM_NEAR_END_MM = 0.02
_MOST_STEPS = 40
_MOST_LATE_STEPS = 3
_STEPS_FOR_ALL = 3
_SHARE_TO_DROP = 0.8
_DEPTH_USED_RATIO = 0.9


def grow_from_starts(
    *,
    seen: SeenOpening,
    is_hull: bool,
    diameters_mm: Array,
    starts_mm: Array,
    gap_mm: float,
    walls_per_quarter: int,
    is_near_end: bool = False,
    hopeless_mm: float,
    work: Work,
) -> State:
    """Grow round things from many starts at once until nothing gives any more.

    Returns where each start ended, with what limits it.

    seen : the opening as the line sees it
    is_hull : whether the opening is the same as the straight walls about it, or near enough for a start
    starts_mm : starts by things by (x, y), no two things in one place; inside an outline that has dents
    gap_mm : how near to the end of its growth each start is brought
    walls_per_quarter : straight walls that stand for each quarter of a turn, about arcs
    is_near_end : whether the starts are ends of an earlier search, so that little room is given up for turning
    work : what the search may cost; where it runs out, it stops at the step it has reached
    hopeless_mm : starts that promise so much less than the best has are dropped, where they are many

    Source: Plane geometry; the method is that of `step_towards`.
    """
    links = _links_between_all(len(diameters_mm))
    first, second = links.first, links.second
    apart_mm = (diameters_mm[first] + diameters_mm[second]) / 2
    walls_at = _walls_by_hull(seen, walls_per_quarter) if is_hull else _walls_by_edges(seen)
    state, gains, late = None, None, 0
    for step in range(_MOST_STEPS):
        centres = starts_mm if state is None else state.centres_mm
        between = centres[:, first] - centres[:, second]
        distance = np.sqrt(np.add.reduce(between * between, axis=-1))
        walls, depth = walls_at(centres)
        room = np.concatenate(
            [distance - apart_mm, (depth - diameters_mm[:, None] / 2).reshape(len(centres), -1)], axis=1
        )
        if gains is None:
            gains = np.concatenate([np.ones(len(first)), np.full(room.shape[1] - len(first), 0.5)])
        if state is None:
            state = _first_state(centres, room, gains, len(first), is_near_end)
        slack = room - gains * state.growth_mm[:, None]
        gap = np.add.reduce(slack * state.push, axis=1)
        work.spend(slack.size)
        is_best_done = gap[state.growth_mm.argmax()] < gap_mm
        late += is_best_done
        if gap.max() < gap_mm or late > _MOST_LATE_STEPS or work.is_out:
            break
        if step > _STEPS_FOR_ALL:
            is_hopeful = state.growth_mm + gap > state.growth_mm.max() - hopeless_mm
            if np.count_nonzero(is_hopeful) < _SHARE_TO_DROP * len(gap):
                state, walls = state.only(is_hopeful), walls.only(is_hopeful)
                parts = (between, distance, gap, slack, depth)
                between, distance, gap, slack, depth = (part[is_hopeful] for part in parts)
        moved = step_towards(
            state=state,
            links=links,
            directions=between / distance[..., None],
            gains=gains[: len(first)],
            walls=walls,
            slack_mm=slack,
            target=np.maximum(_GAP_KEPT_RATIO * gap, gap_mm / 3) / slack.shape[1],
        )
        state = moved if is_hull else _short_of_edges(state, moved, depth.min(axis=2))
    assert state is not None
    return state


@lru_cache(maxsize=64)
def _links_between_all(count: int) -> Links:
    first, second = np.triu_indices(count, 1)
    return make_links(first=first, second=second, thing_count=count)


def _first_state(centres: Array, room: Array, gains: Array, link_count: int, is_near_end: bool) -> State:
    spare = _ROOM_NEAR_END_MM if is_near_end else max(_FIRST_ROOM_RATIO * float(np.ptp(centres)), _LEAST_ROOM_MM)
    growth = (room / gains).min(axis=1) - spare
    push = spare / room.shape[1] / (room - gains * growth[:, None])
    return State(centres_mm=centres, growth_mm=growth, push=push, link_count=link_count)


def _short_of_edges(before: State, after: State, depth: Array) -> State:
    """The step cut short where a thing would reach an edge with its centre: one grown to less than nothing could jump
    over it."""
    shift = np.hypot(*np.moveaxis(after.centres_mm - before.centres_mm, -1, 0))
    with np.errstate(divide="ignore"):
        share = np.minimum(1.0, (_DEPTH_USED_RATIO * depth / shift).min(axis=1))
    return replace(
        after,
        centres_mm=before.centres_mm + share[:, None, None] * (after.centres_mm - before.centres_mm),
        growth_mm=before.growth_mm + share * (after.growth_mm - before.growth_mm),
    )


WallsAt = Callable[[Array], tuple[WallRows, Array]]


def _walls_by_hull(seen: SeenOpening, per_quarter: int) -> WallsAt:
    hull = walls_about(seen, per_quarter)
    rows, across = _rows_of_hull(seen, per_quarter), hull.normals.T
    return lambda centres: (rows, hull.reach_mm - centres @ across)


@lru_cache(maxsize=1024)
def _rows_of_hull(seen: SeenOpening, per_quarter: int) -> WallRows:
    return make_wall_rows(walls_about(seen, per_quarter).normals)


def _walls_by_edges(seen: SeenOpening) -> WallsAt:
    assert isinstance(seen, SeenOutline)

    def walls_at(centres: Array) -> tuple[WallRows, Array]:
        distance, inwards, _ = edge_distances(seen=seen, points_mm=centres.reshape(-1, 2), margin_mm=0.0)
        shape = (*centres.shape[:2], -1)
        return make_wall_rows(-inwards.reshape(*shape, 2)), distance.reshape(shape)

    return walls_at
