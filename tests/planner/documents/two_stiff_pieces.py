"""A job in which two stiff pieces of one length go through the same walls: a banjo, and what draws it by going over it.

Both are 21 mm stiff, the banjo with the starter's figures and 12.5 mm thick, the joint made up over it 12.9 mm.
"""

from dataclasses import replace

from catalog import read_catalog
from planner.parts import Insert, Job, LineEnd, NewLine, Port, RoundOpening, SlotOpening, Workshop
from tests.builders import make_frame, make_job, make_port, make_run
from tests.work_orders.job_kinds import LEADER

JOINT_MM, BANJO_MM, STIFF_MM = 12.9, 12.5, 21.0


def make_two_piece_job(*, insert_is_left_in: bool = False) -> tuple[Job, Workshop]:
    """The job, and a workshop that has one leader only."""
    catalog = read_catalog()
    hose = catalog.workshop.lines["hose-55x23"]
    banjo = replace(catalog.workshop.fittings["banjo-55x23"], joint_diameter_mm=JOINT_MM, joint_holds_n=30.0)
    ports = (
        _slot("in", joins=("outside", "tube"), has_insert=insert_is_left_in),
        _slot("out", joins=("tube", "outside"), has_insert=False, position_mm=(-500.0, 0.0, 20.0)),
    )
    runs = (
        make_run("to", "start", "in", zone_id="outside"),
        make_run("through", "in", "out"),
        make_run("from", "out", "end", zone_id="outside"),
    )
    job = make_job(
        make_frame(*ports, runs=runs),
        old=None,
        new=NewLine(line=hose, from_end=LineEnd(), to_end=LineEnd(fitting=banjo, is_fitted=True)),
        may_remove_inserts=not insert_is_left_in,
    )
    return job, replace(catalog.workshop, methods=(LEADER,))


def _slot(port_id: str, *, has_insert: bool, **changes: object) -> Port:
    insert = Insert(opening=RoundOpening(diameter_mm=14.0, tolerance_mm=0.1), is_removable=True)
    return make_port(
        port_id,
        opening=SlotOpening(length_mm=30.0, width_mm=14.0, tolerance_mm=0.1),
        heading=(0.0, 0.0, -1.0),
        insert=insert if has_insert else None,
        **{"position_mm": (0.0, 0.0, 20.0), **changes},
    )
