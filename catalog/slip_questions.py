"""What in files of frames and shops is likely a slip: questions with their lines, beside what is wrong."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from pathlib import Path

from catalog.checking import contents_of_files
from catalog.errors import Problem
from catalog.frames import FrameEntry
from catalog.open_catalog import starter_work
from catalog.read_files import Placed
from catalog.shop import ShopEntry, over, questions_of_tax
from catalog.slips import slip_limits
from catalog.starter_place import STARTER_FOLDER
from catalog.to_parts import to_frame
from catalog.yaml_text import Path as PathInFile
from planner import find_frame_names, find_slips, sentence_for
from planner.parts import Frame, SlipLimits
from planner.rules import SlipRule
from planner.verdicts import Check

_FIELDS: dict[object, str] = {
    SlipRule.POINTS_OUT: "heading",
    SlipRule.BACKWARDS: "heading",
    SlipRule.ANCHOR_BACKWARDS: "heading",
    SlipRule.STANDS_STILL: "moves_with",
    SlipRule.DRAWN_CALIPER: "is_",
}
"""What a question about a hole or an anchor is about; else its place."""


def questions_of_files(paths: Sequence[Path], *, over_starter: bool = False) -> list[Problem]:
    """What to ask about the frames and the shop in some files, as if a slip had been made: none of it is refused.

    Frames with anything wrong in them are mended first and not asked about.

    over_starter : whether the files are laid over the starter catalog, or stand for themselves
    """
    contents = contents_of_files(paths, over_starter=over_starter)
    placed = contents.placed
    own = next((item.entry for item in placed if item.section == "shop"), None)
    shop = over(own, starter_work().shop or ShopEntry())
    limits = slip_limits(shop.slips)
    asked: list[Problem] = []
    for item in placed:
        is_starter = Path(item.document.file).parent == STARTER_FOLDER
        if item.section == "shop" and item.entry is not None and item.entry.tax is not None and not is_starter:
            asked.extend(_questions_of_tax(item, item.entry.tax))
        if item.section != "frames" or item.entry is None or is_starter or _is_wrong(item, contents.problems):
            continue
        asked.extend(_questions_of_frame(item, to_frame(item.entry, shop=shop), limits))
    return asked


def _questions_of_tax(item: Placed, tax_ratio: Decimal) -> Iterator[Problem]:
    for given, asked in questions_of_tax(tax_ratio):
        yield item.problem(("tax",), given=given, allowed=asked)


def _is_wrong(frame: Placed, problems: Sequence[Problem]) -> bool:
    here = [problem.thing for problem in problems if problem.file == frame.document.file]
    return any(thing == f"frame {frame.id}" or thing.startswith(f"frame {frame.id} ") for thing in here)


def _questions_of_frame(item: Placed, frame: Frame, limits: SlipLimits | None) -> Iterator[Problem]:
    names = find_frame_names(frame)
    for check in find_slips(frame=frame, limits=limits, with_loops=True):
        path = _place_of(check, item.entry)
        yield item.problem(path, given=_given(item.raw, path), allowed=sentence_for(check, names=names))


def _place_of(check: Check, entry: FrameEntry) -> PathInFile:
    """Where in the frame's entry the question stands; what is generated stands where its list would be."""
    if check.run_id is not None:
        (place,) = (place for place, run in enumerate(entry.runs) if run.id == check.run_id)
        run = entry.runs[place]
        if check.rule is SlipRule.LOOPS:
            return ("runs", place)
        return ("runs", place, "length") if run.length is not None else ("runs", place, "guide", "length")
    if check.port_id is None:
        return _FRAME_FIELDS.get(check.rule, ())
    for name, things in (("ports", entry.ports), ("anchors", entry.anchors), ("zones", entry.zones)):
        for place, thing in enumerate(things):
            if thing.id == check.port_id:
                return (name, place, *_field_of(check, thing))
    return ("geometry",)


_FRAME_FIELDS: dict[object, PathInFile] = {
    SlipRule.STEERING_AXIS: ("bar", "axis_point"),
    SlipRule.TABLE_OPEN: ("geometry",),
}


def _field_of(check: Check, thing: object) -> PathInFile:
    """The field asked about, where the entry tells it: of a hole told on its tube, that."""
    wanted = "path" if hasattr(thing, "path") else _FIELDS.get(check.rule, "at")
    fields = (wanted, "on") if wanted in ("at", "heading") else (wanted,)
    return next(((field.removesuffix("_"),) for field in fields if getattr(thing, field, None) not in (None, ())), ())


def _given(raw: object, path: PathInFile) -> str:
    """What stands there as it was typed, as far as it is short."""
    for step in path:
        raw = raw.get(step) if isinstance(raw, dict) else raw[step] if isinstance(raw, list) else None  # type: ignore[index]
    if isinstance(raw, str):
        return f"{raw} was given"
    if isinstance(raw, int | float):
        return f"{raw:g} was given"
    if isinstance(raw, list) and all(isinstance(number, int | float) for number in raw):
        return f"[{', '.join(f'{number:g}' for number in raw)}] was given"
    return "as told"
