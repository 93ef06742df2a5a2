"""One case against all looks at once: which manners get through, and which way each takes."""

from dataclasses import dataclass

import numpy as np

from planner.table.ground import Ground
from planner.table.manner_table import MannerTable
from planner.table.pieces import Array
from planner.table.steps import Steps
from planner.table.worst import Worst, worst_of_three


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """What every manner with a joint finds, a row each as in the manner table.

    diameter, length : its worst answers at each step
    on_way : its outcome on each way
    outcomes : of its best way, its ends and joint counted
    columns : for each way, the steps on it
    """

    diameter: Worst
    length: Worst
    on_way: Array
    outcomes: Array
    columns: tuple[Array, ...]


def pass_all(*, table: MannerTable, steps: Steps, ground: Ground) -> Passed:
    """Every manner on every way."""
    place_of = {state: column for column, state in enumerate(steps.states)}
    columns = tuple(np.array([place_of[state] for state in way], dtype=np.intp) for way in ground.ways)
    joint, fitting, line = table.joint, table.fitting, table.line
    drawn, stiff = steps.diameter, steps.length
    diameter = worst_of_three(drawn.rows(joint), drawn.rows(fitting), steps.ride_diameter.rows(line))
    length = worst_of_three(stiff.rows(joint), stiff.rows(fitting), steps.ride_length.rows(line))
    at_step = np.maximum(diameter.outcomes, length.outcomes)
    on_way = np.stack([at_step[:, some].max(axis=1) for some in columns], axis=1)
    best = on_way.min(axis=1)
    return Passed(
        diameter=diameter,
        length=length,
        on_way=on_way,
        outcomes=np.maximum(table.general, best),
        columns=columns,
    )
