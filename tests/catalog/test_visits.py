"""Job files of several lines: read as they stand, and everything wrong with one told at once by file and line."""

from pathlib import Path

import pytest

from catalog import CatalogProblems, check_files, read_catalog, read_job, read_job_or_visit
from planner.parts import Job, Visit

DEMO = Path(__file__).parents[2] / "demo_frames"
FRAME = DEMO / "hardtail-wide.frame.yaml"
CATALOG = read_catalog([FRAME], over_starter=True)
LEFT = "[shared-neck, bb-window, stay-exit]"

HEAD = "format: 1\njob:\n  id: visit\n  frame: dorrimel-120\n  lines:\n"
BRAKE = f"""\
    - id: brake
      from: bar-right
      to: caliper-rear
      old: {{line: hose-50x23, through: {LEFT}}}
      new: {{line: hose-55x25}}
"""
WIRE = "    - {id: wire, from: bar-right, to: caliper-rear, old: none, new: {line: wire-25}}\n"
OUT = f"    - {{id: out, from: bar-right, to: caliper-rear, old: {{line: wire-25, through: {LEFT}}}, new: none}}\n"


def written(folder: Path, text: str) -> Path:
    path = folder / "visit.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def told(folder: Path, text: str) -> list[str]:
    """What is told of a file, without its name."""
    with pytest.raises(CatalogProblems) as refusal:
        read_job_or_visit(written(folder, text), CATALOG)
    return [str(problem).split("visit.yaml:")[1] for problem in refusal.value.problems]


def test_the_lines_come_as_they_are_written(tmp_path: Path) -> None:
    visit = read_job_or_visit(written(tmp_path, HEAD + BRAKE + WIRE + OUT + "  first: [wire]\n"), CATALOG)
    assert isinstance(visit, Visit)
    assert [line.id for line in visit.lines] == ["brake", "wire", "out"]
    brake, wire, out = visit.lines
    assert brake.old is not None
    assert brake.old.through == ("shared-neck", "bb-window", "stay-exit")
    assert (wire.old, out.new) == (None, None)
    assert (visit.first, visit.may_take_out_first, visit.may_remove_inserts) == (("wire",), True, True)


def test_what_is_allowed_is_told_for_all_lines_together(tmp_path: Path) -> None:
    allow = "  allow: {remove_inserts: false, keep_old_brake: true, take_out_first: false}\n"
    visit = read_job_or_visit(written(tmp_path, HEAD + BRAKE + allow), CATALOG)
    assert isinstance(visit, Visit)
    assert (visit.may_remove_inserts, visit.keeps_old_brake, visit.may_take_out_first) == (False, True, False)


def test_a_job_of_one_line_keeps_its_form() -> None:
    job = read_job_or_visit(
        DEMO / "trail-rear-brake.job.yaml", read_catalog([DEMO / "trail.frame.yaml"], over_starter=True)
    )
    assert isinstance(job, Job)


def test_what_takes_one_line_only_says_so(tmp_path: Path) -> None:
    with pytest.raises(CatalogProblems, match="several lines were given"):
        read_job(written(tmp_path, HEAD + BRAKE), CATALOG)


def test_everything_wrong_is_told_at_once_with_its_line(tmp_path: Path) -> None:
    text = (
        HEAD
        + BRAKE.replace("hose-55x25", "hose-55x52")
        + WIRE.replace("id: wire", "id: brake")
        + "    - {id: nothing, from: bar-right, to: caliper-rear, old: none, new: none}\n"
        + "    - {id: two, from: bar-right, to: caliper-front, old: none, new: {line: wire-25}, through: [neck]}\n"
        + "  first: [brake, lamp, brake]\n"
        + "  from: bar-right\n"
    )
    assert [problem.split(":")[0] for problem in told(tmp_path, text)] == [
        "10",
        "11",
        "12",
        "13",
        "13",
        "14",
        "14",
        "15",
    ]
    sentences = "\n".join(told(tmp_path, text))
    for said in (
        "there is no line hose-55x52",
        "brake is the id of another line too",
        "neither an old nor a new line was given",
        "there is no anchor caliper-front",
        "there is no port neck",
        "there is no line lamp",
        "brake is wished for twice",
        "from is not a field here, each line under lines has its own",
    ):
        assert said in sentences


def test_a_way_of_its_own_is_for_a_line_that_replaces_none(tmp_path: Path) -> None:
    (problem,) = told(tmp_path, HEAD + BRAKE + f"      through: {LEFT}\n")
    assert "old > through tells the way" in problem


def test_more_lines_than_ten_are_refused(tmp_path: Path) -> None:
    many = "".join(WIRE.replace("id: wire", f"id: wire-{n}") for n in range(11))
    (problem,) = told(tmp_path, HEAD + many)
    assert "lines" in problem


def test_no_line_at_all_is_refused(tmp_path: Path) -> None:
    (problem,) = told(tmp_path, HEAD.replace("lines:", "lines: []"))
    assert "lines" in problem


def test_where_an_old_line_may_lie_on_two_ways_the_file_must_say(tmp_path: Path) -> None:
    frame = FRAME.read_text(encoding="utf-8").replace(
        "      - {id: tail, label",
        "      - {id: over, zone: outside, between: [bar-right, caliper-rear]}\n      - {id: tail, label",
    )
    (tmp_path / "two.frame.yaml").write_text(frame, encoding="utf-8")
    catalog = read_catalog([tmp_path / "two.frame.yaml"], over_starter=True)
    text = HEAD + BRAKE.replace(f", through: {LEFT}", "")
    with pytest.raises(CatalogProblems) as refusal:
        read_job_or_visit(written(tmp_path, text), catalog)
    (problem,) = refusal.value.problems
    assert problem.line == 9
    assert "outside, through no port" in str(problem)


def test_where_there_is_only_one_way_it_need_not_be_told(tmp_path: Path) -> None:
    visit = read_job_or_visit(written(tmp_path, HEAD + BRAKE.replace(f", through: {LEFT}", "")), CATALOG)
    assert isinstance(visit, Visit)


def test_check_tells_the_same(tmp_path: Path) -> None:
    path = written(tmp_path, HEAD + WIRE + WIRE)
    (problem,) = check_files([path], against=lambda: CATALOG)
    assert "wire is the id of another line too" in str(problem)


TAIL = "    - {id: tail, from: bar-right, to: caliper-rear, old: none, new: {line: wire-25}}\n"


def test_wishes_come_as_they_are_written(tmp_path: Path) -> None:
    text = HEAD + BRAKE + WIRE + TAIL + "  before: [[wire, brake, tail]]\n  together: [[brake, wire]]\n"
    with pytest.raises(CatalogProblems, match="tail"):  # brake and wire go in at once, so nothing is left to go round
        read_job_or_visit(written(tmp_path, text.replace("tail]]", "tail], [tail, wire]]")), CATALOG)
    visit = read_job_or_visit(written(tmp_path, text), CATALOG)
    assert isinstance(visit, Visit)
    assert visit.together == (("brake", "wire"),)
    assert visit.before == (("wire", "brake"), ("brake", "tail"))


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        ("  together: [[brake]]\n", "at least 2"),
        ("  together: [[brake, lamp]]\n", "there is no line lamp"),
        ("  together: [[brake, brake]]\n", "brake is wished for twice"),
        ("  together: [[brake, wire], [wire, tail]]\n", "wire is drawn in with others already, each line in one list"),
        ("  together: [[out, wire]]\n", "out is only taken out, lines that go in"),
        ("  together: [[brake, second]]\n", "brake and second each have an old line, one old line at the most"),
        ("  together: [[brake, other]]\n", "the same holes for all of them"),
        ("  before: [[wire, tail], [tail, wire]]\n", "tail before wire, wishes that do not go round in a circle"),
        ("  first: [wire]\n  before: [[tail, wire]]\n", "tail before wire, wishes that do not go round in a circle"),
        (
            "  together: [[brake, wire]]\n  first: [wire, tail, brake]\n",
            "tail before brake and wire, wishes that do not go round in a circle",
        ),
    ],
)
def test_a_wish_that_cannot_be_had_is_told_at_its_line(tmp_path: Path, wish: str, said: str) -> None:
    other = TAIL.replace("tail", "other").replace("}}", "}, through: [shared-neck, bb-window-right, stay-exit-right]}")
    text = HEAD + BRAKE + WIRE + TAIL + OUT + BRAKE.replace("id: brake", "id: second") + other + wish
    problems = told(tmp_path, text)
    first_line = (HEAD + BRAKE + WIRE + TAIL + OUT + BRAKE + other).count("\n") + 1
    assert any(said in problem for problem in problems), problems
    assert all(int(problem.split(":")[0]) >= first_line for problem in problems)


def test_what_is_tied_on_takes_small_parts_that_are_there(tmp_path: Path) -> None:
    own = tmp_path / "own.yaml"
    ties = "ties: {most: 4, adds: 1, holds: 15, setup: 3, uses: [thread]}"
    own.write_text(
        "format: 1\nmethods:\n"
        f"  - {{id: cord, kind: leader_line, outer: 1, joint_outer: 4, setup: 5, {ties}}}\n"
        f"  - {{id: over, kind: over_cable, setup: 5, {ties}}}\n",
        encoding="utf-8",
    )
    told = {f"{problem.field}: {problem.given}" for problem in check_files([own])}
    assert told == {
        "ties most: 4 was given",
        "ties uses no. 1: there is no part thread",
        "ties: ties is not a field here",
    }
