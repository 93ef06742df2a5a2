"""A figure typed beside a verdict: read with its unit, held against its field, and the same once it is written."""

import pytest

from catalog.open_catalog import catalog_of_text
from catalog.readings import frame_with_all
from planner import job_as_read
from planner.parts import Figure, FigureRead, Frame, LineFigure, ReadWhat
from tests.builders import make_job
from ui.shared.figure_text import read_figure, reading_of

FRAME = """
format: 1
frames:
  - id: plain
    name: Plain frame
    zones:
      - {id: tube, path: [[0, 0, 0], [-500, 0, 0]]}
    ports:
      - id: in
        label: Front
        joins: [outside, tube]
        at: [0, 0, 0]
        heading: [-1, 0, 0]
        wall: 1..2
        tilt: 20..50
        insert: {opening: {shape: round, diameter: 6}, removable: false}
      - {id: out, label: Rear, joins: [tube, outside], at: [-500, 0, 0], heading: [-1, 0, 0], wall: 1.5}
    anchors:
      - {id: start, at: [100, 0, 0], heading: [-1, 0, 0]}
      - {id: end, at: [-600, 0, 0], heading: [-1, 0, 0]}
    runs:
      - {id: to, zone: outside, between: [start, in]}
      - {id: through, zone: tube, between: [in, out], guide: {bore: 6.5, turn: 60, bend_radius: 40}}
      - {id: from, zone: outside, between: [out, end]}
"""
TYPED = {
    (ReadWhat.OPENING, "out"): "7,2",
    (ReadWhat.INSERT, "in"): "slot 8x6,1",
    (ReadWhat.LEAN, "in"): "35..40",
    (ReadWhat.WALL, "in"): "1,8 mm",
    (ReadWhat.LOOKS, "in"): "side",
    (ReadWhat.BORE, "through"): "6.1",
    (ReadWhat.BEND, "through"): "80",
    (ReadWhat.CAVITY, "tube"): "28..30",
}


def frame_of(text: str) -> tuple[Frame, dict[str, object]]:
    catalog = catalog_of_text("plain.frame.yaml", text)
    (entry,) = catalog.entries.frames
    return catalog.frames["plain"], entry.model_dump(mode="json", by_alias=True, exclude_unset=True)


@pytest.mark.parametrize(("what", "id"), TYPED)
def test_a_figure_counts_the_same_before_and_after_it_is_written(what: ReadWhat, id: str) -> None:
    import yaml

    frame, fields = frame_of(FRAME)
    typed = read_figure(Figure(what=what, id=id), TYPED[what, id], off_typed="0,05")
    assert typed.read is not None, typed.problem
    counted = job_as_read(make_job(frame), [typed.read]).frame
    reading = reading_of(typed, frame_id="plain", by="Mira", on="2031-03-14", tool="calipers")
    written, after = frame_of(yaml.safe_dump({"format": 1, "frames": [frame_with_all(fields, [reading])]}))
    assert counted == written
    assert counted != frame
    section = {ReadWhat.CAVITY: "zones"}.get(what, "runs" if id == "through" else "ports")
    (note,) = [place["readings"] for place in after[section] if "readings" in place]  # type: ignore[attr-defined]
    assert note[0]["what"] == what


def test_every_figure_of_a_frame_that_a_plan_may_ask_for_is_tried_above() -> None:
    assert {what for what, _ in TYPED} == set(ReadWhat) - {ReadWhat.LENGTH}


@pytest.mark.parametrize(
    ("what", "typed", "problem"),
    [
        (ReadWhat.LEAN, "95", "“95” was given; 0 to less than 90 degrees is allowed."),
        (ReadWhat.WALL, "0", "is allowed"),
        (ReadWhat.WALL, "1..400", "is allowed"),
        (ReadWhat.CAVITY, "wide", "is not a number such as 4.5 or 4,5"),
        (ReadWhat.CAVITY, "30..28", "is not a range"),
        (ReadWhat.BEND, "80..90", "is not a number"),
        (ReadWhat.OPENING, "some", "is not a shape"),
        (LineFigure.OLD_OUTER, "0.1", "is allowed"),
        (LineFigure.BORE, "2,1,1", "is not a number"),
        (LineFigure.JOINT_HOLDS, "-3", "is allowed"),
    ],
)
def test_what_cannot_be_read_or_is_out_of_range_says_so_and_is_not_counted(
    what: ReadWhat | LineFigure, typed: str, problem: str
) -> None:
    found = read_figure(Figure(what=what, id="in"), typed)
    assert found.read is None
    assert problem in found.problem


def test_a_hole_whose_error_is_no_number_is_not_counted() -> None:
    assert read_figure(Figure(what=ReadWhat.OPENING, id="in"), "7", off_typed="much").read is None
    assert read_figure(Figure(what=ReadWhat.OPENING, id="in"), "7", off_typed="-1").read is None


def test_the_corners_of_an_outline_keep_their_commas() -> None:
    found = read_figure(Figure(what=ReadWhat.OPENING, id="in"), "outline 0,0 12,0 6,9")
    assert found.read is not None
    assert found.told == "outline 0,0 12,0 6,9"


def test_a_figure_of_a_line_goes_into_no_frame() -> None:
    typed = read_figure(Figure(what=LineFigure.OLD_OUTER, id="old"), "5")
    assert isinstance(typed.read, FigureRead)
    with pytest.raises(ValueError, match="only a figure of a frame that was read goes into its entry"):
        reading_of(typed, frame_id="plain", by="Mira", on="2031-03-14", tool="")
