"""The demo's jobs of several lines, planned and held against what was worked by hand beside them."""

import json
from contextlib import redirect_stdout
from functools import cache
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

from ui.commands.plan import run_plan

FOLDER = Path(__file__).parent.parent / "demo_frames"
FRAMES = [FOLDER / f"hardtail-{name}.frame.yaml" for name in ("wide", "narrow")]
NEAR_MM = 0.002

Record = dict[str, Any]


def expected_of(name: str) -> Record:
    """What was worked by hand."""
    return json.loads((FOLDER / "expected" / "visits" / f"{name}.json").read_text(encoding="utf-8"))


def answer_of(path: Path) -> tuple[int, Record]:
    """Exit status and record of a job, as the terminal gives them."""
    printed = StringIO()
    with redirect_stdout(printed):
        status = run_plan(path, FRAMES, as_json=True, pictures=None)
    return status, json.loads(printed.getvalue())


@cache
def answer_to(name: str) -> tuple[int, Record]:
    """The same of a demo job."""
    return answer_of(FOLDER / f"{name}.visit.yaml")


def test_every_visit_has_an_expected_plan() -> None:
    names = {path.name.removesuffix(".visit.yaml") for path in FOLDER.glob("*.visit.yaml")}
    assert names == {"cockpit-swap", "cockpit-no-order"}
    assert all(expected_of(name)["by_hand"] for name in names)


def test_the_order_found_works_and_its_reason_is_told() -> None:
    status, record = answer_to("cockpit-swap")
    expected = expected_of("cockpit-swap")
    assert (status, record["outcome"], record["proven"]) == (0, expected["outcome"], True)
    assert {line["id"]: line["outcome"] for line in record["lines"]} == expected["outcomes"]
    order = [step["line"] for step in record["order"]]
    for before, after, place, missing_mm in expected["forced"]:
        assert order.index(before) < order.index(after)
        (told,) = (row for row in record["forced"] if (row["before"], row["after"]) == (before, after))
        assert told["place"] == place
        assert told["missing_mm"] == pytest.approx(missing_mm, abs=NEAR_MM)
    assert len(record["forced"]) == len(expected["forced"])


@pytest.mark.parametrize("line_id", ["lamp", "rear-brake"])
def test_each_line_is_drawn_beside_what_lies_there_at_its_moment(line_id: str) -> None:
    _, record = answer_to("cockpit-swap")
    (line,) = (line for line in record["lines"] if line["id"] == line_id)
    (check,) = (
        check
        for check in line["checks"]
        if (check["rule"], check["state"], check["run"]) == ("guide_bore", "drawing", "stay-run")
    )
    told = [check["clearance_mm"], check["worst_clearance_mm"]]
    assert told == pytest.approx(expected_of("cockpit-swap")["left_guide_while_drawing"][line_id], abs=NEAR_MM)


def test_planning_one_by_one_in_file_order_stops_at_the_lamp(tmp_path: Path) -> None:
    stop = expected_of("cockpit-swap")["in_file_order_stops"]
    single = tmp_path / "lamp.job.yaml"
    single.write_text(
        "format: 1\n"
        "job:\n"
        "  {id: lamp, frame: dorrimel-120, from: bar-right, to: caliper-rear, old: none, new: {line: wire-25},\n"
        "   staying: [{line: hose-55x25, through: [shared-neck, bb-window, stay-exit]},\n"
        "             {line: gear-housing-40, through: [shared-neck, bb-window-right, stay-exit-right]}]}\n",
        encoding="utf-8",
    )
    status, record = answer_of(single)
    assert (status, record["outcome"]) == (3, "no_fit")
    missed = [
        row["clearance_mm"]
        for row in record["rejected"]
        if (row["run"], row["method"]) == (stop["run"], "leader-cord") and row["rule"] == "guide_bore"
    ]
    assert missed[:1] == pytest.approx([stop["clearance_mm"]], abs=NEAR_MM)


def test_where_no_order_works_the_proof_and_the_ways_out_are_told() -> None:
    status, record = answer_to("cockpit-no-order")
    expected = expected_of("cockpit-no-order")
    assert (status, record["outcome"], record["order"], record["lines"]) == (3, expected["outcome"], [], [])
    missing_mm = expected["conflict"].pop("missing_mm")
    assert record["conflict"].pop("missing_mm") == pytest.approx(missing_mm, abs=NEAR_MM)
    assert record["conflict"] == expected["conflict"]
    told = [[way["kind"], way["line"], way["place"], way["by_mm"]] for way in record["ways_out"]]
    assert told == expected["ways_out"]


def test_shared_work_stands_once_and_what_hangs_on_the_order_in_it() -> None:
    _, record = answer_to("cockpit-swap")
    rows = [(step["id"], tuple(step["lines"])) for step in record["steps"]]
    everybody = tuple(step["line"] for step in record["order"])
    assert rows.count(("read-first", everybody)) == 1
    assert [lines for step_id, lines in rows if step_id == "stand"] == [everybody]
    cords = [n for n, row in enumerate(rows) if row == ("feed-leader", ("lamp",))]
    cut = [n for n, (step_id, lines) in enumerate(rows) if step_id == "cut-old" and lines == ("rear-brake",)]
    assert cords < cut
    assert [step["n"] for step in record["steps"]] == list(range(1, len(rows) + 1))
    minutes = sum(sum(step["minutes"]) / 3 for step in record["steps"])
    assert minutes <= record["totals"]["minutes"]
    one_by_one = sum(
        sum((s["least_min"] + s["likely_min"] + s["most_min"]) / 3 for s in line["steps"]) for line in record["lines"]
    )
    assert minutes < one_by_one
