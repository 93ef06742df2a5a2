"""The answer to the quick question, in the terminal."""

from rich.text import Text

from planner import finely, fit_class_words, millimetres, sentence_for
from planner.rules import WORK_RAN_OUT
from planner.verdicts import Check, Outcome
from ui.reports.report import print_report
from ui.shared.fit_question import FitAnswer, FitQuestion, doubt_sentence, quick_sentence, wedge_sentence
from ui.shared.outcome_looks import OUTCOME_LOOKS


def print_answer(question: FitQuestion, answer: FitAnswer) -> None:
    """Print the answer for people."""
    fit = answer.side_by_side
    text = Text(quick_sentence(question, answer), style="bold")
    text.stylize(OUTCOME_LOOKS[answer.outcome].terminal_style)
    text.append(f"\n  clearance {millimetres(fit.clearance_mm)}, in the worst case ")
    text.append(f"{millimetres(fit.worst_clearance_mm)}; fit class: {fit_class_words(fit.fit_class)}")
    if fit.band_mm is not None:
        low, high = (finely(size_mm, digits=3) for size_mm in fit.band_mm)
        text.append(f"\n  the clearance lies between {low} and {high} mm: measure")
    if doubt := doubt_sentence(fit):
        text.append(f"\n  {doubt}")
    if fit.placement is not None:
        for (x_mm, y_mm), diameter_mm in zip(fit.placement.centres_mm, fit.placement.diameters_mm, strict=True):
            text.append(
                f"\n  {round(diameter_mm, 2):g} mm lies at {x_mm:+.2f} mm along the hole, {y_mm:+.2f} mm across"
            )
    if fit.proof == WORK_RAN_OUT:
        text.append("\n  the search used up its allowance of work before this was decided")
    if answer.wedge is not None:
        text.append(f"\n  {wedge_sentence(answer.wedge)}")
    if answer.rigid is not None:
        text.append(f"\n  a stiff piece up to {millimetres(answer.longest_rigid_mm)} long dips through into the tube")
    print_report(text)


def print_no_joint(outcome: Outcome, against: tuple[Check, ...]) -> None:
    """Print why the joint asked about cannot be made between these lines."""
    text = Text("This joint cannot be made between these lines.", style="bold")
    text.stylize(OUTCOME_LOOKS[outcome].terminal_style)
    for check in against:
        sentence = sentence_for(check)
        text.append(f"\n  {sentence[0].upper()}{sentence[1:]}.")
    print_report(text)
