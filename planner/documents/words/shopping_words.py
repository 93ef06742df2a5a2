"""A shopping list in words: a row for each small part, adapter and line, and what it leaves open."""

from collections import Counter
from collections.abc import Mapping

from planner.documents.words.cut_wording import cut_size
from planner.plan.cut_stock import StockLength
from planner.plan.line_orders import LineOrder
from planner.plan.shopping import PartToBuy, ShoppingList

PART_HEADS = ("Small part or adapter", "For", "Need", "Have", "To buy")
LINE_HEADS = ("Line", "For", "Need", "Have", "To buy")
NOT_COUNTED = "not counted"

Row = tuple[str, str, str, str, str]


def part_rows(found: ShoppingList, *, job_names: Mapping[str, str] | None = None) -> list[Row]:
    """Name, jobs, and pieces needed, there and to buy.

    job_names : what people call the jobs, by id; ids stand where a name is missing
    """
    return [_part_row(part, job_names or {}) for part in found.parts]


def _part_row(part: PartToBuy, names: Mapping[str, str]) -> Row:
    have = NOT_COUNTED if part.have is None else _pieces(part.have)
    return part.name, _jobs(part.job_ids, names), _pieces(part.need), have, _pieces(part.to_buy)


def line_rows(found: ShoppingList, *, job_names: Mapping[str, str] | None = None) -> list[Row]:
    """Name, jobs, and for each line what is needed, what lies on the shelf and what to buy.

    job_names : what people call the jobs, by id; ids stand where a name is missing
    """
    return [_line_row(order, job_names or {}) for order in found.lines]


def _line_row(order: LineOrder, names: Mapping[str, str]) -> Row:
    lengths = [piece.length_mm for piece in order.pieces]
    need = [_lengths([one for one in lengths if one is not None])]
    if unknown := lengths.count(None):
        need.append(f"{_pieces(unknown)} of a length not known")
    have = NOT_COUNTED if order.have is None else _have(order, order.have)
    jobs = _jobs(tuple(dict.fromkeys(piece.job_id for piece in order.pieces)), names)
    return order.line_name, jobs, _listed(need), have, _to_buy(order) or ("not known" if unknown else "nothing")


def _have(order: LineOrder, have: tuple[StockLength, ...]) -> str:
    there = Counter[float]()
    for each in have:
        there[each.length_mm] += each.quantity or 0
    told = _counted(there)
    enough = _pieces(order.from_shelf) if order.from_shelf else "none"
    return f"{told}, enough for {enough}" if told else "none"


def _to_buy(order: LineOrder) -> str:
    rolls = [f"{each.count} × {cut_size(each.length_mm)} ({each.stock_id})" for each in order.rolls]
    return _listed([*rolls, _lengths(order.lengths_mm)])


def _lengths(lengths_mm: tuple[float, ...] | list[float]) -> str:
    """Equal lengths together, longest first."""
    return _counted(Counter(lengths_mm))


def _counted(lengths: Counter[float]) -> str:
    return " + ".join(
        f"{many} × {cut_size(length_mm)}" for length_mm, many in sorted(lengths.items(), reverse=True) if many
    )


def _listed(told: list[str]) -> str:
    return ", ".join(filter(None, told))


def _pieces(count: int) -> str:
    return f"{count} piece{'' if count == 1 else 's'}"


def _jobs(ids: tuple[str, ...], names: Mapping[str, str]) -> str:
    return ", ".join(names.get(id, id) for id in ids)


def shopping_remarks(found: ShoppingList, *, job_names: Mapping[str, str] | None = None) -> list[str]:
    """What the list leaves open, a sentence for each.

    job_names : what people call the jobs, by id; ids stand where a name is missing
    """
    said = []
    if any(part.have is None for part in found.parts):
        said.append(
            "What nobody counted is bought in full; how many there are is said with each small part and adapter in the "
            "catalog."
        )
    if any(order.have is None and order.line_id for order in found.lines):
        said.append("No stock was told to cut the lines from: each length is to be bought in one piece, or longer.")
    if any(order.have is not None for order in found.lines):
        said.append(
            "Lines are cut from the shelf as far as it goes, the rest from the fewest rolls; a cut list tells which."
        )
    if not all(order.is_fewest for order in found.lines):
        said.append("It is not proven that no fewer rolls would do.")
    if any(not order.line_id for order in found.lines):
        said.append(
            "A wire, or a line with an end set at the factory, is not cut from stock: it is bought that long or "
            "longer, with its ends on it."
        )
    if found.without_plan:
        told = _jobs(found.without_plan, job_names or {})
        said.append(f"Without a plan to work from, and so not counted: {told}.")
    return said
