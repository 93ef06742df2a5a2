"""A check carries what it checked: pieces are told apart by it, however alike their sizes are."""

import json
import re
from collections import Counter
from dataclasses import replace

import pytest

from catalog.store_records import as_record, from_record
from planner import plan_as_record, plan_job
from planner.documents.drawings.motion_drawing import draw_motion
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Check, InsertPlace, Outcome, Room, ThingKind
from tests.planner.documents.two_stiff_pieces import BANJO_MM, JOINT_MM, STIFF_MM, make_two_piece_job
from ui.shared.plan_pictures import pictures_of


@pytest.fixture(scope="module")
def plan() -> RoutingPlan:
    job, workshop = make_two_piece_job()
    return plan_job(job=job, workshop=workshop)


def _of_walls(plan: RoutingPlan) -> list[Check]:
    return [check for check in plan.checks if check.motion]


def test_two_pieces_of_one_length_are_each_asked_with_their_own_diameter(plan: RoutingPlan) -> None:
    told = Counter((check.thing.kind, round(check.thing.diameter_mm, 3)) for check in _of_walls(plan) if check.thing)
    assert plan.outcome is Outcome.FITS
    assert told == {(ThingKind.JOINT, JOINT_MM): 2, (ThingKind.FITTING, BANJO_MM): 2}
    assert {check.size_mm for check in _of_walls(plan)} == {STIFF_MM}


def test_every_check_of_a_place_has_a_key_of_its_own(plan: RoutingPlan) -> None:
    keys = Counter(check.key for check in plan.checks if check.port_id or check.run_id)
    assert max(keys.values()) == 1


def test_each_piece_is_drawn_with_its_own_thickness() -> None:
    job, workshop = make_two_piece_job()
    pictures = pictures_of(plan_job(job=job, workshop=workshop), job)
    told = Counter(
        re.findall(r"21\.0 mm long, (\d+\.\d+) mm thick", " ".join(picture.svg for picture in pictures.values()))
    )
    assert told == {"12.90": 2, "12.50": 2}


def test_an_insert_left_in_takes_nothing_from_the_hole_a_stiff_piece_is_drawn_in() -> None:
    """The check takes the frame's slot of 30 mm, the insert being soft; so must the picture."""
    job, workshop = make_two_piece_job(insert_is_left_in=True)
    (entry,) = (
        check
        for check in _of_walls(plan_job(job=job, workshop=workshop))
        if check.port_id == "in" and check.thing and check.thing.kind is ThingKind.FITTING
    )
    assert entry.room is not None
    assert entry.room.insert is InsertPlace.IN
    without = replace(entry, room=replace(entry.room, insert=InsertPlace.NONE))
    assert draw_motion(entry).svg == draw_motion(without).svg
    assert entry.room.opening == SlotOpening(length_mm=30.0, width_mm=14.0, tolerance_mm=0.1)


@pytest.mark.parametrize(
    "opening",
    [
        RoundOpening(diameter_mm=7, tolerance_mm=0.1),
        SlotOpening(length_mm=9, width_mm=7, tolerance_mm=0.1),
        OvalOpening(length_mm=9, width_mm=7, tolerance_mm=0.1),
        BoxOpening(length_mm=9, width_mm=7, corner_radius_mm=1, tolerance_mm=0.1),
        OutlineOpening(points_mm=((0, 0), (9, 0), (4, 8)), tolerance_mm=0.1),
    ],
    ids=lambda opening: opening.shape,
)
def test_a_room_is_read_back_with_the_shape_it_was_kept_with(opening: Opening) -> None:
    room = Room(opening=opening)
    assert from_record(Room, json.loads(json.dumps(as_record(room)))) == room


def test_a_plan_is_read_back_with_all_that_was_checked(plan: RoutingPlan) -> None:
    again = from_record(RoutingPlan, json.loads(json.dumps(as_record(plan))))
    assert again == plan
    assert plan_as_record(again) == plan_as_record(plan)
