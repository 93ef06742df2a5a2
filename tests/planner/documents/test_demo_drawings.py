"""The side views of the invented jobs: real frames are fuller than the one made by hand."""

import itertools
from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, read_catalog, read_job
from planner.documents.drawings.route_drawing import draw_route
from planner.plan.plan_builder import plan_job
from tests.planner.documents.drawing_samples import boxes_of_words

DEMO_FOLDER = Path(__file__).parents[3] / "demo_frames"


@pytest.mark.parametrize("path", sorted(DEMO_FOLDER.glob("*.job.yaml")), ids=lambda path: path.name.split(".")[0])
def test_words_neither_overlap_nor_leave_the_paper(path: Path) -> None:
    catalog = read_catalog([STARTER_FOLDER, *sorted(DEMO_FOLDER.glob("*.frame.yaml"))])
    job = read_job(path, catalog)
    plan = plan_job(job=job, workshop=catalog.workshop)
    for width_mm in (180, 95):
        boxes = boxes_of_words(draw_route(plan, job.frame, width_mm=width_mm, line=job.new.line).svg)
        for (first, a), (second, b) in itertools.combinations(boxes, 2):
            assert a.shared_with(b) < 0.05, f"{first!r} lies on {second!r} at {width_mm} mm"
        for words, area in boxes:
            assert area.left_mm >= 0, words
            assert area.right_mm <= width_mm, words
