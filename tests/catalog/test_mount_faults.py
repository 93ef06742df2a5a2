"""Slips in what is said of mounts and rotors are told with their line, what was given and what is allowed."""

import pytest

from tests.catalog.samples import example_with, problems_in

PLANTED: dict[str, tuple[str, str, str]] = {
    "greatest rotor below the native one": (
        "rotor_native: 180",
        "rotor_native: 210",
        "f.yaml:58: frame larkmoor-140 > brakes rear rotor_max: 203 mm was given, at least rotor_native, 210 mm, is"
        " allowed",
    ),
    "least rotor below the native one": (
        "rotor_native: 180",
        "rotor_native: 180, rotor_min: 160",
        "f.yaml:58: frame larkmoor-140 > brakes rear rotor_min: 160 mm was given, at least rotor_native, 180 mm, is"
        " allowed: adapters only move a caliper outwards",
    ),
    "native rotor of tabs": (
        "{mount: post, rotor_native: 180",
        "{mount: is_tabs, rotor_native: 180",
        "f.yaml:58: frame larkmoor-140 > brakes rear rotor_native: 180 mm was given, nothing is allowed: tabs stand for"
        " no rotor, the bracket on them says which",
    ),
    "native rotor in its old place": (
        "{fitting: banjo-50, mount: post",
        "{fitting: banjo-50, mount: post, rotor_native: 160",
        "f.yaml:84: brake calder-4 > caliper rotor_native: rotor_native is not a field here, that field now belongs to"
        " the frame or fork, as brakes > rear (or front) > rotor_native: the mount stands for a rotor, the caliper for"
        " none",
    ),
    "caliper limits the wrong way round": (
        "{fitting: banjo-50, mount: post",
        "{fitting: banjo-50, mount: post, rotor_min: 180, rotor_max: 160",
        "f.yaml:84: brake calder-4 > caliper rotor_max: 160 mm was given, at least rotor_min, 180 mm, is allowed",
    ),
}


@pytest.mark.parametrize(("before", "after", "told"), PLANTED.values(), ids=PLANTED)
def test_planted_slip_is_told_in_full(before: str, after: str, told: str) -> None:
    assert [str(problem) for problem in problems_in(example_with(before, after))] == [told]
