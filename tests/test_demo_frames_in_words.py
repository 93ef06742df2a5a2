"""The demo frames with every hole told on its tube: it lands where the numbers put it, and the plan stays the same."""

import re
from functools import cache
from pathlib import Path

import pytest
import yaml

from catalog import STARTER_FOLDER, Catalog, read_catalog, read_job
from catalog.open_catalog import catalog_of_documents
from catalog.read_files import Document, document_of, read_documents
from planner import plan_job
from planner.geometry.curves.bends import turn_between_deg
from planner.parts import Frame

FOLDER = Path(__file__).parent.parent / "demo_frames"
TOLD = Path(__file__).parent / "demo_frames_in_words.yaml"
NEWER = ("braunstow-64", "corrowen-31", "ottermoss-29", "sallowick-4")
"""Frames whose lines lie in the steerer or leave through the seat post: told by numbers; and those without any."""


def words_told() -> dict[str, dict[str, str]]:
    """What is told of each hole, as it stands in the file."""
    found: dict[str, dict[str, str]] = {}
    for line in TOLD.read_text(encoding="utf-8").splitlines():
        told = re.fullmatch(r"( *)([\w-]+): ?(.*?)(?: +#.*)?", line)
        if told and not told[1]:
            found[told[2]] = {}
        elif told:
            found[list(found)[-1]][told[2]] = told[3]
    return found


WORDS = words_told()
FRAMES = sorted(WORDS)
JOBS = [
    path.name
    for path in sorted(FOLDER.glob("*.job.yaml"))
    if yaml.safe_load(path.read_text(encoding="utf-8"))["job"]["frame"] not in NEWER
]

PLACE_MM = {"side": 2.5, "boss": 5.0, "end": 2.5, "window": 10.5}
HEADING_DEG = {"side": 0.5, "boss": 4.0, "end": 7.0, "window": 12.0}
"""How far words may be off: a side hole by its tilt, a boss or exit by its lean, an open end, a window."""


def kind_of(on: str) -> str:
    if on == "window":
        return on
    return "end" if "{end:" in on else "boss" if "lean:" in on else "side"


def document_in_words(name: str) -> Document:
    """The frame file with the place and heading of every hole taken out and its words put in."""
    file = FOLDER / f"{name}.frame.yaml"
    text = file.read_text(encoding="utf-8")
    for id_, on in WORDS[name].items():
        before = re.compile(rf"(- id: {re.escape(id_)}\n(?:(?!      - ).*\n)*?)        at: .*\n        heading: .*\n")
        text, count = before.subn(rf"\1        on: {on}\n", text)
        assert count == 1, f"{name}: {id_} is not told by place and heading"
    return document_of(file.name, text.encode())


@cache
def in_words() -> Catalog:
    own = {f"{name}.frame.yaml": document_in_words(name) for name in FRAMES}
    documents = [own.get(Path(document.file).name, document) for document in read_documents([STARTER_FOLDER, FOLDER])]
    return catalog_of_documents(tuple(each for each in documents if each.is_catalog), read_from=())


@cache
def in_numbers() -> Catalog:
    return read_catalog([STARTER_FOLDER, FOLDER])


def frame_in(catalog: Catalog, name: str) -> Frame:
    (id_,) = (
        frame["id"] for frame in yaml.safe_load((FOLDER / f"{name}.frame.yaml").read_text(encoding="utf-8"))["frames"]
    )
    return catalog.frames[id_]


@pytest.mark.parametrize("name", FRAMES)
def test_every_hole_is_told(name: str) -> None:
    assert set(WORDS[name]) == set(frame_in(in_numbers(), name).ports)


@pytest.mark.parametrize(("name", "id_"), [(name, id_) for name in FRAMES for id_ in WORDS[name]])
def test_a_hole_in_words_lands_where_its_numbers_put_it(name: str, id_: str) -> None:
    told, meant = (frame_in(catalog, name).ports[id_] for catalog in (in_words(), in_numbers()))
    kind = kind_of(WORDS[name][id_])
    assert told.position_mm is not None
    assert told.heading is not None
    assert meant.position_mm is not None
    assert meant.heading is not None
    off_mm = sum((a - b) ** 2 for a, b in zip(told.position_mm, meant.position_mm, strict=True)) ** 0.5
    assert off_mm <= PLACE_MM[kind]
    assert turn_between_deg(first=told.heading, second=meant.heading) <= HEADING_DEG[kind]


@pytest.mark.parametrize("job", JOBS)
def test_the_plan_is_the_same_and_its_length_nearly(job: str) -> None:
    """The need may change by 4 mm, and the cut by that and one step of 5."""
    plans = [
        plan_job(job=read_job(FOLDER / job, catalog), workshop=catalog.workshop)
        for catalog in (in_words(), in_numbers())
    ]
    told, meant = plans
    assert (told.outcome, told.route, told.method_id) == (meant.outcome, meant.route, meant.method_id)
    assert (told.lengths is None) is (meant.lengths is None)
    if told.lengths is not None and meant.lengths is not None:
        assert told.lengths.need_mm == pytest.approx(meant.lengths.need_mm, abs=4)
        added_mm = told.lengths.allow_mm or 0  # places told in words count as told in an ordinary way
        assert told.lengths.cut_mm - added_mm == pytest.approx(meant.lengths.cut_mm, abs=9)


@pytest.mark.parametrize("name", FRAMES)
def test_holes_lie_on_their_tubes_and_the_bar_turns_in_its_head_tube(name: str) -> None:
    frame = frame_in(in_numbers(), name)
    head, bar = frame.zones["head_tube"], frame.bar
    assert bar is not None
    assert bar.axis_point_mm == head.path_mm[0]
    assert turn_between_deg(first=bar.axis, second=tuple(b - a for a, b in zip(*head.path_mm, strict=True))) in (
        pytest.approx(0, abs=1e-6),
        pytest.approx(180, abs=1e-6),
    )
