"""How well a frame's places were told: said by the frame, else by the shop, else read off how they were told."""

import pytest

from planner.parts import GeometryError
from tests.catalog.samples import catalog_of, problems_in
from tests.catalog.test_frame_without_places import FRAME

PLACED = {
    "numbers": "at: [400, 25, 500], heading: [-0.4, -0.7, -0.6]",
    "words": "on: {from_start: 35, side: left}",
    "nothing": "looks: side",
}


def frame_text(how: str, *, frame: str = "", shop: str = "") -> str:
    """The frame with its first port told in some way."""
    told = FRAME.replace("- {id: tube, bore: 40}", "- {id: tube, bore: 40, path: [[420, 0, 540], [40, 0, 55]]}")
    told = told.replace("tilt: 40, looks: side", f"tilt: 40, {PLACED[how]}")
    told = told.replace("  - id: bench\n", f"  - id: bench\n    {frame}\n" if frame else "  - id: bench\n")
    return told + (f"shop: {{{shop}}}\n" if shop else "")


@pytest.mark.parametrize(
    ("how", "frame", "shop", "error"),
    [
        ("numbers", "", "", None),
        ("nothing", "", "", None),
        ("words", "", "", GeometryError.ORDINARY),
        ("words", "", "geometry_error: careful", GeometryError.CAREFUL),
        ("words", "geometry_error: careful", "geometry_error: ordinary", GeometryError.CAREFUL),
        ("numbers", "", "geometry_error: ordinary", GeometryError.ORDINARY),
        ("numbers", "geometry_error: rough", "", GeometryError.ROUGH),
    ],
)
def test_who_says_how_well(how: str, frame: str, shop: str, error: GeometryError | None) -> None:
    assert catalog_of(frame_text(how, frame=frame, shop=shop)).frames["bench"].geometry_error is error


def test_the_shop_tells_the_errors_themselves() -> None:
    errors = catalog_of(frame_text("numbers")).workshop.limits.place_errors
    careful, ordinary = errors[GeometryError.CAREFUL], errors[GeometryError.ORDINARY]
    assert (careful.port_mm, careful.anchor_mm, careful.heading_deg) == (3, 5, 5)
    assert (ordinary.port_mm, ordinary.anchor_mm, ordinary.heading_deg) == (6, 10, 10)
    assert GeometryError.ROUGH not in errors


def test_another_word_is_refused() -> None:
    (problem,) = problems_in(frame_text("numbers", frame="geometry_error: sloppy"))
    assert (problem.field, problem.given) == ("geometry_error", "'sloppy' was given")
    assert "careful, ordinary, rough" in problem.allowed
