"""The strips of all shared holes of a visit, with the captions of its order."""

from planner.documents.drawings.hole_strip import draw_hole_strip
from planner.documents.drawings.svg import Picture
from planner.documents.words.visit_words import place_name, steps_in_short
from planner.whole_bike.visit_plan import VisitPlan


def draw_visit_strips(plan: VisitPlan) -> dict[str, Picture]:
    """A strip for each shared hole, by the id of its place; none where there is no order.

    Lines have the letters of the order: the one changed first is A.
    """
    ids = dict.fromkeys(step.line_id for step in plan.order)
    staying = (thing.line_id for story in plan.holes for moment in story.moments for thing in moment.things)
    letters = {line_id: chr(ord("A") + n) for n, line_id in enumerate(dict.fromkeys((*ids, *staying)))}
    captions = ("before", *(f"{n}. {words}" for n, words in enumerate(steps_in_short(plan), start=1)))
    return {
        story.place_id: draw_hole_strip(
            story, label=place_name(story.place_id, plan), captions=captions, letters=letters
        )
        for story in plan.holes
    }
