"""A shopping list in words: a row for each small part and each line, and what it leaves open."""

from collections.abc import Mapping

from planner.documents.words.cut_wording import cut_size
from planner.plan.shopping import ShoppingList

PART_HEADS = ("Small part", "For", "Need", "Have", "To buy")
LINE_HEADS = ("Line to cut", "For", "Length")
NOT_COUNTED = "not counted"


def part_rows(
    found: ShoppingList, *, job_names: Mapping[str, str] | None = None
) -> list[tuple[str, str, str, str, str]]:
    """Name, jobs, and pieces needed, there and to buy.

    job_names : what people call the jobs, by id; ids stand where a name is missing
    """
    names = job_names or {}
    return [
        (
            part.name,
            ", ".join(names.get(id, id) for id in part.job_ids),
            str(part.need),
            NOT_COUNTED if part.have is None else str(part.have),
            str(part.to_buy),
        )
        for part in found.parts
    ]


def line_rows(found: ShoppingList, *, job_names: Mapping[str, str] | None = None) -> list[tuple[str, str, str]]:
    """Name, job and length of each line that did not come with its job.

    job_names : what people call the jobs, by id; ids stand where a name is missing
    """
    names = job_names or {}
    return [
        (
            line.line_name,
            names.get(line.job_id, line.job_id),
            "not known" if line.length_mm is None else cut_size(line.length_mm),
        )
        for line in found.lines
    ]


def shopping_remarks(found: ShoppingList, *, job_names: Mapping[str, str] | None = None) -> list[str]:
    """What the list leaves open, a sentence for each.

    job_names : what people call the jobs, by id; ids stand where a name is missing
    """
    names = job_names or {}
    said = []
    if any(part.have is None for part in found.parts):
        said.append(
            "What nobody counted is bought in full; how many there are is said with each small part in the catalog."
        )
    if found.lines:
        said.append("Which rolls and offcuts the lines are cut from is told by a cut list.")
    if found.without_plan:
        told = ", ".join(names.get(id, id) for id in found.without_plan)
        said.append(f"Without a plan to work from, and so not counted: {told}.")
    return said
