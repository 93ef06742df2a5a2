"""The strips of all shared holes of a visit, with the captions of its order."""

from planner.documents.drawings.hole_strip import LARGEST_SCALE, draw_hole_strip
from planner.documents.drawings.svg import Picture
from planner.documents.drawings.visit_lines import visit_letters
from planner.documents.words.visit_words import place_name, steps_in_short
from planner.whole_bike.visit_plan import VisitPlan


def draw_visit_strips(
    plan: VisitPlan, *, width_mm: float = 180.0, has_key: bool = True, most_scale_ratio: float = LARGEST_SCALE
) -> dict[str, Picture]:
    """A strip for each shared hole, by the id of its place; none where there is no order.

    Lines have the letters of the order: the one changed first is A.

    width_mm : of the paper; the height follows
    has_key : whether each tells below which letter is which line
    most_scale_ratio : how many times its size a hole is drawn at the most
    """
    letters = visit_letters(plan)
    captions = ("before", *(f"{n}. {words}" for n, words in enumerate(steps_in_short(plan), start=1)))
    return {
        story.place_id: draw_hole_strip(
            story,
            label=place_name(story.place_id, plan),
            captions=captions,
            letters=letters,
            width_mm=width_mm,
            has_key=has_key,
            most_scale_ratio=most_scale_ratio,
        )
        for story in plan.holes
    }
