"""The terminal commands as a person or a program calls them: streams, exit status, and the contract of the object."""

import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from planner import NOT_THESE
from ui.terminal import app

CATALOG = Path(__file__).parent.parent / "catalog"
FRAME, JOB = CATALOG / "example_frame.yaml", CATALOG / "example_job.yaml"


@dataclass(frozen=True)
class Answer:
    """What a command gave back."""

    returncode: int
    stdout: str
    stderr: str


def lineplan(*words: object) -> Answer:
    """The command in this process, its two streams kept apart; a traceback counts as one on the error stream."""
    result = CliRunner().invoke(app, [str(word) for word in words])
    crash = "" if result.exception is None or isinstance(result.exception, SystemExit) else "Traceback"
    return Answer(returncode=result.exit_code, stdout=result.stdout, stderr=result.stderr + crash)


def lineplan_alone(*words: object) -> Answer:
    """The command in a process of its own."""
    command = [sys.executable, "-c", "from ui.terminal import main; main()", *map(str, words)]
    run = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    return Answer(returncode=run.returncode, stdout=run.stdout, stderr=run.stderr)


@pytest.fixture(scope="module")
def planned() -> dict[str, Any]:
    run = lineplan_alone("plan", JOB, "--catalog", FRAME, "--json")
    assert run.returncode == 0, run.stderr
    assert run.stderr == ""
    return json.loads(run.stdout)


def test_the_object_has_every_field_of_the_contract(planned: dict[str, Any]) -> None:
    top = "outcome route method feed_from cut_old_at joint checks lengths rejected parts steps cautions measure_first"
    assert set(top.split()) <= set(planned)
    assert {"diameter_mm", "rigid_length_mm", "holds_n", "drag_n"} <= set(planned["joint"])
    check = "rule state port run with size_mm clearance_mm worst_clearance_mm fit_class outcome"
    assert all(set(check.split()) <= set(entry) for entry in planned["checks"])
    assert {"legs", "need_mm", "cut_mm", "supplied_mm", "spare_mm"} <= set(planned["lengths"])
    assert all({"run", "nominal_mm", "low_mm", "high_mm"} <= set(leg) for leg in planned["lengths"]["legs"])
    rejected = "method feed_from port run rule size_mm clearance_mm"
    assert all(set(rejected.split()) <= set(entry) for entry in planned["rejected"])
    assert all({"id", "quantity"} <= set(part) for part in planned["parts"])
    assert all({"n", "text", "why", "cautions"} <= set(step) for step in planned["steps"])


def test_the_plan_for_people_says_the_verdict_first() -> None:
    run = lineplan("plan", JOB, "--catalog", FRAME, "--all")
    assert run.returncode == 0
    assert "It fits" in run.stdout.split("\n\n")[0]
    for words in ("Down tube, upper left", "0.88", "lay it in, then mark", "What can hurt", NOT_THESE):
        assert words in run.stdout


def test_pictures_are_written_whole(tmp_path: Path) -> None:
    run = lineplan("plan", JOB, "--catalog", FRAME, "--pictures", tmp_path / "out")
    assert run.returncode == 0, run.stderr
    names = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert "rear-brake-swap-route.svg" in names
    assert len(names) > 4
    assert any("wall_entry" in name for name in names)
    assert all(path.read_text(encoding="utf-8").rstrip().endswith("</svg>") for path in (tmp_path / "out").iterdir())


def test_a_file_where_the_pictures_should_go_is_refused_before_anything_is_printed(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("no folder", encoding="utf-8")
    run = lineplan("plan", JOB, "--catalog", FRAME, "--pictures", tmp_path / "out")
    assert (run.returncode, run.stdout) == (2, "")
    assert f"{tmp_path / 'out'} is a file, the name of a folder" in run.stderr
    assert "Traceback" not in run.stderr


def test_a_picture_that_cannot_take_its_name_is_refused_before_anything_is_printed_or_written(tmp_path: Path) -> None:
    out = tmp_path / "out"
    (out / "rear-brake-swap-route.svg").mkdir(parents=True)
    (out / "rear-brake-swap-lengths.svg").write_text("mine", encoding="utf-8")
    run = lineplan("plan", JOB, "--catalog", FRAME, "--pictures", out)
    assert (run.returncode, run.stdout) == (2, "")
    said = {line.split(": file: ")[0]: line.split(": file: ")[1] for line in run.stderr.splitlines()}
    assert said[str(out / "rear-brake-swap-route.svg")].startswith("this is a folder")
    assert said[str(out / "rear-brake-swap-lengths.svg")].startswith("it is there already")
    assert len(list(out.iterdir())) == 2
    (out / "rear-brake-swap-route.svg").rmdir()
    assert lineplan("plan", JOB, "--catalog", FRAME, "--pictures", out, "--replace").returncode == 0
    assert "</svg>" in (out / "rear-brake-swap-lengths.svg").read_text(encoding="utf-8")


def test_a_folder_whose_name_is_too_long_is_refused(tmp_path: Path) -> None:
    run = lineplan("plan", JOB, "--catalog", FRAME, "--pictures", tmp_path / ("x" * 300))
    assert (run.returncode, run.stdout) == (2, "")
    assert "it cannot be written: File name too long, a folder to write to" in run.stderr


def test_no_plan_is_an_answer_with_status_3(tmp_path: Path) -> None:
    narrow = tmp_path / "narrow.yaml"
    narrow.write_text(FRAME.read_text(encoding="utf-8").replace("diameter: 6.5", "diameter: 4.9"), encoding="utf-8")
    run = lineplan("plan", JOB, "--catalog", narrow, "--bare", "--json")
    assert run.returncode == 3
    record = json.loads(run.stdout)
    assert (record["outcome"], record["route"]) == ("no_fit", [])
    assert set(record["no_route"]["ports"]) <= {"stay-front", "stay-rear"}
    assert len(record["no_route"]["ports"]) == 1
    assert {miss["method"] for miss in record["no_route"]["closest_misses"]} == {"stud-26", "sleeve-46", "spoke-20"}
    people = lineplan("plan", JOB, "--catalog", narrow)
    assert people.returncode == 3
    assert "No plan" in people.stdout


def test_bad_input_is_status_2_with_every_problem_on_the_error_stream(tmp_path: Path) -> None:
    broken = tmp_path / "broken.yaml"
    text = (
        FRAME.read_text(encoding="utf-8")
        .replace("outer: 5.0, outer", "outer: 0.2, outer")
        .replace("rod: 2.0", "rod: 'x'")
    )
    broken.write_text(text, encoding="utf-8")
    run = lineplan_alone("plan", JOB, "--catalog", broken, "--json")
    assert run.returncode == 2
    assert run.stdout == ""
    assert "Traceback" not in run.stderr
    lines = run.stderr.splitlines()
    assert len(lines) >= 2
    assert all(line.startswith(f"{broken}:") for line in lines)


@pytest.mark.parametrize(
    "words", [("plan", "nowhere.yaml"), ("plan", JOB, "--catalog", "nowhere"), ("check", "nowhere.yaml")]
)
def test_a_file_that_is_not_there_is_named(words: tuple[object, ...]) -> None:
    run = lineplan(*words)
    assert run.returncode == 2
    assert run.stdout == ""
    assert "nowhere" in run.stderr
    assert "Traceback" not in run.stderr


def test_check_tells_sound_files_from_broken_ones(tmp_path: Path) -> None:
    assert lineplan("check", FRAME, JOB).returncode == 0
    broken = tmp_path / "broken.yaml"
    broken.write_text("format: 1\nlines:\n\t- {id: a}\n", encoding="utf-8")
    run = lineplan("check", broken)
    assert run.returncode == 2
    assert f"{broken}:3:" in run.stderr


def test_fit_answers_the_quick_question() -> None:
    words = ["fit", "--opening", "slot 19x7", "--tilt", "50", "--wall", "1.6", "--item", "5.2", "--item", "4.0"]
    run = lineplan(*words, "--tolerance", "0.1", "--json")
    assert run.returncode == 0, run.stderr
    answer = json.loads(run.stdout)
    assert {"clearance_mm", "worst_clearance_mm", "fit_class", "outcome", "placement"} <= set(answer)
    assert answer["clearance_mm"] == pytest.approx(0.894, abs=0.001)  # (19 cos 50 - 1.6 sin 50 - 9.2) / 2
    assert len(answer["placement"]) == 2


def test_fit_of_a_stiff_piece_tells_the_longest() -> None:
    run = lineplan(
        "fit", "--opening", "round 12", "--wall", "2", "--item", "5", "--rigid", "60", "--bore", "35", "--json"
    )
    assert run.returncode == 0, run.stderr
    assert json.loads(run.stdout)["longest_rigid_mm"] == pytest.approx(65.9, abs=0.7)


def test_fit_that_cannot_be_is_status_3() -> None:
    run = lineplan("fit", "--opening", "round 5", "--item", "5.2", "--json")
    assert run.returncode == 3
    assert json.loads(run.stdout)["outcome"] == "no_fit"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--opening", "slott 19x7", "--item", "5"), "slott"),
        (("--opening", "round 6,5", "--item", "5"), "point, not a comma"),
        (("--opening", "round 0", "--item", "5"), "above zero"),
        (("--opening", "box 10x5 r4", "--item", "5"), "box"),
        (("--opening", "round 6", "--item", "-5"), "item: -5 mm was given"),
        (("--opening", "round 6", "--item", "nan"), "item: nan mm was given"),
        (("--opening", "round 6", "--item", "5", "--tilt", "90"), "tilt: 90 degrees was given"),
        (("--opening", "round 6", "--item", "5", "--rigid", "20"), "--bore"),
    ],
)
def test_a_question_that_makes_no_sense_is_refused_with_what_is_allowed(words: tuple[str, ...], said: str) -> None:
    run = lineplan("fit", *words)
    assert run.returncode == 2
    assert run.stdout == ""
    assert said in run.stderr
    assert "allowed" in run.stderr
    assert "Traceback" not in run.stderr


def test_every_shape_of_opening_is_understood() -> None:
    for shape in ("round 9", "slot 19x7", "oval 12x8", "box 12x8 r2", "outline 0,0 12,0 12,8 0,8"):
        assert lineplan("fit", "--opening", shape, "--item", "5").returncode == 0, shape
