"""The demo frames drawn from their geometry tables, holes told on the drawn tubes, levers and calipers by name.

Nothing but the pivots, the guides and one cavity keeps its numbers; verdict, way and method stay, and the length lies
within what is added for a frame that was told in an ordinary way.
"""

import re
from functools import cache
from math import dist
from pathlib import Path
from typing import Any

import pytest
import yaml

from catalog import STARTER_FOLDER, Catalog, read_job
from catalog.open_catalog import catalog_of_documents
from catalog.read_files import Document, document_of, read_documents
from planner import plan_job
from planner.parts import Frame
from tests.test_demo_frames_in_words import FOLDER, FRAMES, JOBS, document_in_words, frame_in, in_numbers

TABLES: dict[str, dict[str, Any]] = yaml.safe_load(
    (Path(__file__).parent / "demo_frames_by_table.yaml").read_text(encoding="utf-8")
)
ORDINARY_MM = 40.0
PARTS = {"bar": "lever", "hood": "lever", "shifter": "shifter", "caliper": "caliper"}
WITHOUT_A_SIDE = {"touring": "right"}
"""Frames whose caliper, named for no side, sits on the right."""


def document_by_table(name: str) -> Document:
    """The frame file with its table in place of paths, and with words in place of the places of holes and anchors."""
    told = TABLES[name]
    lines = []
    for line in document_in_words(name).content.decode().splitlines():
        zone = re.match(r"      - \{id: (\w+), path: \[\[.*\]\], bore: (\d+)", line)
        anchor = re.match(r"(      - \{id: (\w+)[\w-]*, label: ([^,]+), )at: \[.*?\], heading: \[.*?\](.*)", line)
        if zone and zone[1] != told.get("kept"):
            lines.append(f"      - {{id: {zone[1]}, bore: {zone[2]}}}")
        elif anchor and anchor[2] in PARTS:
            side = next(
                (word for word in ("left", "right") if word in anchor[3].lower()), WITHOUT_A_SIDE.get(name, "left")
            )
            lines.append(f"{anchor[1]}is: {PARTS[anchor[2]]}, side: {side}{anchor[4]}")
        else:
            lines.append(re.sub(r"    bar: \{axis_point: .*, lock: ", "    bar: {lock: ", line))
        if line.startswith("    note:"):
            for key in ("geometry", "cockpit"):
                lines.append(f"    {key}: {yaml.safe_dump(told[key], default_flow_style=True, width=1000).strip()}")
    return document_of(f"{name}.frame.yaml", "\n".join(lines).encode())


@cache
def by_table() -> Catalog:
    own = {f"{name}.frame.yaml": document_by_table(name) for name in FRAMES}
    documents = [own.get(Path(document.file).name, document) for document in read_documents([STARTER_FOLDER, FOLDER])]
    return catalog_of_documents(tuple(each for each in documents if each.is_catalog), read_from=())


def frames_of(name: str) -> tuple[Frame, Frame]:
    return frame_in(by_table(), name), frame_in(in_numbers(), name)


def test_every_frame_has_its_table() -> None:
    assert set(TABLES) == set(FRAMES)


@pytest.mark.parametrize("name", FRAMES)
def test_nothing_keeps_its_numbers(name: str) -> None:
    text = document_by_table(name).content.decode()
    kept = [line for line in text.splitlines() if re.search(r"\b(at|heading|axis_point|path): \[", line)]
    assert len(kept) <= (2 if "kept" in TABLES[name] else 1)  # a derailleur has no usual place


@pytest.mark.parametrize("name", FRAMES)
def test_head_tube_and_seat_tube_lie_where_they_were(name: str) -> None:
    told, meant = frames_of(name)
    for zone_id in ("head_tube", "seat_tube"):
        for drawn, told_mm in zip(told.zones[zone_id].path_mm, meant.zones[zone_id].path_mm, strict=True):
            assert dist(drawn, told_mm) <= 6.5


@pytest.mark.parametrize("name", FRAMES)
def test_holes_lie_within_three_centimetres_and_a_half_and_one_exit_does_not(name: str) -> None:
    """A table does not know where a top tube meets the seat tube: the exit beside it is 46 off."""
    told, meant = frames_of(name)
    off_mm = {id_: dist(port.position_mm or (), meant.ports[id_].position_mm or ()) for id_, port in told.ports.items()}
    assert all(mm <= 35 for id_, mm in off_mm.items() if id_ != "top-exit")
    assert off_mm.get("top-exit", 0) <= 50


@pytest.mark.parametrize("name", FRAMES)
def test_levers_and_calipers_lie_near(name: str) -> None:
    told, meant = frames_of(name)
    for id_, anchor in told.anchors.items():
        assert anchor.position_mm is not None
        limit_mm = 50 if name == "city" else 30
        assert dist(anchor.position_mm, meant.anchors[id_].position_mm or ()) <= limit_mm


@pytest.mark.parametrize("job", JOBS)
def test_the_plan_is_the_same_and_its_length_within_the_allowance(job: str) -> None:
    told, meant = (
        plan_job(job=read_job(FOLDER / job, catalog), workshop=catalog.workshop)
        for catalog in (by_table(), in_numbers())
    )
    assert (told.outcome, told.route, told.method_id) == (meant.outcome, meant.route, meant.method_id)
    if meant.lengths is not None:
        assert told.lengths is not None
        assert told.lengths.need_mm == pytest.approx(meant.lengths.need_mm, abs=ORDINARY_MM)
        assert (told.lengths.allow_mm, meant.lengths.allow_mm) == (pytest.approx(ORDINARY_MM, abs=5), None)
