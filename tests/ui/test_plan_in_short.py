"""`lineplan plan` prints what the hands need and no more; `--all` prints the rest."""

import io
import re
from collections.abc import Iterator
from contextlib import redirect_stdout
from functools import cache
from pathlib import Path

import pytest
from rich.cells import cell_len

from catalog import STARTER_FOLDER, read_catalog, read_job
from planner import RoutingPlan, plan_job
from planner.verdicts import Outcome
from ui.reports.plan_report import print_plan

FOLDER = Path(__file__).parents[2] / "demo_frames"
JOBS = sorted(FOLDER.glob("*.job.yaml"))
COLUMNS = 100
MOST_LINES, MEAN_LINES = 80, 66
"""Of the longest work order, and of all demo jobs together."""


@cache
def plans() -> dict[str, RoutingPlan]:
    catalog = read_catalog([STARTER_FOLDER, FOLDER])
    jobs = {path.name.removesuffix(".job.yaml"): read_job(path, catalog) for path in JOBS}
    return {name: plan_job(job=job, workshop=catalog.workshop) for name, job in jobs.items()}


def printed(plan: RoutingPlan, *, is_whole: bool = False) -> str:
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(io.StringIO()) as told:
        patch.setenv("COLUMNS", str(COLUMNS))
        print_plan(plan, is_whole=is_whole)
    return told.getvalue()


def worked() -> Iterator[RoutingPlan]:
    return (plan for plan in plans().values() if plan.steps)


@pytest.fixture(params=[path.name.removesuffix(".job.yaml") for path in JOBS])
def plan(request: pytest.FixtureRequest) -> RoutingPlan:
    return plans()[request.param]


def test_a_plan_in_short_takes_about_sixty_lines() -> None:
    lines = [printed(plan).count("\n") for plan in worked()]
    assert max(lines) <= MOST_LINES
    assert sum(lines) / len(lines) <= MEAN_LINES


def test_no_line_is_wider_than_the_terminal(plan: RoutingPlan) -> None:
    assert max(cell_len(line) for line in printed(plan).splitlines()) <= COLUMNS


def test_in_short_every_step_is_there_with_its_number_and_no_why(plan: RoutingPlan) -> None:
    told = " ".join(printed(plan).split())
    for step in plan.steps:
        assert f"{step.n} {step.short}" in told
        assert step.why not in told
    assert "mm to spare, " in printed(plan, is_whole=True) or plan.no_route is not None


def test_in_whole_every_step_has_its_text_and_its_why(plan: RoutingPlan) -> None:
    told = " ".join(printed(plan, is_whole=True).split())
    for step in plan.steps:
        assert step.text in told
        assert step.why in told


@pytest.mark.parametrize("is_whole", [False, True])
def test_each_caution_is_told_once(plan: RoutingPlan, is_whole: bool) -> None:
    told = " ".join(printed(plan, is_whole=is_whole).split())
    cautions = {*plan.cautions, *(caution for step in plan.steps for caution in step.cautions)}
    for caution in cautions:
        sentence = caution if is_whole else f"{plan.short_cautions[caution]} "
        assert told.count(sentence) == 1, sentence


def test_the_list_of_the_whole_job_holds_only_what_belongs_to_no_step(plan: RoutingPlan) -> None:
    assert not {*plan.cautions} & {caution for step in plan.steps for caution in step.cautions}


def test_people_read_labels_and_no_ids(plan: RoutingPlan) -> None:
    """Ids of places have hyphens inside lower-case words; labels have none."""
    ids = {*plan.names.places, *plan.names.runs, *plan.names.things}
    for text in (printed(plan), printed(plan, is_whole=True)):
        words = set(re.findall(r"[\w-]+", text))
        assert {id for id in ids & words if "-" in id} == set()


def test_what_is_not_proven_begins_with_what_to_measure() -> None:
    unknown = [plan for plan in plans().values() if plan.outcome is Outcome.UNKNOWN]
    assert unknown
    for plan in unknown:
        assert printed(plan).startswith("Measure first  ")


def test_a_no_is_told_in_a_few_lines() -> None:
    stopped = [plan for plan in plans().values() if plan.no_route is not None]
    assert stopped
    for plan in stopped:
        assert printed(plan).count("\n") <= 16


def test_a_way_without_a_joint_says_nothing_of_pulling_one() -> None:
    plan = plans()["dropper-beside-wires"]
    told = printed(plan, is_whole=True)
    assert plan.method_id == "over-old-cable"
    assert "Pulling" not in told
    assert "holds nothing" not in told


def test_the_whole_plan_shows_the_sheet_for_what_sticks_at_the_step_that_feeds() -> None:
    told = printed(plans()["front-through-fork"], is_whole=True)
    (feed,) = (step for step in plans()["front-through-fork"].steps if step.id == "feed-easing")
    assert told.index(f"{feed.n}. ") < told.index("When it sticks") < told.index(f"{feed.n + 1}. When the joint shows")
    assert "When it sticks\n" not in printed(plans()["front-through-fork"])
