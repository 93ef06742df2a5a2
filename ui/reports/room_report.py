"""The smallest hole or the thickest thing, in the terminal."""

from rich.text import Text

from planner import millimetres
from planner.verdicts import Outcome
from ui.reports.report import print_report
from ui.shared.fit_question import FitQuestion, wedge_sentence
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.room_asked import RoomAnswer, room_sentence

DRILL_WORDS = "For a frame that is being made: a finished one is never drilled, filed or widened."


def print_room(question: FitQuestion, answer: RoomAnswer) -> None:
    """Print what was sought, what is left to the things, and what of it is proven."""
    text = Text(f"{room_sentence(question, answer)}.", style="bold")
    outcome = Outcome.NO_FIT if answer.size_mm is None else Outcome.FITS
    text.stylize(OUTCOME_LOOKS[outcome].terminal_style)
    if answer.size_mm is not None:
        text.append(
            f"\n  {millimetres(answer.running_clearance_mm)} is left to run in the worst case: "
            f"hole ±{answer.tolerance_mm:g} mm, things ±{question.item_tolerance_mm:g} mm"
        )
        text.append(f"\n  {_proof(answer)}")
    if answer.wedge is not None:
        text.append(f"\n  {wedge_sentence(answer.wedge)}")
    if answer.asks_opening and answer.size_mm is not None:
        text.append(f"\n  {DRILL_WORDS}")
    print_report(text)


def _proof(answer: RoomAnswer) -> str:
    side = "smaller" if answer.asks_opening else "thicker"
    if answer.is_proven:
        return f"proven: nothing {side} by a hundredth does"
    if answer.proven_mm is None:
        return f"proven by a placement; whether something {side} does is not proven"
    limit = "below" if answer.asks_opening else "above"
    return f"proven by a placement, and that nothing {limit} {answer.proven_mm:.2f} mm does; between them it is open"
