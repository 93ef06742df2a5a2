"""`lineplan cuts` as a person or a program calls it: streams, exit status, files written, nothing lost."""

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from typer.testing import CliRunner

from catalog.yaml_text import read_yaml
from ui.terminal import app

CATALOG = Path(__file__).parent.parent / "catalog"
DEMO = Path(__file__).parents[2] / "demo_frames"
FRAME, JOB = CATALOG / "example_frame.yaml", CATALOG / "example_job.yaml"
STOCK = """\
format: 1
keep_offcut_from: 300
stock:
  # the wall
  - {id: wall, line: hose-50, length: 25000, quantity: 1, price: "80.00"}
"""


def lineplan(*words: object) -> Any:
    """The command in this process; a traceback fails the test."""
    result = CliRunner().invoke(app, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


@pytest.fixture
def stock(tmp_path: Path) -> Path:
    path = tmp_path / "shelf.yaml"
    path.write_text(STOCK, encoding="utf-8")
    return path


@pytest.fixture
def doubtful_job(tmp_path: Path) -> Path:
    """A job with a line that no hole of the frame takes."""
    text = JOB.read_text(encoding="utf-8").replace("new: {brake: calder-4}", "new: {line: thick}")
    path = tmp_path / "doubtful.yaml"
    path.write_text(text.replace("rear-brake-swap", "thick-hose"), encoding="utf-8")
    return path


@pytest.fixture
def frame(tmp_path: Path) -> Path:
    """The example frame, with one more line."""
    thick = "lines:\n  - {id: thick, kind: hydraulic_hose, outer: 12.0, bore: 2.1, bend_radius: 35}\n"
    path = tmp_path / "frame.yaml"
    path.write_text(FRAME.read_text(encoding="utf-8").replace("lines:\n", thick, 1), encoding="utf-8")
    return path


@pytest.fixture(scope="module", autouse=True)
def _caliper_within_reach(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The example's caliper 50 mm further back, where the hose gets without a loop, so that its length is known."""
    global FRAME
    kept, FRAME = FRAME, tmp_path_factory.mktemp("frame") / "example_frame.yaml"
    text = kept.read_text(encoding="utf-8")
    assert "at: [-420, 78, 48]" in text
    FRAME.write_text(text.replace("at: [-420, 78, 48]", "at: [-470, 78, 48]"), encoding="utf-8")
    yield
    FRAME = kept


def cuts(*words: object, frame: Path | None = None) -> Any:
    return lineplan("cuts", *words, "--catalog", frame or FRAME)


def test_a_length_that_is_not_known_is_not_cut(stock: Path) -> None:
    result = cuts(JOB, "--stock", stock, "--all-from-stock", frame=CATALOG / "example_frame.yaml")
    assert result.exit_code == 3
    assert "how long this line must be is not known" in " ".join(result.stdout.split())


def record_of(result: Any) -> dict[str, Any]:
    assert result.stderr == ""
    return json.loads(result.stdout)


def test_a_length_that_is_not_known_is_no_no() -> None:
    stock = DEMO / "workshop.stock.yaml"
    told = lineplan("cuts", DEMO / "holes-only.job.yaml", "-c", DEMO, "--stock", stock, "--all-from-stock").stdout
    words = " ".join(told.split())
    assert "? not proven holes-only The plan stands, but how long this line must be is not known" in words
    assert "does not fit" not in words


def test_two_jobs_from_one_roll(stock: Path) -> None:
    result = cuts(JOB, JOB, "--stock", stock, "--all-from-stock", "--json")
    assert result.exit_code == 0
    record = record_of(result)
    assert (record["rolls_used"], record["is_proven"], record["price"]) == (1, True, "80.00")
    assert [job["job"] for job in record["jobs"]] == ["rear-brake-swap #1", "rear-brake-swap #2"]
    assert {job["file"] for job in record["jobs"]} == {str(JOB)}
    (opened,) = record["opened"]
    cut_mm = record["jobs"][0]["cut_mm"]
    assert [cut["start_mm"] for cut in opened["cuts"]] == [0, cut_mm]
    assert opened["offcut_mm"] == 25000 - 2 * cut_mm


def test_a_plan_and_its_cut_have_the_same_length(stock: Path) -> None:
    plan = json.loads(lineplan("plan", JOB, "--catalog", FRAME, "--json").stdout)
    record = record_of(cuts(JOB, "--stock", stock, "--json"))
    assert record["jobs"][0]["cut_mm"] == plan["lengths"]["cut_mm"]
    assert record["jobs"][0]["taken_from"] == "supplied"
    assert (record["rolls_used"], record["opened"][0]["length_mm"]) == (0, plan["lengths"]["supplied_mm"])


def test_for_people_the_answer_stands_first_and_every_cut_has_its_place(stock: Path) -> None:
    result = cuts(JOB, JOB, "--stock", stock, "--all-from-stock")
    assert result.exit_code == 0
    assert "1 roll opened, proven" in result.stdout.split("Cuts in")[0]
    cut_mm = record_of(cuts(JOB, "--stock", stock, "--json"))["jobs"][0]["cut_mm"]
    rows = [line.split() for line in result.stdout.splitlines() if "rear-brake-swap #" in line]
    assert [row[1:] for row in rows[:2]] == [
        ["#1", "0", f"{cut_mm:g}", f"{cut_mm:g}"],
        ["#2", f"{cut_mm:g}", f"{2 * cut_mm:g}", f"{cut_mm:g}"],
    ]
    for words in ("wall · Brake hose 5.0 mm", "keep as offcut", "80.00", f"rear-brake-swap #1 is {JOB}"):
        assert words in " ".join(result.stdout.split())


def test_a_job_without_a_plan_is_told_and_the_others_are_cut(stock: Path, doubtful_job: Path, frame: Path) -> None:
    result = cuts(doubtful_job, JOB, "--stock", stock, "--all-from-stock", "--json", frame=frame)
    assert result.exit_code == 3
    record = record_of(result)
    assert [job["why_not"] for job in record["jobs"]] == ["no_plan", None]
    assert record["jobs"][0]["reason"].startswith("No plan")
    assert [cut["job"] for cut in record["opened"][0]["cuts"]] == ["rear-brake-swap"]
    people = cuts(doubtful_job, JOB, "--stock", stock, "--all-from-stock", frame=frame)
    assert people.exit_code == 3
    assert "Without a line: 1 of 2" in " ".join(people.stdout.replace("│", "").split())
    assert "thick-hose  No plan" in people.stdout


def test_a_piece_the_stock_does_not_give_is_told_with_status_3(stock: Path) -> None:
    stock.write_text(STOCK.replace("25000", "500"), encoding="utf-8")
    result = cuts(JOB, "--stock", stock, "--all-from-stock")
    assert result.exit_code == 3
    assert "longer than the longest stock of this line, 500 mm" in " ".join(result.stdout.split())


def test_files_are_written_whole(stock: Path, tmp_path: Path) -> None:
    picture, pdf, left = tmp_path / "cuts.svg", tmp_path / "cuts.pdf", tmp_path / "left.yaml"
    words = ("--picture", picture, "--pdf", pdf, "--write-stock", left)
    result = cuts(JOB, "--stock", stock, "--all-from-stock", "--json", *words)
    assert result.exit_code == 0, result.stderr
    texts = [text.text for text in ElementTree.parse(picture).iter("{http://www.w3.org/2000/svg}text")]
    assert any("wall" in (text or "") for text in texts)
    assert pdf.read_bytes().startswith(b"%PDF")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["cuts.pdf", "cuts.svg", "left.yaml", "shelf.yaml"]
    assert stock.read_text(encoding="utf-8") == STOCK


def test_the_same_list_again_takes_the_stock_once_and_is_told_as_it_was_cut(stock: Path, tmp_path: Path) -> None:
    words = (JOB, "--stock", stock, "--all-from-stock", "--json", "--write-stock", stock)
    first = record_of(cuts(*words))
    taken = stock.read_text(encoding="utf-8")
    assert (first["rolls_used"], first["taken_on"]) == (1, None)
    assert "# the wall" in taken
    pdf = tmp_path / "again.pdf"
    for more in (("--pdf", pdf), ("--picture", tmp_path / "again.svg")):
        result = cuts(*words, *more)
        assert "is told as it was cut; the stock stays as it is" in result.stderr
        second = json.loads(result.stdout)
        assert second.pop("taken_on") is not None
        assert second == {key: value for key, value in first.items() if key != "taken_on"}
        assert stock.read_text(encoding="utf-8") == taken
    assert pdf.read_bytes().startswith(b"%PDF")


def test_the_same_list_is_cut_once_more_when_that_is_said(stock: Path) -> None:
    words = (JOB, "--stock", stock, "--all-from-stock", "--json", "--write-stock", stock)
    first, second = record_of(cuts(*words)), record_of(cuts(*words, "--again"))
    assert second["rolls_used"] == 0
    assert second["opened"][0]["length_mm"] == first["offcuts"][0]["length_mm"]


def test_a_job_of_another_list_is_not_taken_twice_unasked(stock: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.yaml"
    other.write_text(JOB.read_text(encoding="utf-8").replace("rear-brake-swap", "second-bike"), encoding="utf-8")
    words = ("--stock", stock, "--all-from-stock")
    assert cuts(JOB, *words, "--write-stock", stock).exit_code == 0
    before = stock.read_bytes()
    refused = cuts(JOB, other, *words, "--write-stock", stock)
    assert (refused.exit_code, stock.read_bytes()) == (2, before)
    assert "already cut: rear-brake-swap on " in refused.stderr
    only_looked = cuts(JOB, other, *words)
    assert (only_looked.exit_code, stock.read_bytes()) == (0, before)
    assert "Already cut, and here once more: rear-brake-swap on " in only_looked.stderr
    assert cuts(other, *words, "--write-stock", stock).exit_code == 0
    assert cuts(JOB, JOB, *words).stderr.startswith("Already cut")  # one bicycle more is another list


def test_a_list_that_was_not_cut_to_its_end_is_not_told_as_done(stock: Path) -> None:
    stock.write_text(STOCK.replace("25000", "1900").replace("keep_offcut_from: 300\n", ""), encoding="utf-8")
    words = (JOB, JOB, "--stock", stock, "--all-from-stock", "--write-stock", stock)
    assert cuts(*words).exit_code == 3
    assert "already cut: rear-brake-swap on " in cuts(*words).stderr


def test_a_note_that_holds_a_quantity_costs_no_comment(stock: Path) -> None:
    row = STOCK.splitlines()[-1].replace("quantity: 1", 'note: "quantity: 2 were ordered", quantity: 1')
    text = STOCK.replace(STOCK.splitlines()[-1], row + "   # dusty")
    stock.write_text(text, encoding="utf-8")
    assert cuts(JOB, "--stock", stock, "--all-from-stock", "--write-stock", stock).exit_code == 0
    after = stock.read_text(encoding="utf-8")
    assert row.replace("quantity: 1,", "quantity: 0,") + "   # dusty" in after
    assert "# the wall" in after


def test_of_two_runs_at_once_none_loses_what_the_other_took(stock: Path, tmp_path: Path) -> None:
    stock.write_text(
        STOCK.replace("quantity: 1", "quantity: 9").replace("keep_offcut_from: 300\n", ""), encoding="utf-8"
    )
    jobs = []
    for number in range(4):
        path = tmp_path / f"job-{number}.yaml"
        text = JOB.read_text(encoding="utf-8").replace("rear-brake-swap", f"bike-{number}")
        path.write_text(text, encoding="utf-8")
        jobs.append(path)
    code = "from ui.terminal import main; main()"
    words = ["--stock", stock, "--all-from-stock", "--write-stock", stock, "--catalog", FRAME]
    runs = [
        subprocess.Popen(
            [sys.executable, "-c", code, "cuts", *map(str, [job, *words])],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )
        for job in jobs
    ]
    said = [run.communicate()[1] for run in runs]
    done = [run.returncode for run in runs].count(0)
    assert done >= 1
    assert all(
        "it was changed since it was read" in text for text, run in zip(said, runs, strict=True) if run.returncode
    )
    left = read_yaml(stock.read_bytes()).value
    assert (left["stock"][0]["quantity"], len(left["taken"])) == (9 - done, done)


@pytest.mark.parametrize(
    ("option", "name", "content", "said"),
    [
        ("--picture", "cuts.png", None, "cuts.png was given, a name that ends in .svg"),
        ("--pdf", "cuts.svg", None, "cuts.svg was given, a name that ends in .pdf"),
        ("--picture", "nowhere/cuts.svg", None, "there is no folder"),
        ("--write-stock", ".", None, "this is a folder"),
        ("--write-stock", "left.svg", None, "left.svg was given, a name that ends in .yaml or .yml"),
        ("--write-stock", "notes.yaml", "format: 1\nlines: []\n", "it is there and is no stock file"),
        ("--write-stock", "notes.txt", "milk, bread", "it is there and is no stock file"),
    ],
)
def test_a_file_that_cannot_be_meant_is_refused_before_anything_is_done(
    stock: Path, tmp_path: Path, option: str, name: str, content: str | None, said: str
) -> None:
    target = tmp_path / name
    if content is not None:
        target.write_text(content, encoding="utf-8")
    result = cuts(JOB, "--stock", stock, option, target)
    assert (result.exit_code, result.stdout) == (2, "")
    assert said in result.stderr
    assert content is None or target.read_text(encoding="utf-8") == content


def test_the_stock_behind_a_link_is_kept_up_and_stays_as_private_as_it_was(stock: Path, tmp_path: Path) -> None:
    stock.chmod(0o600)
    link = tmp_path / "link.yaml"
    link.symlink_to(stock)
    cuts(JOB, "--stock", link, "--all-from-stock", "--write-stock", link)
    assert link.is_symlink()
    assert "wall-rest-1" in stock.read_text(encoding="utf-8")
    assert stock.stat().st_mode & 0o777 == 0o600


def test_files_that_are_there_are_replaced_only_where_that_is_asked(stock: Path, tmp_path: Path) -> None:
    files = {"--picture": "cuts.svg", "--pdf": "cuts.pdf", "--write-stock": "left.yaml"}
    for name in files.values():
        (tmp_path / name).write_text(STOCK, encoding="utf-8")
    words = [word for option, name in files.items() for word in (option, tmp_path / name)]
    result = cuts(JOB, "--stock", stock, "--all-from-stock", *words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert [line.split(": file: ")[1].split(",")[0] for line in result.stderr.splitlines()] == [
        "it is there already"
    ] * 3
    assert {(tmp_path / name).read_text(encoding="utf-8") for name in files.values()} == {STOCK}
    assert cuts(JOB, "--stock", stock, "--all-from-stock", *words, "--replace").exit_code == 0
    assert STOCK not in {(tmp_path / name).read_text(encoding="utf-8", errors="replace") for name in files.values()}


def test_a_stock_file_changed_while_the_cuts_were_planned_is_not_lost(
    stock: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from ui.commands import cuts as command

    find = command.find_job_cuts

    def while_somebody_edits(**asked: Any) -> Any:
        stock.write_text(STOCK + "  # two more are ordered\n", encoding="utf-8")
        return find(**asked)

    monkeypatch.setattr(command, "find_job_cuts", while_somebody_edits)
    result = cuts(JOB, "--stock", stock, "--all-from-stock", "--write-stock", stock)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "it was changed since it was read" in result.stderr
    assert stock.read_text(encoding="utf-8").endswith("two more are ordered\n")


def test_bad_jobs_and_bad_stock_are_told_together(stock: Path, tmp_path: Path) -> None:
    bad_job = tmp_path / "bad.yaml"
    bad_job.write_text(JOB.read_text(encoding="utf-8").replace("larkmoor-140", "larkmoor"), encoding="utf-8")
    stock.write_text(STOCK.replace("hose-50", "hose-5"), encoding="utf-8")
    result = cuts(bad_job, tmp_path / "nowhere.yaml", "--stock", stock, "--json", "--bare")
    assert (result.exit_code, result.stdout) == (2, "")
    told = result.stderr.splitlines()
    assert [line.split(":")[0] for line in told] == [str(bad_job), str(tmp_path / "nowhere.yaml"), str(stock)]
    assert "there is no line hose-5, did you mean hose-55 or hose-50?" in told[2]
