"""Of every invented job each caution is told once in one place: on paper, and in the terminal whole and in short."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from catalog import STARTER_FOLDER, Catalog, read_catalog, read_job
from planner import RoutingPlan, job_card_pdf, plan_job
from planner.parts import Job
from tests.ui.page_builders import DEMO_FOLDER
from ui.page.session import demo_jobs
from ui.reports.plan_report import print_plan

CARD = "planner.documents.paper.job_card.pages_as_pdf"


@cache
def _catalog() -> Catalog:
    return read_catalog([STARTER_FOLDER, DEMO_FOLDER])


def _planned(path: Path) -> tuple[RoutingPlan, Job]:
    job = read_job(path, _catalog())
    return plan_job(job=job, workshop=_catalog().workshop), job


def cautions_of(plan: RoutingPlan) -> list[str]:
    return list(dict.fromkeys((*plan.cautions, *(caution for step in plan.steps for caution in step.cautions))))


def _texts(part: Any) -> Iterator[str]:
    """The words of what is to be printed, as it is handed to the printer."""
    if isinstance(part, str):
        yield part
    elif isinstance(part, list | tuple):
        for one in part:
            yield from _texts(one)
    else:
        for name in ("text", "_cellvalues", "_content"):
            yield from _texts(getattr(part, name, ()))


@pytest.mark.parametrize("path", demo_jobs(), ids=lambda path: path.name.partition(".")[0])
def test_each_caution_of_an_invented_job_is_told_once_on_paper_and_in_the_terminal(
    path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    plan, job = _planned(path)
    printed: list[Any] = []
    monkeypatch.setattr(CARD, lambda parts, **_: printed.extend(parts) or b"")
    job_card_pdf(plan=plan, frame=job.frame, pictures=())
    on_paper = " ".join(" ".join(_texts(printed)).split())
    print_plan(plan, is_whole=True)
    whole = " ".join(capsys.readouterr().out.split())
    for caution in cautions_of(plan):
        assert on_paper.count(caution) == 1, caution
        assert whole.count(caution) == 1, caution
    print_plan(plan)
    in_short = " ".join(capsys.readouterr().out.split())
    shorts = [plan.short_cautions.get(caution, caution) for caution in cautions_of(plan)]
    assert [(short, in_short.count(short)) for short in shorts if in_short.count(short) != 1] == []


def test_a_doubled_caution_would_be_noticed() -> None:
    assert list(_texts([["a", ("b",)], type("Part", (), {"text": "c"})()])) == ["a", "b", "c"]
