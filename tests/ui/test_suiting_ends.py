"""Which ends are offered to a line, and which is chosen where only one can be meant."""

from dataclasses import replace
from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, Catalog, read_catalog
from planner.parts import Anchor, AnchorServes, Frame, FrameEnd, LineKind, MovesWith
from ui.shared.suiting_ends import only_end, only_start, suiting_anchors

DEMO_FOLDER = Path(__file__).parents[2] / "demo_frames"


@pytest.fixture(scope="module")
def catalog() -> Catalog:
    return read_catalog([STARTER_FOLDER, *sorted(DEMO_FOLDER.glob("*.frame.yaml"))])


def _untold(frame: Frame) -> Frame:
    return replace(frame, anchors={key: replace(one, serves=None) for key, one in frame.anchors.items()})


def test_a_rear_brake_ends_at_the_caliper_and_gears_at_the_derailleur(catalog: Catalog) -> None:
    frame = catalog.frames["dorrimel-100"]
    brake, housing = catalog.brakes["pellow-m-rear"], catalog.lines["gear-housing-40"]
    assert suiting_anchors(frame, brake) == ("bar-right", "caliper-rear")
    assert suiting_anchors(frame, housing) == ("shifter-right", "derailleur-rear")
    assert only_start(frame, suiting_anchors(frame, brake)) == "bar-right"
    assert only_end(frame, brake, suiting_anchors(frame, brake), start="bar-right") == "caliper-rear"
    assert only_end(frame, housing, suiting_anchors(frame, housing), start="shifter-right") == "derailleur-rear"


def test_nothing_is_chosen_where_the_frame_does_not_tell_what_its_ends_serve(catalog: Catalog) -> None:
    frame, brake = _untold(catalog.frames["dorrimel-100"]), catalog.brakes["pellow-m-rear"]
    suiting = suiting_anchors(frame, brake)
    assert suiting == tuple(frame.anchors)
    assert only_start(frame, suiting) is None
    assert only_end(frame, brake, suiting, start="bar-right") is None


def test_an_end_that_is_told_to_serve_the_line_comes_before_those_that_are_not_told(catalog: Catalog) -> None:
    frame, brake = _untold(catalog.frames["dorrimel-100"]), catalog.brakes["pellow-m-rear"]
    told = replace(frame.anchors["caliper-rear"], serves=AnchorServes.BRAKE)
    frame = replace(frame, anchors={**frame.anchors, "caliper-rear": told})
    assert only_end(frame, brake, suiting_anchors(frame, brake), start="bar-right") == "caliper-rear"


@pytest.mark.parametrize(
    ("made_for", "chosen"), [(FrameEnd.REAR, "caliper-rear"), (FrameEnd.FRONT, "caliper-front"), (None, None)]
)
def test_the_end_follows_what_the_brake_is_made_for(
    made_for: FrameEnd | None, chosen: str | None, catalog: Catalog
) -> None:
    """A fork turns with the bar: its caliper is the low one of the ends that do."""
    frame = catalog.frames["dorrimel-100"]
    fork = Anchor(
        id="caliper-front",
        position_mm=(600.0, 70.0, 60.0),
        heading=(0.0, 0.0, 1.0),
        moves_with=MovesWith.BAR,
        serves=AnchorServes.BRAKE,
    )
    frame = replace(frame, anchors={**frame.anchors, fork.id: fork})
    brake = replace(catalog.brakes["pellow-m-rear"], made_for=made_for)
    suiting = suiting_anchors(frame, brake)
    assert only_start(frame, suiting) == "bar-right"
    assert only_end(frame, brake, suiting, start="bar-right") == chosen


def test_the_side_of_a_lever_is_never_guessed(catalog: Catalog) -> None:
    frame, brake = catalog.frames["quillfern-130"], catalog.brakes["dunmere-4-rear"]
    assert only_start(frame, suiting_anchors(frame, brake)) is None


@pytest.mark.parametrize("kind", list(LineKind))
def test_every_kind_of_line_suits_some_end_and_a_brake_hose_no_derailleur(kind: LineKind, catalog: Catalog) -> None:
    frame = catalog.frames["dorrimel-100"]
    line = replace(catalog.lines["gear-housing-40"], kind=kind)
    suiting = suiting_anchors(frame, line)
    assert suiting
    assert ("derailleur-rear" in suiting) == (kind not in (LineKind.HYDRAULIC_HOSE, LineKind.BRAKE_HOUSING))
