"""The job card: everything the mechanic needs is on it, and the same input gives the same bytes."""

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from planner.documents.drawings.svg import Picture
from planner.documents.paper.job_card import card_pictures, job_card_pdf
from planner.fit.measure_first import MeasureFirst
from planner.parts import JobEnd, RescueCase, RescueKind
from planner.plan.names import find_frame_names
from planner.plan.routing_plan import PartNeeded, RescueLine, RoutingPlan, Step
from planner.rules import JointRule
from planner.verdicts import Check, Outcome
from tests.planner.documents.drawing_samples import make_frame, make_plan, make_stopped_plan
from tests.planner.documents.paper_reading import fonts_of, page_sizes_mm, text_of

MEASUREMENT = MeasureFirst(
    place_id="belly-left",
    what="diameter",
    outcome=Outcome.TIGHT,
    clearance_mm=0.1,
    chance_ratio=0.9,
    outcome_change_ratio=0.3,
    narrowing_ratio=0.5,
    reason="it decides, measure it",
)
HARD_TEXT = "Ø 5,0 · café Łódź ŠČ Ελλάδα Ωμέγα Ёж ↔ → ← ≥ ½ — “quoted” <b>&amp; €"


def step(n: int, text: str, *cautions: str) -> Step:
    return Step(
        n=n, id=f"step-{n}", text=text, why=f"reason {n}", cautions=cautions, least_min=1, likely_min=2, most_min=3
    )


def whole_plan() -> RoutingPlan:
    """A plan with something under every heading; its checks carry a rule that the sheet knows sentences for."""
    plan = make_plan()
    spoke = Check(rule=JointRule.SPOKE_BORE, outcome=Outcome.FITS, size_mm=2.0, available_mm=2.1)
    return replace(
        plan,
        checks=(*plan.checks, spoke),
        from_anchor_id="bar-right",
        to_anchor_id="caliper-rear",
        parts=(PartNeeded(id="olive-50", name="Olive for 5.0 mm hose", quantity=2),),
        steps=(step(1, "Cut it square."), step(2, "Bleed it.", "Fluid harms eyes.", "Wear glasses.")),
        cautions=("Work on brakes is for people trained to do it.",),
        measure_first=(MEASUREMENT,),
        advisories=(replace(spoke, available_mm=2.3),),
        needs=("fluid:glycol_dot5_1",),
        names=find_frame_names(make_frame()),
    )


def card(plan: RoutingPlan | None = None, **more: object) -> bytes:
    """Without pictures, which cost half a second, unless a test is about them."""
    more.setdefault("pictures", [])
    return job_card_pdf(plan=plan or whole_plan(), frame=make_frame(), **more)  # type: ignore[arg-type]


def test_everything_for_the_bench_is_on_the_card() -> None:
    text = text_of(card(date_text="14 March 2031", shop_name="Bench at the canal"))
    for wanted in (
        "Rear brake swap on the Larkmoor 140",
        "14 March 2031",
        "Bench at the canal · rear-brake-swap",
        "✓ fits",
        "bar-right → Down tube, upper left → ",
        "✂ Old line cut near bar-right",
        "☐ 1. Cut it square. reason 1 2 (1–3)",
        "☐ 2. Bleed it. ⚠ B Fluid harms eyes. ⚠ C Wear glasses.",
        "⚠ A Work on brakes is for people trained to do it.",
        "☐ 2 × Olive for 5.0 mm hose olive-50",
        "☐ it decides, measure it",
        "Down tube, upper left neck-left drawing gear-40 5.23 mm",
        "✓ a spoke of 2.00 mm lies in a bore of 2.10 mm",
        "page 1 of",
    ):
        assert wanted in text


def test_the_sheet_for_what_sticks_has_a_page_of_its_own() -> None:
    lines = (
        RescueLine(case=RescueCase.STUCK, kind=RescueKind.NEVER, text="Pull harder."),
        RescueLine(case=RescueCase.STUCK, kind=RescueKind.TRY, text="Go back."),
        RescueLine(case=RescueCase.STUCK, kind=RescueKind.TRY, text="Turn it."),
        RescueLine(case=RescueCase.PARTED, kind=RescueKind.STOP, text="When a piece is lost."),
    )
    without, pdf = card(), card(replace(whole_plan(), rescue=lines))
    text = text_of(pdf)
    for wanted in ("When it sticks", "Never – Pull harder.", "1. Go back. 2. Turn it.", "– When a piece is lost."):
        assert wanted in text
    assert len(page_sizes_mm(pdf)) == len(page_sizes_mm(without)) + 1
    assert "When it sticks" not in text_of(without)


def test_marks_are_counted_from_the_leading_end_along_the_way() -> None:
    plan = whole_plan()
    assert plan.lengths is not None
    down, loop, stay = (leg.nominal_mm for leg in plan.lengths.legs[1:4])
    assert f"☐ {down + loop:.0f} mm from its leading end Chainstay, front left" in text_of(card(plan))
    backwards = text_of(card(replace(plan, feed_from=JobEnd.TO)))
    assert f"☐ {stay:.0f} mm from its leading end Chainstay, front left" in backwards
    assert f"☐ {stay + loop + down:.0f} mm from its leading end Down tube, upper left" in backwards


def test_a_short_line_is_told_with_what_is_missing() -> None:
    plan = whole_plan()
    assert plan.lengths is not None
    short = replace(plan, lengths=replace(plan.lengths, cut_mm=1725, supplied_mm=1700, spare_mm=-25))
    assert "cut to 1725 mm (never shorter), but as supplied it is 25 mm too short (1700 mm)" in text_of(card(short))
    untold = replace(plan, lengths=replace(plan.lengths, cut_mm=1725, supplied_mm=None, spare_mm=None))
    assert "cut to 1725 mm (never shorter); how long it is as supplied was not told" in text_of(card(untold))


def test_a_no_is_printed_with_its_proof() -> None:
    stopped = make_stopped_plan()
    text = text_of(card(stopped))
    assert "✗ does not fit" in text
    assert "6.71 mm does not pass" in text
    assert "Steps" not in text


@pytest.mark.parametrize(("page_size", "size_mm"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
def test_every_page_has_the_size_asked_for(page_size: str, size_mm: tuple[float, float]) -> None:
    assert set(page_sizes_mm(card(page_size=page_size))) == {size_mm}


def test_accents_greek_cyrillic_and_arrows_survive() -> None:
    plan = replace(whole_plan(), job_title=HARD_TEXT, steps=(step(1, HARD_TEXT, HARD_TEXT),))
    assert text_of(card(plan, date_text=HARD_TEXT, shop_name=HARD_TEXT)).count(HARD_TEXT) >= 4


def test_all_fonts_are_embedded() -> None:
    fonts = fonts_of(card(pictures=None))
    assert fonts
    assert all(fonts.values()), fonts


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert card(pictures=None) == card(pictures=None)


def test_another_run_of_the_program_gives_the_same_bytes() -> None:
    code = (
        "import sys; from tests.planner.documents.test_job_card import card; "
        "sys.stdout.buffer.write(card(pictures=None))"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", code],
            cwd=Path(__file__).parents[3],
            env={"PYTHONHASHSEED": seed, "PATH": "/usr/bin:/bin", "TZ": zone, "LC_ALL": "C.UTF-8"},
            capture_output=True,
            check=True,
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    ]
    assert runs[0] == runs[1] == card(pictures=None)


def test_what_looks_like_markup_is_printed_as_it_stands() -> None:
    nasty = "<font size=40>big</font> & </para> <img src='x'/> \x07"
    text = text_of(card(replace(whole_plan(), job_title=nasty, steps=(step(1, nasty),))))
    assert text.count("<font size=40>big</font> & </para> <img src='x'/>") >= 2


def test_texts_longer_than_a_page_do_not_break_the_card() -> None:
    endless = "word " * 3000 + "x" * 2000
    pdf = card(replace(whole_plan(), steps=(step(1, endless),), cautions=(endless,)))
    assert text_of(pdf).count("word") >= 6000


def test_many_steps_and_cautions_are_all_there() -> None:
    steps = tuple(step(n, f"Do thing {n}.", f"Danger {n}.") for n in range(1, 81))
    text = text_of(card(replace(whole_plan(), steps=steps)))
    assert all(f"☐ {n}. Do thing {n}." in text for n in range(1, 81))
    assert "⚠ AA" in text
    assert "⚠ CC Danger 80." in text


def test_sections_are_drawn_narrow_enough_to_keep_their_true_size() -> None:
    pdf = text_of(card(pictures=None))
    assert "True size 1:1" in pdf
    assert "% of its size" not in pdf


def test_a_picture_too_wide_is_made_smaller_and_that_is_said() -> None:
    wide = '<svg xmlns="http://www.w3.org/2000/svg" width="360mm" height="20mm" viewBox="0 0 360 20"></svg>'
    picture = Picture(svg=wide, width_mm=360, height_mm=20)
    assert "printed at 50 % of its size" in text_of(card(pictures=[picture]))


def test_the_usual_pictures_are_the_way_and_the_tightest_moment_of_every_hole() -> None:
    plan = whole_plan()
    loose = replace(plan.checks[0], worst_clearance_mm=2.0, clearance_mm=2.2, available_mm=7.43)
    pictures = card_pictures(replace(plan, checks=(loose, *plan.checks)), make_frame())
    assert len(pictures) == 1 + len(plan.route)
    assert make_frame().ports["neck-left"].label in pictures[1].svg
    assert pictures == card_pictures(plan, make_frame())
