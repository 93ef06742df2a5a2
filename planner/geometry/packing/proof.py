"""The proof that three or more round things do not fit: every way they could lie is ruled out, one by one.

Branch and bound over the directions in which the things lie from each other. While the direction from one thing to
another is known to lie in a narrow fan, "at least so far apart" is all but a straight line, and the greatest growth
follows from a linear program. A fan whose program stays below the target is ruled out by the program's multipliers,
which prove it whatever the rounding; any other is split.
"""

from dataclasses import dataclass
from math import inf, pi

import numpy as np
from numpy.typing import NDArray

from planner.geometry.openings.opening_depth import Array
from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening
from planner.geometry.packing.step import Links, State, make_links, make_wall_rows, step_towards
from planner.geometry.packing.walls import Walls, walls_about
from planner.geometry.packing.work import Work

_MOST_CASES = 2000
_MOST_THINGS_ON_LADDER = 4
_JUST_BELOW_MM = 1e-6
_ROUGH_WALLS = 12
_LADDER = ((0.01, 48), (0.05, 24), (0.2, 12))
"""How much above what was found to try, and with how many walls for each quarter of a turn."""
_BATCH = 128
_STEPS = 30
_GAP_KEPT_RATIO = 0.3
_SAFETY_MM = 1e-9
_LEAST_GAP_MM = 1e-7
_TOUCHING_MM = 1e-4
_FREE_SLACK_MM = 100.0
_WIDEST_RAD = 3.1


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fans:
    """Between which two directions each pair's second thing may lie from its first; one row a case. [rad]"""

    low: Array
    high: Array

    def only(self, kept: NDArray[np.bool_] | slice) -> "_Fans":
        return _Fans(low=self.low[kept], high=self.high[kept])


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rows:
    """What the fans ask of the linear program, three lines a pair: far enough apart, and inside either side."""

    directions: Array
    apart_mm: Array
    gains: Array


def find_growth_bound(*, seen: SeenOpening, diameters_mm: tuple[float, ...], found_mm: float, work: Work) -> float:
    """The lowest growth that can be ruled out with a bounded number of cases, when things were found not to fit.

    First "any growth at all", which decides; where that stays open, little by little more than what was found.

    Returns proven; infinite where nothing could be ruled out. [mm]

    seen : the opening as the line sees it; an outline is taken as its hull
    diameters_mm : outer diameters, largest first
    found_mm : the growth of the best placement found, below zero
    work : what the proof may cost

    Source: branch and bound by linear programs, as told above; derived.
    """
    count = len(diameters_mm)
    ladder = _LADDER if count <= _MOST_THINGS_ON_LADDER else ()
    for above, walls_per_quarter in ((-found_mm - _JUST_BELOW_MM, _ROUGH_WALLS), *ladder):
        growth = float(found_mm + above)
        if above > 0 and is_growth_ruled_out(
            seen=seen,
            diameters_mm=diameters_mm,
            growth_mm=growth,
            walls_per_quarter=walls_per_quarter,
            work=work,
        ):
            return growth
    return inf


def is_growth_ruled_out(
    *, seen: SeenOpening, diameters_mm: tuple[float, ...], growth_mm: float, walls_per_quarter: int, work: Work
) -> bool:
    """Whether it is proven that the diameters cannot grow by this much.

    The walls it reckons with lie outside the opening, never inside, so nothing that fits is ruled out.

    False where it is not proven, which says nothing.

    seen : the opening as the line sees it; an outline is taken as its hull
    diameters_mm : outer diameters, largest first
    growth_mm : the growth to be ruled out; below zero, what is missing
    walls_per_quarter : straight walls that stand for each quarter of a turn, about arcs
    work : what the proof may cost; where it runs out, the answer is left open

    Source: A. H. Land, A. G. Doig, "An automatic method of solving discrete programming problems", Econometrica 28
    (1960) 497-520, for branch and bound; from memory. The fans are plane geometry.
    """
    sizes = np.array(diameters_mm)
    first, second = np.triu_indices(len(sizes), 1)
    walls = walls_about(seen, walls_per_quarter)
    program = _Program(
        walls=walls,
        sizes=sizes,
        links=make_links(first=np.repeat(first, 3), second=np.repeat(second, 3), thing_count=len(sizes)),
        apart=(sizes[first] + sizes[second]) / 2,
        target=growth_mm,
        work=work,
        spread=_even_ring(len(sizes)) * float(walls.reach_mm.min()) / 2,
    )
    waiting = [_first_fans(seen, diameters_mm, first, second)]
    cases = 0
    while waiting:
        fans = waiting.pop()
        if len(fans.low) > _BATCH:
            waiting.append(fans.only(slice(_BATCH, None)))
            fans = fans.only(slice(_BATCH))
        cases += len(fans.low)
        if cases > _MOST_CASES or work.is_out:
            return False
        is_open, centres = program.cases_left(fans)
        if is_open.any():
            split = _split(fans.only(is_open), centres[is_open], first, second, program.apart + growth_mm)
            if split is None:
                return False
            waiting.append(split)
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class _Program:
    walls: Walls
    sizes: Array
    links: Links
    apart: Array
    target: float
    work: Work
    spread: Array

    def cases_left(self, fans: _Fans) -> tuple[NDArray[np.bool_], Array]:
        """Which cases are not ruled out, and where their things lay."""
        count = len(fans.low)
        is_open, centres = np.ones(count, dtype=bool), np.tile(self.spread, (count, 1, 1))
        rows = self._rows_of(fans)
        going = np.arange(count)
        wall_rows = make_wall_rows(self.walls.normals)
        state = self._first_state(rows, centres)
        for _ in range(_STEPS):
            slack = self._room(rows, state.centres_mm) - self._gains(rows) * state.growth_mm[:, None]
            gap = (slack * state.push).sum(axis=1)
            self.work.spend(slack.size)
            try:
                state = step_towards(
                    state=state,
                    links=self.links,
                    directions=rows.directions,
                    gains=rows.gains,
                    walls=wall_rows,
                    slack_mm=slack,
                    target=_GAP_KEPT_RATIO * gap / slack.shape[1],
                )
            except np.linalg.LinAlgError:  # nothing more is learnt about these cases as they stand
                break
            centres[going] = state.centres_mm
            is_out = self._bound(rows, state) < self.target - _SAFETY_MM
            is_open[going[is_out]] = False
            undecided = ~is_out & (state.growth_mm < self.target) & (gap > _LEAST_GAP_MM)
            if not undecided.any():
                break
            going, state = going[undecided], state.only(undecided)
            rows = _Rows(
                directions=rows.directions[undecided], apart_mm=rows.apart_mm[undecided], gains=rows.gains[undecided]
            )
        return is_open, centres

    def _rows_of(self, fans: _Fans) -> _Rows:
        count, pairs = fans.low.shape
        width = fans.high - fans.low
        middle = (fans.high + fans.low) / 2
        near = np.where(width < _WIDEST_RAD, np.cos(np.minimum(width, pi) / 2), 0.0)
        is_fan = width <= pi
        directions, apart, gains = (
            np.zeros((count, pairs, 3, 2)),
            np.zeros((count, pairs, 3)),
            np.zeros((count, pairs, 3)),
        )
        for line, (angle, is_used) in enumerate(
            ((middle, near > 0), (fans.low + pi / 2, is_fan), (fans.high - pi / 2, is_fan))
        ):
            directions[..., line, 0] = np.where(is_used, -np.cos(angle), 0.0)
            directions[..., line, 1] = np.where(is_used, -np.sin(angle), 0.0)
        apart[..., 0] = np.where(near > 0, self.apart * near, -_FREE_SLACK_MM)
        apart[..., 1:] = np.where(is_fan, -self.target, -_FREE_SLACK_MM)[..., None]
        gains[..., 0] = near
        gains[..., 1:] = is_fan[..., None]
        return _Rows(
            directions=directions.reshape(count, -1, 2),
            apart_mm=apart.reshape(count, -1),
            gains=gains.reshape(count, -1),
        )

    def _room(self, rows: _Rows, centres: Array) -> Array:
        """What each row of the program leaves at no growth, lines first."""
        between = centres[:, self.links.first] - centres[:, self.links.second]
        link = (rows.directions * between).sum(-1) - rows.apart_mm
        wall = self.walls.reach_mm - centres @ self.walls.normals.T - self.sizes[:, None] / 2
        return np.concatenate([link, wall.reshape(len(centres), -1)], axis=1)

    def _gains(self, rows: _Rows) -> Array:
        walls = np.full((len(rows.gains), len(self.sizes) * len(self.walls.reach_mm)), 0.5)
        return np.concatenate([rows.gains, walls], axis=1)

    def _first_state(self, rows: _Rows, centres: Array) -> State:
        room, gains = self._room(rows, centres), self._gains(rows)
        most = np.where(gains > 0, room / np.where(gains > 0, gains, 1.0), np.inf).min(axis=1)
        spare = float(self.walls.reach_mm.max())
        growth = most - spare
        push = spare / room.shape[1] / (room - gains * growth[:, None])
        return State(centres_mm=centres, growth_mm=growth, push=push, link_count=rows.gains.shape[1])

    def _bound(self, rows: _Rows, state: State) -> Array:
        """No growth above this, by the multipliers alone: a sum of the program's lines in which the centres all but
        cancel, what is left of them taken at its worst."""
        link, wall = state.link_push, state.wall_push
        scale = (link * rows.gains).sum(1) + wall.sum((1, 2)) / 2
        fixed = -(link * rows.apart_mm).sum(1) + (wall * (self.walls.reach_mm - self.sizes[:, None] / 2)).sum((1, 2))
        pull = np.einsum("sl,slk,ln->snk", link, rows.directions, self.links.sign) - wall @ self.walls.normals
        return np.asarray((fixed + np.abs(pull).sum((1, 2)) * self.walls.furthest_mm) / scale)


def _even_ring(count: int) -> Array:
    angles = 2 * pi * np.arange(count) / count
    return np.stack([np.cos(angles), np.sin(angles)], axis=1)


def _first_fans(
    seen: SeenOpening, sizes: tuple[float, ...], first: NDArray[np.intp], second: NDArray[np.intp]
) -> _Fans:
    """All directions but those that repeat others: mirror images, turns of a round hole, equal things swapped."""
    low, high = np.zeros((1, len(first))), np.full((1, len(first)), 2 * pi)
    if isinstance(seen, SeenArcs):
        high[0, 0] = 0.0 if seen.is_round else pi / 2
        if seen.is_round and len(first) > 1:
            high[0, 1] = pi
    for pair, (i, j) in enumerate(zip(first.tolist(), second.tolist(), strict=True)):
        if sizes[i] == sizes[j] and i >= 2:
            low[0, pair], high[0, pair] = -pi / 2, pi / 2
    return _Fans(low=low, high=high)


def _split(
    fans: _Fans, centres: Array, first: NDArray[np.intp], second: NDArray[np.intp], apart: Array
) -> _Fans | None:
    """Each case cut in two or more at the pair that overlaps most; None where one case overlaps nowhere."""
    distance = np.sqrt(((centres[:, first] - centres[:, second]) ** 2).sum(-1))
    overlap = np.where(fans.high > fans.low, apart - distance, -np.inf)
    worst = overlap.argmax(axis=1)
    cases = np.arange(len(worst))
    if (overlap[cases, worst] < _TOUCHING_MM).any():
        return None
    low, high = fans.low[cases, worst], fans.high[cases, worst]
    parts = np.where(high - low > pi, 4, 2)
    owner = np.repeat(cases, parts)
    part = np.concatenate([np.arange(count) for count in parts])
    new_low, new_high = fans.low[owner].copy(), fans.high[owner].copy()
    width = ((high - low) / parts)[owner]
    rows = np.arange(len(owner))
    new_low[rows, worst[owner]] = low[owner] + part * width
    new_high[rows, worst[owner]] = low[owner] + (part + 1) * width
    return _Fans(low=new_low, high=new_high)
