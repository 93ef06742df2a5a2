"""Money is exact from a file's edge on: decimal text in files, Decimal in every part and quote, and never a float."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from decimal import Decimal
from pathlib import Path

import pytest

import planner
from catalog import STARTER_FOLDER, CatalogProblems, read_catalog
from catalog.shop import ShopEntry
from catalog.small_parts import SmallPartEntry
from planner import parts

MONEY_WORDS = ("price", "labour", "money", "tax", "total", "rate")
DECIMALS = ("Decimal", "Decimal | None")


def money_fields() -> Iterator[tuple[str, str]]:
    """Every field of a part, a quote or a cut list that is named after money, with its type as written."""
    for package in (parts, planner):
        for kind in (getattr(package, name) for name in package.__all__):
            if isinstance(kind, type) and is_dataclass(kind):
                for field in fields(kind):
                    if not set(MONEY_WORDS).isdisjoint(field.name.split("_")):
                        told = field.type if isinstance(field.type, str) else getattr(field.type, "__name__", "")
                        yield f"{kind.__name__}.{field.name}", told or str(field.type).replace("decimal.", "")


def test_every_amount_is_a_decimal() -> None:
    found = dict(money_fields())
    assert {"Brake.price", "Line.price_per_m", "SmallPart.price", "ShopLimits.tax_ratio", "Quote.total"} <= set(found)
    assert {name: told for name, told in found.items() if told not in DECIMALS} == {}


def test_an_amount_keeps_its_digits_from_the_file_to_the_part(tmp_path: Path) -> None:
    own = tmp_path / "own.yaml"
    own.write_text('format: 1\nparts:\n  - {id: dear, price: "1000000.0000"}\n  - {id: free, price: "0.10"}\n')
    bought = read_catalog([own]).workshop.small_parts
    assert [str(part.price) for part in bought.values()] == ["1000000.0000", "0.10"]


@pytest.mark.parametrize("text", ["1,20", "-1", "ten", "NaN", "Infinity", "1e3", "", " 1", "1.20\\n", "1.23456"])
def test_what_is_no_amount_is_refused(text: str, tmp_path: Path) -> None:
    own = tmp_path / "own.yaml"
    own.write_text(f'format: 1\nparts:\n  - {{id: part, price: "{text}"}}\n')
    with pytest.raises(CatalogProblems, match=r"part part > price: .* was given, decimal text in quotes"):
        read_catalog([own])


def test_an_entry_writes_an_amount_as_it_read_it() -> None:
    entry = SmallPartEntry.model_validate({"id": "olive", "price": "1.20"})
    assert entry.price == Decimal("1.20")
    assert entry.model_dump()["price"] == entry.model_dump(mode="json")["price"] == "1.20"
    shop = ShopEntry.model_validate({"tax": "0.20", "money_step": "0.05"})
    assert ShopEntry.model_validate(shop.model_dump(exclude_none=True)) == shop


def test_starter_prices_are_decimals() -> None:
    workshop = read_catalog([STARTER_FOLDER]).workshop
    priced = [part.price for part in workshop.small_parts.values() if part.price is not None]
    assert priced
    assert all(isinstance(price, Decimal) for price in (*priced, workshop.limits.labour_per_hour))
