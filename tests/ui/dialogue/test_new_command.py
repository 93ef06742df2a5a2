"""`lineplan new` with its input from a pipe: what is written where, and that nothing is left half written."""

from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from catalog import read_catalog
from tests.ui.shop_samples import DEMO, done, refused
from ui.terminal import app

TWO_HOLES = ["Blue bike", "", "", "2", "down 35 left", "slot 18x7", "", "", "", "", "down 600 left", "7.4"]
REST = ["", "", "", "", "", "", "", ""]
"""Enter through what is left of the frame: tilt, looks, wall, rubber, guide, lengths, mount, clamp."""
JOB = ["yes", "", "wexcombe 2 rear", "dunmere", "", "", "", ""]


def _typed(lines: list[str], *words: object) -> Any:
    told = "".join(f"{line}\n" for line in lines)
    result = CliRunner().invoke(app, ["new", *map(str, words)], input=told, env={"COLUMNS": "160"})
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def test_a_frame_and_a_job_from_nothing_to_a_plan(tmp_path: Path) -> None:
    file = tmp_path / "blue.yaml"
    result = _typed([*TWO_HOLES, *REST, *JOB], "frame", file)
    assert result.exit_code == 0, result.output
    assert "nothing wrong found" in result.output
    assert (
        "Still unknown: the tilt at hole 1 (Down tube, 35 mm from its upper end, left), taken as the usual 20..45"
        in result.output
    )
    assert "It fits" in result.output
    assert sorted(path.name for path in tmp_path.iterdir()) == ["blue-bike.job.yaml", "blue.yaml"]
    done("check", tmp_path)
    again = done("plan", tmp_path / "blue-bike.job.yaml", "-c", file)
    assert again.splitlines()[:3] == result.output[result.output.index("╭") :].splitlines()[:3]


@pytest.mark.parametrize("count", range(len(TWO_HOLES) + len(REST)))
def test_wherever_the_input_ends_nothing_is_written(count: int, tmp_path: Path) -> None:
    file = tmp_path / "blue.yaml"
    result = _typed([*TWO_HOLES, *REST][:count], "frame", file)
    assert (result.exit_code, list(tmp_path.iterdir())) == (2, [])
    assert result.output.endswith("Stopped: nothing was written.\n")


def test_once_the_frame_is_written_an_end_of_input_leaves_it(tmp_path: Path) -> None:
    result = _typed([*TWO_HOLES, *REST, *JOB[:3]], "frame", tmp_path / "blue.yaml")
    assert result.exit_code == 0
    assert "No job was written; the frame is." in result.output
    assert [path.name for path in tmp_path.iterdir()] == ["blue.yaml"]


def test_no_job_is_asked_for_where_none_is_wanted(tmp_path: Path) -> None:
    result = _typed([*TWO_HOLES, *REST, "no"], "frame", tmp_path / "blue.yaml")
    assert (result.exit_code, [path.name for path in tmp_path.iterdir()]) == (0, ["blue.yaml"])


def test_back_explain_and_a_wrong_answer(tmp_path: Path) -> None:
    lines = ["back", "Red bike", "back", "Blue bike", "?", "seven", "", *TWO_HOLES[2:4], "down 35", *TWO_HOLES[4:]]
    result = _typed([*lines, *REST, "no"], "frame", tmp_path / "blue.yaml")
    assert result.exit_code == 0, result.output
    assert "This is the first question." in result.output
    assert "Layouts differ in their usual bar" in result.output
    assert "“seven”: allowed: 1 hardtail, 2 single pivot" in result.output
    assert "“down 35”: on which side" in result.output
    assert [*read_catalog([tmp_path / "blue.yaml"]).frames] == ["blue-bike"]


def test_a_file_that_is_there_is_refused_before_anything_is_asked(tmp_path: Path) -> None:
    file = tmp_path / "mine.yaml"
    file.write_text("format: 1\n", encoding="utf-8")
    assert "it is there already" in refused("new", "frame", file)
    assert "it is there already" in refused("new", "job", file)
    assert "a name that ends in .yaml or .yml" in refused("new", "frame", tmp_path / "mine.txt")
    result = _typed([*TWO_HOLES, *REST, "no"], "frame", file, "--replace")
    assert result.exit_code == 0, result.output
    assert "blue-bike" in file.read_text(encoding="utf-8")


def test_a_job_of_its_own_on_a_frame_of_several(tmp_path: Path) -> None:
    file = tmp_path / "swap.yaml"
    lines = ["quillfern", "rear right", "wexcombe 2 rear", "dunmere", "", "gear housing 4: neck-left", "", ""]
    frames = [word for name in ("trail", "hardtail") for word in ("-c", DEMO / f"{name}.frame.yaml")]
    result = _typed(lines, "job", file, *frames)
    assert result.exit_code == 0, result.output
    assert "from: bar-right" in file.read_text(encoding="utf-8")
    assert "line: gear-housing-40" in file.read_text(encoding="utf-8")


def test_a_catalog_without_a_frame_says_how_to_make_one(tmp_path: Path) -> None:
    result = _typed(["mine"], "job", tmp_path / "swap.yaml", "--store", tmp_path / "none.sqlite")
    assert "`lineplan new frame` makes one" in result.output
    assert (result.exit_code, list(tmp_path.iterdir())) == (2, [])


def test_without_a_file_frame_and_job_go_into_the_store(tmp_path: Path) -> None:
    store = tmp_path / "shop.sqlite"
    result = _typed([*TWO_HOLES, *REST, *JOB], "frame", "--store", store, "--by", "Mira")
    assert result.exit_code == 0, result.output
    assert "Kept: frame blue-bike" in result.output
    assert "It fits" in result.output
    assert [path.name for path in tmp_path.iterdir()] == ["shop.sqlite"]
    assert "blue-bike-dunmere-4-rear" in done("jobs", "--store", store)
    assert "tilt: 20..45   # default" in _exported(store, tmp_path / "out")


def _exported(store: Path, folder: Path) -> str:
    done("store", "export", folder, "--store", store)
    return (folder / "blue-bike.frame.yaml").read_text(encoding="utf-8")


def test_a_frame_like_one_of_the_catalog(tmp_path: Path) -> None:
    file = tmp_path / "like.yaml"
    lines = ["Mine", "slot 19x7", "", "", "", "", "", "goes 6.4", "", "", "-", "12", "1.3", "no"]
    result = _typed(lines, "frame", file, "--like", "quillfern-130", "-c", DEMO / "trail.frame.yaml")
    assert result.exit_code == 0, result.output
    text = file.read_text(encoding="utf-8")
    assert "tilt: 45   # as on quillfern-130" in text
    mine, theirs = (read_catalog([path]).frames for path in (file, DEMO / "trail.frame.yaml"))
    frame, other = mine["mine"], theirs["quillfern-130"]
    assert (frame.runs, frame.anchors, frame.zones, frame.rear) == (other.runs, other.anchors, other.zones, other.rear)
    neck, belly, front, rear = frame.ports.values()
    assert neck.opening != other.ports["neck-left"].opening
    assert belly.opening == other.ports["belly-left"].opening
    assert front.opening is not None
    assert front.opening.is_at_least
    assert rear.opening is None
    assert (rear.tilt_deg, rear.wall_thickness_mm) == (12, 1.3)
    assert "the opening of Down tube, lower left boss, taken as on quillfern-130" in result.output


def test_a_frame_like_one_that_is_not_there(tmp_path: Path) -> None:
    told = refused("new", "frame", tmp_path / "like.yaml", "--like", "quillfern", "-c", DEMO / "trail.frame.yaml")
    assert told == "no frame quillfern in the catalog; did you mean quillfern-130?\n"
