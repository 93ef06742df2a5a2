"""The catalog that comes with the program: which of its entries stand beside a shop's own, and which give way.

A catalog without shop, steps, cautions, rescues, measures or things at hand takes the starter's: the shop field by
field, cautions by id, own steps all together, own rescues, measures and things at hand likewise. A single starter step
cannot be edited.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from catalog.cross_checks import SHELVES
from catalog.naming import SECTION_WORDS
from catalog.read_files import Placed
from catalog.starter_place import is_starter_file

WORK_FILES = ("shop.yaml", "steps.yaml", "cautions.yaml", "rescue.yaml", "measuring.yaml", "at_hand.yaml")
"""Files of the starter catalog that stand in wherever a catalog leaves their content out."""

_REPLACED_WHOLE = ("steps", "rescues", "measures", "at_hand")

WORK_SECTIONS = frozenset({"shop", "steps", "cautions", "rescues", "measures", "at_hand"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Layers:
    """Entries of the starter catalog and of a shop's own files, laid over each other.

    placed : what counts, own entries first
    given_way : (section, id) of each starter entry that an own one stands in for
    told : those of them that say something else than the own one, in words such as "line hose-50x21"
    """

    placed: tuple[Placed, ...]
    given_way: frozenset[tuple[str, str]]
    told: tuple[str, ...]


def lay_over_starter(placed: Sequence[Placed]) -> Layers:
    """Own entries over the starter's: the same id, and the own one counts.

    Shop limits, steps, cautions, rescues, measures and things at hand of the starter give way as soon as own files have
    any; what they then leave out is filled in where the catalog is put together.
    """
    own = [item for item in placed if not is_starter_file(item.document.file)]
    own_sections = {item.section for item in own}
    by_key = {(SHELVES.get(item.section, item.section), item.id or ""): item for item in own if item.id}
    below: list[Placed] = []
    given_way: dict[tuple[str, str], bool] = {}
    for item in placed:
        if not is_starter_file(item.document.file):
            continue
        stands_in = by_key.get((SHELVES.get(item.section, item.section), item.id or ""))
        if stands_in is not None:
            given_way[item.section, item.id or ""] = stands_in.raw != item.raw
        elif item.section not in WORK_SECTIONS & own_sections:
            below.append(item)
    told = tuple(
        f"{SECTION_WORDS[section]} {id_}"
        for (section, id_), differs in given_way.items()
        if differs and section not in _REPLACED_WHOLE  # own ones replace them all, whatever their ids
    )
    return Layers(placed=(*own, *below), given_way=frozenset(given_way), told=told)
