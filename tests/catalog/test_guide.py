"""The guide to telling a frame: its examples are taken, its tables are the schema's, each example fits its field."""

import re
from collections.abc import Iterator
from typing import Annotated, Any

import pytest
import yaml
from pydantic import TypeAdapter

from catalog.asked_fields import FRAME_KINDS
from catalog.commented_yaml import commented_text
from catalog.frames import FrameEntry
from catalog.guide_tables import GUIDE, example_of, guide_text
from planner.parts import Frame
from tests.catalog.samples import catalog_of, problems_in

TEXT = GUIDE.read_text(encoding="utf-8")
BLOCKS = re.findall(r"```yaml ?([^\n]*)\n(.*?)```", TEXT, re.DOTALL)


def _frames() -> Iterator[tuple[str, str]]:
    """The frame of the guide, and it again with each further piece told, as files."""
    (first,) = (text for about, text in BLOCKS if not about)
    yield "holes only", first
    value = yaml.safe_load(first)
    frame = value["frames"][0]
    for about, text in BLOCKS:
        if not about:
            continue
        what, _, name = about.partition(" of ")
        assert name == frame["id"]
        told = yaml.safe_load(text)
        if what == "runs":
            frame["runs"] = told
        elif what == "ports":
            frame["ports"] = [{**port, **_plain(told.get(port["id"], {}))} for port in frame["ports"]]
        else:
            frame |= told
        if what != "ports" or "geometry" in frame:
            yield about, commented_text(value)


def _plain(port: dict[Any, Any]) -> dict[str, Any]:
    """YAML of another school reads the word `on` as yes."""
    return {"on" if name is True else name: value for name, value in port.items()}


FRAMES = list(_frames())


def test_the_guide_takes_one_frame_from_holes_to_places() -> None:
    assert [name for name, _ in FRAMES] == [
        "holes only",
        "runs of blue-hardtail",
        "fields of blue-hardtail",
        "ports of blue-hardtail",
    ]


@pytest.mark.parametrize(("name", "text"), FRAMES, ids=[name for name, _ in FRAMES])
def test_every_example_is_taken(name: str, text: str) -> None:
    assert [str(problem) for problem in problems_in(text)] == [], name


def test_each_level_tells_what_it_says() -> None:
    holes, taped, table, places = (catalog_of(text).frames["blue-hardtail"] for _, text in FRAMES)
    assert not _placed(holes)
    assert not any(run.length_mm for run in holes.runs.values())
    assert all(run.length_mm for run in taped.runs.values())
    assert _placed(table)
    assert table.anchors["bar-right"].position_mm is not None
    assert places.ports["neck"].position_mm == (404, 25, 512)


def _placed(frame: Frame) -> bool:
    return all(port.position_mm is not None for port in frame.ports.values())


def test_the_tables_are_those_of_the_schema() -> None:
    assert guide_text(TEXT) == TEXT, "python -m catalog.guide_tables --replace"


def test_everything_a_frame_is_told_by_has_its_table() -> None:
    entries = FrameEntry.model_json_schema(by_alias=True)["$defs"]
    asked = {name for name, schema in entries.items() if schema.get("type") == "object"} | {"FrameEntry"}
    assert asked == {model.__name__ for model in FRAME_KINDS.values()}
    assert set(re.findall(r"<!-- fields of (\w+) -->", TEXT)) == set(FRAME_KINDS)


FIELDS = [
    (kind, info.alias or name, info) for kind, model in FRAME_KINDS.items() for name, info in model.model_fields.items()
]


@pytest.mark.parametrize(("kind", "name", "info"), FIELDS, ids=[f"{kind} {name}" for kind, name, _ in FIELDS])
def test_every_field_has_an_example_that_it_takes(kind: str, name: str, info: Any) -> None:
    example = example_of(kind, name)
    assert example is not None
    asked = Annotated[(info.annotation, *info.metadata)] if info.metadata else info.annotation
    TypeAdapter(asked).validate_python(example)
