"""`lineplan table`: rows in a file, what they come to on the screen, and everything that is wrong at once."""

import csv
from pathlib import Path

import pytest

from tests.ui.shop_samples import DEMO, done, flat, refused

TRAIL, TOURING = DEMO / "trail.frame.yaml", DEMO / "touring.frame.yaml"
TWO_BRAKES = """\
format: 1
brakes:
  - {id: own-wet, name: Own wet, end: rear, fluid: mineral_oil, line: hose-50x21, supplied_length: 1900,
     lever: {fitting: nut-m8-50x21, fitted: true}, caliper: {fitting: banjo-50x21, mount: post}}
  - {id: own-short, name: Own short, end: rear, fluid: mineral_oil, line: hose-50x21, supplied_length: 900,
     lever: {fitting: nut-m8-50x21, fitted: true}, caliper: {fitting: banjo-50x21, mount: post}}
"""
CASE = """\
format: 1
job: {id: trail-as-it-is, frame: quillfern-130, from: bar-right, to: caliper-rear, old: {brake: wexcombe-2-rear}}
"""


@pytest.fixture
def brakes(tmp_path: Path) -> Path:
    path = tmp_path / "own.yaml"
    path.write_text(TWO_BRAKES, encoding="utf-8")
    return path


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def test_a_frame_and_a_job_without_new_against_own_brakes(brakes: Path, tmp_path: Path) -> None:
    case, to = tmp_path / "as-it-is.yaml", tmp_path / "table.csv"
    case.write_text(CASE, encoding="utf-8")
    told = done("table", "--frames", TRAIL, "--frames", case, "--frames", TOURING, "--brakes", brakes, "--to", to)
    rows = rows_of(to)
    assert [(row["case"], row["brake"]) for row in rows if row["frame"] == "quillfern-130"] == [
        ("trail-as-it-is", "own-wet"),
        ("trail-as-it-is", "own-short"),
    ]
    wet, short = rows[:2]
    assert (wet["outcome"], wet["way"], wet["cut_old_at"]) == ("fits", "fits", wet["feed_from"])
    assert (short["outcome"], short["way"], short["rule"]) == ("no_fit", "fits", "supplied_length")
    assert float(short["spare_mm"]) == 900 - float(short["cut_mm"])
    assert f"{len(rows)} pairs of frame and brake" in flat(told)


def test_a_bare_frame_is_asked_about_the_end_named(brakes: Path, tmp_path: Path) -> None:
    done("table", "--frames", TRAIL, "--brakes", brakes, "--to", tmp_path / "rear.csv")
    assert {row["to"] for row in rows_of(tmp_path / "rear.csv")} == {"caliper-rear"}
    words = refused("table", "--frames", TRAIL, "--brakes", brakes, "--ends", "front", "--to", tmp_path / "front.csv")
    assert "frame quillfern-130: no runs lead from a lever to a front brake" in words


def test_everything_wrong_is_told_at_once(tmp_path: Path) -> None:
    case, brakes = tmp_path / "case.yaml", tmp_path / "brakes.yaml"
    case.write_text(CASE.replace("bar-right", "bar-wrong").replace("old:", "new: {brake: none-such}, old:"), "utf-8")
    brakes.write_text(TWO_BRAKES.replace("line: hose-50x21", "line: hose-99", 1), encoding="utf-8")
    words = refused("table", "--frames", TRAIL, "--frames", case, "--brakes", brakes, "--to", tmp_path / "t.csv")
    assert "there is no anchor bar-wrong" in words
    assert "new is not a field here, a job without new, for the table tries every brake" in words
    assert "hose-99" in words


def test_files_without_frames_or_brakes_are_refused(brakes: Path, tmp_path: Path) -> None:
    words = refused("table", "--frames", brakes, "--brakes", TRAIL, "--to", tmp_path / "t.csv")
    assert f"{brakes}:1: file: there are no frames in it" in words
    assert f"{TRAIL}:" in words


def test_a_table_that_is_there_is_not_written_over(brakes: Path, tmp_path: Path) -> None:
    to = tmp_path / "t.csv"
    to.write_text("mine", encoding="utf-8")
    words = refused("table", "--frames", TRAIL, "--brakes", brakes, "--to", to)
    assert "t.csv" in words
    assert to.read_text(encoding="utf-8") == "mine"
