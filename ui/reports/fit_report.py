"""The answer to the quick question, in the terminal."""

from rich.text import Text

from planner import millimetres
from planner.verdicts import Outcome
from ui.commands.fit import FitAnswer, FitQuestion
from ui.reports.plan_report import OUTCOME_STYLES
from ui.reports.report import print_report

VERDICTS = {
    Outcome.FITS: "It passes",
    Outcome.TIGHT: "It passes, but it is tight",
    Outcome.UNKNOWN: "Not proven: measure",
    Outcome.NO_FIT: "It does not pass",
}


def print_answer(question: FitQuestion, answer: FitAnswer) -> None:
    """Print the answer for people."""
    fit = answer.side_by_side
    things = " + ".join(f"{diameter_mm:g}" for diameter_mm in question.item_diameters_mm)
    text = Text(f"{VERDICTS[answer.outcome]}: {things} mm through {question.opening_text} mm", style="bold")
    text.stylize(OUTCOME_STYLES[answer.outcome])
    text.append(f"\n  clearance {millimetres(fit.clearance_mm)}, in the worst case ")
    text.append(f"{millimetres(fit.worst_clearance_mm)}; fit class: {fit.fit_class or 'not proven'}")
    if fit.band_mm is not None:
        text.append(f"\n  the clearance lies between {fit.band_mm[0]:.3f} and {fit.band_mm[1]:.3f} mm: measure")
    if fit.placement is not None:
        for (x_mm, y_mm), diameter_mm in zip(fit.placement.centres_mm, fit.placement.diameters_mm, strict=True):
            text.append(f"\n  {diameter_mm:g} mm lies at {x_mm:+.2f} mm along the hole, {y_mm:+.2f} mm across")
    if answer.rigid is not None:
        text.append(f"\n  a stiff piece up to {millimetres(answer.longest_rigid_mm)} long dips through into the tube")
    print_report(text)
