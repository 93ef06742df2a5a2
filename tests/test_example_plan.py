"""The example swap, from its two files to its plan: every figure worked by hand.

Neck, while drawing: a slot of 19 x 7 seen at 50 degrees through 1.6 mm is 19 cos 50 - 1.6 sin 50 = 10.987 long; less
the joint of 5.230 and the housing of 4.0 that is 1.757, or 0.879 for each of the two diameters to grow. Belly: 7 cos 10
- 1.6 sin 10 = 6.616. The stud of 2.6 in a bore of 2.1 swells the hose to sqrt(25 + 6.76 - 4.41) = 5.230; a sleeve of
4 x 6 over a hose of 5 is sqrt(36 - 16 + 25) = 6.708. Plane geometry; no outside source needed.
"""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from catalog import read_catalog, read_job
from planner import plan_as_record, plan_job

FOLDER = Path(__file__).parent / "catalog"


@pytest.fixture(scope="module")
def record() -> dict[str, Any]:
    catalog = read_catalog([FOLDER / "example_frame.yaml"])
    job = read_job(FOLDER / "example_job.yaml", catalog)
    return plan_as_record(plan_job(job=job, workshop=catalog.workshop))


def drawing_clearances(record: dict[str, Any], key: str) -> list[float]:
    return [c[key] for c in record["checks"] if c["rule"] == "port_clearance" and c["state"] == "drawing"]


def test_the_plan(record: dict[str, Any]) -> None:
    assert record["outcome"] == "fits"
    assert record["route"] == ["neck-left", "belly-left", "stay-front", "stay-rear"]
    assert (record["method"], record["feed_from"], record["cut_old_at"]) == ("stud-26", "from", "from")


def test_the_joint(record: dict[str, Any]) -> None:
    assert record["joint"]["diameter_mm"] == pytest.approx(5.230, abs=0.0005)
    assert record["joint"]["rigid_length_mm"] == 21


def test_the_holes_while_drawing(record: dict[str, Any]) -> None:
    assert drawing_clearances(record, "clearance_mm") == pytest.approx([0.879, 1.386, 1.270, 1.270], abs=0.005)
    assert drawing_clearances(record, "worst_clearance_mm") == pytest.approx([0.797, 1.237, 1.120, 1.120], abs=0.005)


def test_the_sleeve_is_stopped_first_at_the_belly(record: dict[str, Any]) -> None:
    first = next(r for r in record["rejected"] if r["method"] == "sleeve-46")
    assert (first["port"], first["feed_from"]) == ("belly-left", "from")
    assert first["size_mm"] == pytest.approx(6.708, abs=0.0005)
    assert first["available_mm"] == pytest.approx(6.616, abs=0.0005)


def test_the_spoke_is_told_as_a_plan_that_holds_nothing(record: dict[str, Any]) -> None:
    spoke = next(way for way in record["alternatives"] if way["feed_from"] == record["feed_from"])
    assert (spoke["method"], spoke["joint"]["holds_n"], spoke["remark"]) == ("spoke-20", 0, "holds_nothing")


def test_the_small_parts(record: dict[str, Any]) -> None:
    assert {part["id"]: part["quantity"] for part in record["parts"]} == {
        "olive-50": 1,
        "insert-21": 1,
        "washer-pair": 1,
    }


def test_the_tail_that_would_need_a_loop_leaves_the_length_to_be_marked(record: dict[str, Any]) -> None:
    """From the stay's rear end, heading back, to a caliper 28 mm further back and 38 mm higher.

    Two arcs of R = 37.5 that shift a line sideways by 38 go on by sqrt(4 R 38 - 38^2) = 65 mm: 28 do not hold that.
    The helicoidal arc takes 244.5 mm (free bends by brute force: 248.1) where the ends are 49.2 apart: 195 more.
    """
    lengths = record["lengths"]
    assert lengths["known"] is False
    assert [lengths[key] for key in ("need_mm", "cut_mm", "spare_mm")] == [None, None, None]
    assert lengths["supplied_mm"] > 0
    (tail,) = (leg for leg in lengths["legs"] if leg["run"] == "tail")
    assert [tail[key] for key in ("nominal_mm", "low_mm", "high_mm", "least_mm")] == [None] * 4
    assert tail["basis"] == "not known"
    assert all(leg["high_mm"] >= leg["least_mm"] > 0 for leg in lengths["legs"] if leg is not tail)
    (asked,) = (note for note in record["notes"] if "would need a loop" in note)
    assert asked.startswith("tail would need a loop, the shortest found 195 mm more than without (at rest)")
    assert "lay it in, then mark" in str([step["text"] for step in record["steps"]])


def test_with_the_caliper_further_back_the_supplied_hose_reaches() -> None:
    catalog = read_catalog([FOLDER / "example_frame.yaml"])
    job = read_job(FOLDER / "example_job.yaml", catalog)
    caliper = replace(job.frame.anchors["caliper-rear"], position_mm=(-470.0, 78.0, 48.0))
    frame = replace(job.frame, anchors={**job.frame.anchors, "caliper-rear": caliper})
    lengths = plan_as_record(plan_job(job=replace(job, frame=frame), workshop=catalog.workshop))["lengths"]
    assert lengths["known"] is True
    assert lengths["spare_mm"] == pytest.approx(lengths["supplied_mm"] - lengths["cut_mm"])
    assert lengths["spare_mm"] > 0
    assert lengths["cut_mm"] % 5 == 0


def test_steps_are_numbered_and_say_why(record: dict[str, Any]) -> None:
    assert [step["n"] for step in record["steps"]] == list(range(1, len(record["steps"]) + 1))
    assert all(step["text"] and step["why"] for step in record["steps"])
    assert "{" not in str([step["text"] for step in record["steps"]])
