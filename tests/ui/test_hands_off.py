"""A no and what is not proven keep their hands off: on no medium is anybody told to cut, pull, fill or unscrew."""

import re

import pytest
from streamlit.testing.v1 import AppTest

from planner import RoutingPlan, job_card_pdf, measures_told, parts_csv, plan_as_record
from planner.verdicts import Outcome
from tests.planner.documents.paper_reading import text_of
from tests.ui.noes_of_every_sort import demo_catalog, noes
from tests.ui.page_builders import words_of
from ui.reports.plan_report import print_plan

CASES = (
    "closed stops",
    "an unmeasured hole",
    "another mount",
    "another hub",
    "a short line",
    "an unmeasured bore",
    "a plug nobody measured",
    "no joint",
)
TOLD_TO_CUT = re.compile(r"\b(?:[Cc]ut to|[Cc]ut near|Cut square|Cut the (?:old|new) line|Measure twice)\b")


def steps_told(words: str) -> list[str]:
    """Steps of the workshop of which a few words stand in a text."""
    squeezed = " ".join(words.split())
    starts = {
        step.id: " ".join((step.short or step.text).split("{")[0].split()) for step in demo_catalog().workshop.steps
    }
    return [step_id for step_id, start in starts.items() if len(start) > 20 and start in squeezed]


@pytest.fixture(params=CASES)
def plan(request: pytest.FixtureRequest) -> RoutingPlan:
    return noes()[str(request.param)]


def test_the_cases_are_noes_of_both_sorts() -> None:
    assert set(noes()) == set(CASES)
    assert {plan.outcome for plan in noes().values()} == {Outcome.UNKNOWN, Outcome.NO_FIT}


@pytest.mark.parametrize("is_whole", [False, True], ids=["in short", "whole"])
def test_the_terminal(plan: RoutingPlan, is_whole: bool, capsys: pytest.CaptureFixture[str]) -> None:
    print_plan(plan, is_whole=is_whole)
    told = capsys.readouterr().out
    assert TOLD_TO_CUT.findall(told) == []
    assert steps_told(told) == []


def test_the_card(plan: RoutingPlan) -> None:
    told = text_of(job_card_pdf(plan=plan, frame=demo_catalog().frames[plan.frame_id], pictures=()))
    assert TOLD_TO_CUT.findall(told) == []
    assert "✂" not in told
    assert steps_told(told) == []


def test_the_record_and_the_table(plan: RoutingPlan) -> None:
    record = plan_as_record(plan)
    assert (record["steps"], record["cautions"], record["rescue"]) == ([], [], [])
    assert TOLD_TO_CUT.findall(parts_csv(plan)) == []


def test_the_page(plan: RoutingPlan) -> None:
    def screen(name: str) -> None:
        from tests.ui.noes_of_every_sort import noes
        from ui.page.views.lengths_view import show_lengths
        from ui.page.views.steps_view import show_steps
        from ui.page.views.verdict_view import show_open_questions, show_verdict

        plan = noes()[name]
        show_verdict(plan)
        show_open_questions(plan)
        show_lengths(plan)
        show_steps(plan)

    name = next(name for name, each in noes().items() if each is plan)
    page = AppTest.from_function(screen, args=(name,), default_timeout=60).run()
    assert not page.exception
    assert TOLD_TO_CUT.findall(words_of(page)) == []
    assert steps_told(words_of(page)) == []


def test_what_is_not_proven_begins_with_what_to_measure(plan: RoutingPlan, capsys: pytest.CaptureFixture[str]) -> None:
    if plan.outcome is Outcome.UNKNOWN:
        assert measures_told(plan)
        print_plan(plan)
        assert capsys.readouterr().out.startswith("Measure first")
