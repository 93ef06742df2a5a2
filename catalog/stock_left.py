"""What a stock file says after the cuts: rolls fewer, used-up offcuts gone, new offcuts there, and what was taken.

Only what changes is written; every comment and all layout stay. A text in which that cannot be done is refused.
"""

import re
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from itertools import count
from typing import Any

from catalog.edit_yaml import edit_yaml
from catalog.open_stock import Stock
from catalog.stock import StockEntry, StockFile, TakenEntry
from catalog.yaml_text import read_yaml
from planner import CutList


def stock_file_text(fields: Mapping[str, Any]) -> str:
    """The text of a stock file that says just this."""
    return edit_yaml("format: 1\n", {"format": 1, **fields})


def stock_text_after(stock: Stock, cut_list: CutList, *, taken: TakenEntry | None = None) -> str:
    """The text of the stock file once everything in the cut list has been cut.

    taken : a note of what was taken; None for none

    Raises TextNotEditable where the file is written so that its values cannot be changed one by one.
    """
    text = _text_with(stock.text, stock_after(stock, cut_list), stock.entries)
    if taken is None or not cut_list.opened:
        return text
    value = _value_of(text)
    return edit_yaml(text, {**value, "taken": [*(value.get("taken") or ()), _plain(taken)]})


def _text_with(text: str, after: StockFile, before: StockFile) -> str:
    """First what is new and what has another number, then without what is gone: each finds the others by their ids."""
    value = _value_of(text)
    left = {entry.id: entry for entry in after.stock}
    known = {entry.id for entry in before.stock}
    counted = [_recounted(raw, left.get(str(raw["id"]))) for raw in value["stock"]]
    new = [_plain(entry) for entry in after.stock if entry.id not in known]
    grown = {**value, "stock": [*counted, *new]}
    text = edit_yaml(text, grown)
    return edit_yaml(text, {**grown, "stock": [raw for raw in grown["stock"] if raw["id"] in left]})


def _value_of(text: str) -> dict[str, Any]:
    value = read_yaml(text.encode("utf-8")).value
    return dict(value) if isinstance(value, dict) else {}


def _recounted(raw: Mapping[str, Any], left: StockEntry | None) -> dict[str, Any]:
    if left is None or left.quantity is None:
        return dict(raw)
    return {**raw, "quantity": left.quantity}


def _plain(entry: Any) -> dict[str, Any]:
    """An entry as people write it: whole numbers without a point, nothing that may be left out."""
    told: dict[str, Any] = entry.model_dump(mode="json", exclude_defaults=True)
    return {name: _short(value) for name, value in told.items()}


def _short(value: Any) -> Any:
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, Mapping):
        return {name: _short(inner) for name, inner in value.items()}
    return [_short(inner) for inner in value] if isinstance(value, list) else value


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
