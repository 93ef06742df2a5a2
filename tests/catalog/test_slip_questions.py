"""Questions about a likely slip stand at their line, beside what is wrong, and refuse nothing."""

from pathlib import Path

import pytest

from catalog import check_files, questions_of_files, read_catalog, read_job
from planner import plan_as_record, plan_job
from tests.catalog.samples import EXAMPLE_FRAME
from tests.catalog.test_geometry_table import FRAME as TABLE_FRAME
from tests.catalog.test_told_on_tubes import FRAME as TUBE_FRAME
from ui.commands.check import run_check

NECK = "frame larkmoor-140 port neck-left"
ASKED = {
    "a coordinate in centimetres": (
        "at: [416, 24, 520]",
        "at: [416, 24, 52]",
        f"17: {NECK} > at: [416, 24, 52] was given, Down tube, upper left lies .* mm off the wall of down_tube,"
        " and at most 20 mm is usual: z 520?",
    ),
    "a port on the wrong side": (
        "at: [416, 24, 520]",
        "at: [416, -24, 520]",
        f"17: {NECK} > at: [416, -24, 520] was given, Down tube, upper left is called left and lies 24 mm on the other"
        " side: y 24?",
    ),
    "a heading that points out": (
        "heading: [-0.48, -0.643, -0.60]",
        "heading: [-0.48, 0.643, -0.60]",
        f"18: {NECK} > heading: [-0.48, 0.643, -0.6] was given, in Down tube, upper left the line points out of"
        " down_tube where it goes in, or into it where it comes out: y of its heading -0.643?",
    ),
    "a guide shorter than its chord": (
        "bend_radius: 400, turn: 12",
        "bend_radius: 400, turn: 12, length: 300",
        "53: frame larkmoor-140 run stay-run > guide length: 300 was given, the leg Chainstay, front left – Chainstay,"
        " rear left is told 300 mm long and its ends lie 367 mm apart: measure it again",
    ),
    "a caliper that is turned about": (
        "heading: [0.9, -0.1, -0.42], moves_with: rear",
        "heading: [-0.9, 0.1, 0.42], moves_with: rear",
        "48: frame larkmoor-140 anchor caliper-rear > heading: [-0.9, 0.1, 0.42] was given, at caliper-rear the line"
        " points away from Chainstay, rear left, where it goes: its heading the other way?",
    ),
}


def asked_about(tmp_path: Path, text: str) -> list[str]:
    file = tmp_path / "f.yaml"
    file.write_text(text, encoding="utf-8")
    assert check_files([file]) == []
    return [str(question).removeprefix(f"{file}:") for question in questions_of_files([file])]


@pytest.mark.parametrize("name", ASKED)
def test_a_question_stands_at_its_line(tmp_path: Path, name: str) -> None:
    before, after, message = ASKED[name]
    text = EXAMPLE_FRAME.read_text(encoding="utf-8")
    assert before in text
    questions = asked_about(tmp_path, text.replace(before, after, 1))
    head, _, tail = message.partition(".*")
    assert any(question.startswith(head) and question.endswith(tail) for question in questions), questions


def test_what_is_told_in_words_raises_no_question_but_what_is_guessed(tmp_path: Path) -> None:
    assert asked_about(tmp_path, TUBE_FRAME) == []
    (caliper,) = asked_about(tmp_path, TABLE_FRAME)
    assert caliper == (
        "19: frame bench anchor caliper > is: caliper was given, caliper is drawn from its mount alone and may be 40 mm"
        " off: measure the last stretch along the line"
    )
    measured = TABLE_FRAME.replace("between: [rear, caliper]", "between: [rear, caliper], length: 95")
    assert asked_about(tmp_path, measured) == []


def test_a_leg_that_loops_is_asked_about_as_a_whole(tmp_path: Path) -> None:
    """The example's tail: its ends lie 49 apart, point the same way, and a bend of 37.5 needs a loop between them."""
    (question,) = asked_about(tmp_path, EXAMPLE_FRAME.read_text(encoding="utf-8"))
    assert question.startswith("54: frame larkmoor-140 run tail: as told, the leg Chainstay, rear left – caliper-rear")


def test_a_hole_in_words_is_not_told_of_coordinates_that_nobody_typed(tmp_path: Path) -> None:
    (question,) = asked_about(
        tmp_path, TUBE_FRAME.replace("from_start: 35, side: left", "from_start: 35, side: left, off: 60")
    )
    assert question.startswith(
        "10: frame bench port neck-left > on: as told, neck-left lies 35 mm off the wall of down_tube"
    )
    assert question.endswith("is usual: measure it again")


def test_a_hole_told_twice_is_asked_about_where_its_numbers_stand(tmp_path: Path) -> None:
    text = TUBE_FRAME.replace("on: {end: start}", "on: {end: start}, at: [-46, 42, 25], heading: [-1, 0, 0]")
    (question,) = asked_about(tmp_path, text)
    assert question.startswith("12: frame bench port stay-front > at: [-46, 42, 25] was given, ")
    assert "20 mm apart" in question


def test_a_shop_of_ones_own_asks_later(tmp_path: Path) -> None:
    before, after, _ = ASKED["a guide shorter than its chord"]
    text = EXAMPLE_FRAME.read_text(encoding="utf-8").replace(before, after, 1)
    assert len(asked_about(tmp_path, text)) == 2
    (left,) = asked_about(tmp_path, f"{text}\nshop: {{slips: {{guide_short: 80}}}}\n")
    assert "run tail" in left


def test_a_frame_with_problems_is_mended_before_it_is_asked_about(tmp_path: Path) -> None:
    file = tmp_path / "f.yaml"
    text = EXAMPLE_FRAME.read_text(encoding="utf-8").replace("at: [416, 24, 520]", "at: [41.6, 2.4, 52]", 1)
    file.write_text(text.replace("zone: stay_left", "zone: stay_lft"), encoding="utf-8")
    assert check_files([file])
    assert questions_of_files([file]) == []


def test_a_frame_with_two_runs_of_one_name_is_mended_first(tmp_path: Path) -> None:
    file = tmp_path / "f.yaml"
    text = EXAMPLE_FRAME.read_text(encoding="utf-8").replace("{id: down-run,", "{id: tail,", 1)
    file.write_text(text, encoding="utf-8")
    assert check_files([file])
    assert questions_of_files([file]) == []


def test_a_plan_asks_too_and_the_told_length_counts(tmp_path: Path) -> None:
    file = tmp_path / "trail.frame.yaml"
    demo = Path(__file__).parents[2] / "demo_frames"
    text = (demo / "trail.frame.yaml").read_text(encoding="utf-8")
    file.write_text(text.replace("turn: 14, length: 330", "turn: 14, length: 300"), encoding="utf-8")
    catalog = read_catalog([file], over_starter=True)
    plan = plan_job(job=read_job(demo / "trail-rear-brake.job.yaml", catalog), workshop=catalog.workshop)
    notes = plan_as_record(plan)["notes"]
    assert [note for note in notes if "is told 300 mm long and its ends lie 323 mm apart" in note]
    assert plan.lengths is not None
    assert {leg.run_id: leg.nominal_mm for leg in plan.lengths.legs}["stay-run"] == 300


def test_check_prints_questions_and_refuses_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "f.yaml"
    before, after, _ = ASKED["a port on the wrong side"]
    file.write_text(EXAMPLE_FRAME.read_text(encoding="utf-8").replace(before, after, 1), encoding="utf-8")
    assert run_check([str(file)], is_bare=False, place="") == 0
    printed = capsys.readouterr()
    assert "y 24?" in printed.out
    assert printed.out.splitlines()[-1] == f"{file}: nothing wrong found; 3 to look at once more, above"
    assert printed.err == ""


@pytest.mark.parametrize(("tax", "asked"), [("0.30", []), ("0.8", ["80"]), ("1", ["100"])])
def test_a_tax_that_looks_like_a_slip_is_asked_about_at_its_line(tmp_path: Path, tax: str, asked: list[str]) -> None:
    questions = asked_about(tmp_path, f'format: 1\nshop:\n  currency: EUR\n  tax: "{tax}"\n')
    assert questions == [
        f"4: shop > tax: {tax} is {percent} % of the price, is that meant? It is asked above 30 %" for percent in asked
    ]
