"""What a stock file says after the cuts: rolls fewer, used-up offcuts gone, new offcuts there; comments stay."""

import json
import re
from collections import Counter
from collections.abc import Collection, Iterator
from itertools import count

from pydantic import ValidationError

from catalog.open_stock import Stock
from catalog.stock import StockEntry, StockFile
from catalog.yaml_text import YamlText, read_yaml
from planner import CutList


def stock_text_after(stock: Stock, cut_list: CutList) -> str:
    """The text of the stock file once everything in the cut list has been cut.

    The file is changed line by line, so that comments and layout stay. One whose stock is not a list with a dash in
    front of every entry is written anew, without them.
    """
    after = stock_after(stock, cut_list)
    if after == stock.entries:
        return stock.text
    edited = _edited(stock, after)
    return edited if edited is not None and _says(edited, after) else _written_anew(after)


def stock_after(stock: Stock, cut_list: CutList) -> StockFile:
    """The stock that is left. A roll that is used up stays with quantity 0, so that its length and price are known."""
    opened = Counter(each.stock_id for each in cut_list.opened)
    left = [_less(entry, opened[entry.id]) for entry in stock.entries.stock]
    kept = [entry for entry, used in zip(left, stock.entries.stock, strict=True) if not _is_gone(entry, used)]
    new = _new_offcuts(cut_list, taken={entry.id for entry in stock.entries.stock})
    return stock.entries.model_copy(update={"stock": (*kept, *new)})


def _less(entry: StockEntry, opened: int) -> StockEntry:
    if entry.quantity is None:
        return entry
    return entry.model_copy(update={"quantity": entry.quantity - opened})


def _is_gone(after: StockEntry, before: StockEntry) -> bool:
    return before.offcut and after.quantity == 0 and before.quantity != 0


def _new_offcuts(cut_list: CutList, *, taken: Collection[str]) -> Iterator[StockEntry]:
    taken = set(taken)
    for opened in cut_list.opened:
        if opened.offcut_mm > 0:
            stem = re.sub(r"[^\w.+-]+", "-", re.sub(r"-rest-\d+$", "", opened.stock_id))[:50]
            id_ = next(id_ for number in count(1) if (id_ := f"{stem}-rest-{number}") not in taken)
            taken.add(id_)
            yield StockEntry(id=id_, line=opened.line_id, length=opened.offcut_mm, quantity=1, offcut=True)


def _says(text: str, wanted: StockFile) -> bool:
    try:
        return StockFile.model_validate(read_yaml(text.encode("utf-8")).value) == wanted
    except ValidationError:
        return False


def _edited(stock: Stock, after: StockFile) -> str | None:
    """The text with only the lines changed that must be; None where it is not laid out for that."""
    before = stock.entries.stock
    if not before:
        return None
    told = read_yaml(stock.text.encode("utf-8"))
    rows = stock.text.split("\n")
    places = [_rows_of(told, place) for place in range(len(before))]
    dash = re.match(r"(\s*)- ", rows[places[0].start]) if places[0].stop <= len(rows) else None
    if dash is None or places[-1].stop > len(rows):
        return None
    left = {entry.id: entry for entry in after.stock}
    changed: dict[int, str | None] = {}
    for entry, place in zip(before, places, strict=True):
        if entry.id not in left:
            changed.update(dict.fromkeys(place))
        elif left[entry.id].quantity != entry.quantity:
            changed.update(_recounted(rows, place, left[entry.id].quantity))
    known = {entry.id for entry in before}
    added = [f"{dash[1]}- {_in_braces(entry)}" for entry in after.stock if entry.id not in known]
    new_rows = [changed.get(n, row) for n, row in enumerate(rows[: places[-1].stop])] + added + rows[places[-1].stop :]
    return "\n".join(row for row in new_rows if row is not None)


def _rows_of(told: YamlText, place: int) -> range:
    """The rows of an entry, counted from 0."""
    lines = [line for path, line in told.lines.items() if path[:2] == ("stock", place)]
    return range(min(lines, default=1) - 1, max(lines, default=1))


def _recounted(rows: list[str], place: range, quantity: int | None) -> dict[int, str | None]:
    pattern = r"((?:^|[\s{,])quantity:\s+)\d+"
    return {n: re.sub(pattern, rf"\g<1>{quantity}", rows[n], count=1) for n in place}


def _written_anew(after: StockFile) -> str:
    rows = ["format: 1"]
    if after.kerf:
        rows.append(f"kerf: {_value(after.kerf)}")
    if after.keep_offcut_from is not None:
        rows.append(f"keep_offcut_from: {_value(after.keep_offcut_from)}")
    rows.append("stock:" if after.stock else "stock: []")
    rows.extend(f"  - {_in_braces(entry)}" for entry in after.stock)
    return "\n".join(rows) + "\n"


def _in_braces(entry: StockEntry) -> str:
    told = entry.model_dump(mode="json", exclude_defaults=True)
    order = [name for name in ("id", "line", "length", "quantity", "offcut", "price", "note", "source") if name in told]
    return "{" + ", ".join(f"{name}: {_value(told[name])}" for name in order) + "}"


def _value(value: object) -> str:
    """A value as YAML reads it back: words plain where that is safe, everything else as in JSON."""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    if isinstance(value, str) and re.fullmatch(r"[a-z][a-z0-9_-]*", value) and value not in ("true", "false", "null"):
        return value
    return json.dumps(value, ensure_ascii=False)
