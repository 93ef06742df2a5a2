"""The quick decorator makes what the standard one makes, for whatever is asked of a dataclass."""

import copy
import dataclasses
import pickle
from typing import Any

import pytest

from planner.parts import Line, LineKind, Port
from planner.quick_dataclass import dataclass as quick
from tests.builders import make_port


def made_by(decorator: Any) -> Any:
    @decorator(frozen=True, slots=True, kw_only=True)
    class Thing:
        """A thing."""

        id: str
        size_mm: float
        parts: dict[str, int] = dataclasses.field(default_factory=dict)
        note: str = dataclasses.field(default="", compare=False)
        names: tuple[str, ...] = dataclasses.field(default=(), repr=False)

        @property
        def twice_mm(self) -> float:
            """Twice its size."""
            return 2 * self.size_mm

    return Thing


QUICK, STANDARD = made_by(quick), made_by(dataclasses.dataclass)
KINDS = pytest.mark.parametrize("kind", [QUICK, STANDARD], ids=["quick", "standard"])


@KINDS
def test_a_thing_is_made_compared_told_and_changed(kind: Any) -> None:
    thing = kind(id="a", size_mm=1.5, note="x", names=("n",))
    assert (thing.id, thing.size_mm, thing.parts, thing.note, thing.twice_mm) == ("a", 1.5, {}, "x", 3.0)
    assert repr(thing) == "made_by.<locals>.Thing(id='a', size_mm=1.5, parts={}, note='x')"
    assert thing == kind(id="a", size_mm=1.5, note="y", names=("n",))
    assert thing != kind(id="a", size_mm=1.5)
    assert thing != "a"
    assert dataclasses.replace(thing, size_mm=2.0).size_mm == 2.0
    assert copy.deepcopy(thing) == thing
    assert [field.name for field in dataclasses.fields(kind)] == ["id", "size_mm", "parts", "note", "names"]
    assert kind.__slots__ == ("id", "size_mm", "parts", "note", "names")
    assert kind(id="b", size_mm=1).parts is not thing.parts


@KINDS
def test_what_is_not_told_or_not_known_is_refused(kind: Any) -> None:
    with pytest.raises(TypeError, match="missing 1 required keyword-only argument: 'size_mm'"):
        kind(id="a")
    with pytest.raises(TypeError, match="unexpected keyword argument 'colour'"):
        kind(id="a", size_mm=1.0, colour="red")
    with pytest.raises(TypeError, match="positional argument"):
        kind("a", 1.0)


@KINDS
def test_nothing_is_changed_or_added_afterwards(kind: Any) -> None:
    thing = kind(id="a", size_mm=1.0)
    with pytest.raises(dataclasses.FrozenInstanceError, match="cannot assign to field 'size_mm'"):
        thing.size_mm = 2.0
    with pytest.raises((dataclasses.FrozenInstanceError, AttributeError, TypeError)):
        thing.colour = "red"
    with pytest.raises(dataclasses.FrozenInstanceError):
        del thing.size_mm


def test_a_part_hashes_and_goes_to_another_process() -> None:
    port = make_port("a")
    assert isinstance(port, Port)
    assert pickle.loads(pickle.dumps(port)) == port
    assert len({port, dataclasses.replace(port), dataclasses.replace(port, id="b")}) == 2
    line = Line(
        id="a",
        name="a",
        kind=LineKind.HYDRAULIC_HOSE,
        outer_diameter_mm=5.0,
        bore_diameter_mm=2.0,
        minimum_bend_radius_mm=40.0,
        outer_tolerance_mm=0.1,
    )
    assert hash(line) == hash(dataclasses.replace(line))
