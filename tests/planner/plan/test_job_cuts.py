"""Which job's line is cut from where: its own where that reaches, stock otherwise, and never where it must not be."""

from dataclasses import replace
from typing import Any

import pytest

from planner import StockLength, cuts_as_record, cuts_sentence, find_job_cuts, uncut_sentence, why_not_cut_sentence
from planner.parts import Fitting, FittingStyle, Job, LineEnd, LineKind, NewLine, SetBy
from planner.plan.job_cuts import JobCuts, TakenFrom, WhyNotCut
from tests.builders import make_job, make_lane_frame, make_line, make_sleeve, make_workshop

WORKSHOP = make_workshop()
SLEEVES = make_workshop(make_sleeve())
ROLL = StockLength(id="roll", line_id="new", length_mm=25_000)
CRIMP = Fitting(
    id="crimp",
    name="Crimp",
    style=FittingStyle.CRIMPED,
    set_by=SetBy.FACTORY,
    outer_diameter_mm=6.0,
    length_mm=18.0,
    line_outer_diameter_mm=5.0,
    line_bore_diameter_mm=2.1,
)


def a_job(*, supplied_mm: float | None = None, hole_mm: float | None = 8.0, id_: str = "job", **new: Any) -> Job:
    fields = {"line": make_line(id="new"), "from_end": LineEnd(), "to_end": LineEnd(), **new}
    line = NewLine(supplied_length_mm=supplied_mm, **fields)
    return make_job(make_lane_frame((hole_mm, hole_mm)), id=id_, new=line)


def cuts_of(*jobs: Job, stock: tuple[StockLength, ...] = (ROLL,), **named: Any) -> JobCuts:
    return find_job_cuts(jobs=jobs, workshop=WORKSHOP, stock=stock, **named)


@pytest.fixture(scope="module")
def cut_mm() -> float:
    """What the plain job's line is cut to."""
    found = cuts_of(a_job()).jobs[0].cut_mm
    assert found is not None
    return found


def test_without_a_supplied_line_stock_is_cut(cut_mm: float) -> None:
    cuts = cuts_of(a_job(), a_job(id_="other"))
    assert [each.taken_from for each in cuts.jobs] == [TakenFrom.STOCK, TakenFrom.STOCK]
    (opened,) = cuts.cut_list.opened
    assert [(cut.piece_id, cut.start_mm) for cut in opened.cuts] == [("job", 0.0), ("other", cut_mm)]
    assert cuts.cut_list.rolls_used == 1
    assert cuts.is_complete


@pytest.mark.parametrize(
    ("more_mm", "taken_from"),
    [(-0.1, TakenFrom.STOCK), (0.0, TakenFrom.SUPPLIED), (0.1, TakenFrom.SUPPLIED)],
    ids=["too short", "just long enough", "longer"],
)
def test_the_supplied_line_is_used_where_it_reaches(cut_mm: float, more_mm: float, taken_from: TakenFrom) -> None:
    cuts = cuts_of(a_job(supplied_mm=cut_mm + more_mm))
    assert cuts.jobs[0].taken_from is taken_from
    assert cuts.cut_list.rolls_used == (1 if taken_from is TakenFrom.STOCK else 0)
    assert {each.line_id for each in cuts.cut_list.opened} == {"new"}
    assert cuts.is_complete


def test_a_supplied_line_serves_no_other_job_and_its_end_is_kept(cut_mm: float) -> None:
    long_enough_for_both = 2 * cut_mm + 500
    jobs = (a_job(supplied_mm=long_enough_for_both, id_="own"), a_job(id_="bare"))
    cuts = cuts_of(*jobs, keep_offcut_from_mm=300)
    assert [opened.stock_id for opened in cuts.cut_list.opened] == ["supplied with own", "roll"]
    kept = {each.line_id: each.length_mm for each in cuts.cut_list.offcuts[:1]}
    assert kept == {"new": pytest.approx(cut_mm + 500)}


def test_supplied_lines_can_be_left_alone(cut_mm: float) -> None:
    cuts = cuts_of(a_job(supplied_mm=cut_mm), uses_supplied=False)
    assert cuts.jobs[0].taken_from is TakenFrom.STOCK


def test_an_end_made_at_the_factory_is_never_cut_from_stock() -> None:
    crimped = {"from_end": LineEnd(fitting=CRIMP, is_fitted=True)}
    needed_mm = cuts_of(a_job(**crimped)).jobs[0].cut_mm
    assert needed_mm is not None
    told = {
        needed_mm: (TakenFrom.SUPPLIED, None, ""),
        needed_mm - 5: (None, WhyNotCut.FACTORY_END, "5 mm too short"),
        None: (None, WhyNotCut.FACTORY_END, "was not told"),
    }
    for supplied_mm, (taken_from, why_not, words) in told.items():
        (asked,) = cuts_of(a_job(supplied_mm=supplied_mm, **crimped), uses_supplied=False).jobs
        assert (asked.taken_from, asked.why_not) == (taken_from, why_not)
        assert words in why_not_cut_sentence(asked)


@pytest.mark.parametrize(
    ("hole_mm", "why_not", "words"),
    [(4.0, WhyNotCut.NO_PLAN, "No plan"), (None, WhyNotCut.NOT_PROVEN, "Not proven")],
    ids=["hole too small", "hole not measured"],
)
def test_without_a_sure_plan_nothing_is_cut(hole_mm: float | None, why_not: WhyNotCut, words: str) -> None:
    cuts = cuts_of(a_job(hole_mm=hole_mm, id_="doubtful"), a_job(id_="sound"))
    assert [each.why_not for each in cuts.jobs] == [why_not, None]
    assert why_not_cut_sentence(cuts.jobs[0]).startswith(words)
    assert why_not_cut_sentence(cuts.jobs[1]) == ""
    assert [cut.piece_id for opened in cuts.cut_list.opened for cut in opened.cuts] == ["sound"]
    assert not cuts.is_complete


def test_a_line_whose_ends_come_closed_is_neither_cut_nor_missing() -> None:
    closed = LineEnd(fitting=replace(CRIMP, joint_diameter_mm=7.0, joint_holds_n=40.0), is_fitted=True)
    wire = make_line(id="new", kind=LineKind.ELECTRIC_WIRE, bore_diameter_mm=None)
    for fields in ({"from_end": closed, "to_end": closed}, {"line": wire}):
        enough = find_job_cuts(jobs=(a_job(supplied_mm=2000, **fields),), workshop=SLEEVES, stock=(ROLL,))
        (asked,) = enough.jobs
        assert (asked.why_not, asked.taken_from) == (WhyNotCut.COMES_CLOSED, None)
        assert enough.is_complete
        assert enough.cut_list.opened == ()
        assert why_not_cut_sentence(asked).startswith("Nothing to cut")
        short = find_job_cuts(jobs=(a_job(supplied_mm=100, **fields),), workshop=SLEEVES, stock=(ROLL,))
        assert short.jobs[0].why_not is WhyNotCut.FACTORY_END
        assert not short.is_complete


def test_jobs_that_share_an_id_are_told_apart() -> None:
    cuts = cuts_of(a_job(), a_job(id_="other"), a_job())
    assert [each.label for each in cuts.jobs] == ["job #1", "other", "job #2"]
    assert sorted(cut.piece_id for cut in cuts.cut_list.opened[0].cuts) == ["job #1", "job #2", "other"]


@pytest.mark.parametrize(
    ("stock", "words"),
    [
        ((), "there is no stock of this line"),
        ((StockLength(id="stub", line_id="new", length_mm=100),), "longer than the longest stock of this line, 100 mm"),
        ((StockLength(id="rod", line_id="new", length_mm=25_000, quantity=0),), "there is no stock of this line"),
    ],
    ids=["none", "too short", "all gone"],
)
def test_what_the_stock_does_not_give_is_told(stock: tuple[StockLength, ...], words: str) -> None:
    cuts = cuts_of(a_job(), stock=stock)
    assert not cuts.is_complete
    assert words in uncut_sentence(cuts.cut_list.uncut[0])
    assert cuts_sentence(cuts.cut_list).startswith("0 rolls opened, proven: no way of cutting gives more")


def test_the_record_adds_up(cut_mm: float) -> None:
    jobs = (a_job(supplied_mm=cut_mm + 400, id_="own"), a_job(id_="bare"), a_job(hole_mm=4.0, id_="no"))
    record = cuts_as_record(cuts_of(*jobs, kerf_mm=0.5, keep_offcut_from_mm=200))
    assert [(job["job"], job["taken_from"], job["why_not"]) for job in record["jobs"]] == [
        ("own", "supplied", None),
        ("bare", "stock", None),
        ("no", None, "no_plan"),
    ]
    assert [(each["stock"], each["kind"]) for each in record["opened"]] == [
        ("supplied with own", "supplied"),
        ("roll", "roll"),
    ]
    for each in record["opened"]:
        used = sum(cut["length_mm"] for cut in each["cuts"]) + each["offcut_mm"] + each["scrap_mm"] + each["saw_mm"]
        assert used == pytest.approx(each["length_mm"])
    assert record["is_complete"] is False
