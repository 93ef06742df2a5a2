"""The committed JSON Schemas are current and agree with what the files may say."""

import json
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from catalog.json_schema import SCHEMA_FILES, SCHEMA_FOLDER, schema_text
from catalog.starter_place import STARTER_FOLDER
from catalog.yaml_text import read_yaml
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB, FOLDER

CATALOGS = [EXAMPLE_FRAME, FOLDER / "zoo.yaml", *sorted(STARTER_FOLDER.glob("*.yaml"))]


def _validator(name: str) -> Any:
    return Draft202012Validator(json.loads((SCHEMA_FOLDER / name).read_text(encoding="utf-8")))


@pytest.mark.parametrize("name", SCHEMA_FILES)
def test_committed_schema_is_current(name: str) -> None:
    committed = (SCHEMA_FOLDER / name).read_text(encoding="utf-8")
    assert committed == schema_text(SCHEMA_FILES[name]), "run python -m catalog.json_schema"


@pytest.mark.parametrize("name", SCHEMA_FILES)
def test_committed_schema_is_a_schema(name: str) -> None:
    Draft202012Validator.check_schema(json.loads((SCHEMA_FOLDER / name).read_text(encoding="utf-8")))


@pytest.mark.parametrize("path", CATALOGS, ids=[path.name for path in CATALOGS])
def test_catalog_files_keep_to_the_schema(path: Any) -> None:
    errors = list(_validator("catalog.schema.json").iter_errors(read_yaml(path.read_bytes()).value))
    assert [error.message for error in errors] == []


def test_job_files_keep_to_the_schema() -> None:
    assert not list(_validator("job.schema.json").iter_errors(read_yaml(EXAMPLE_JOB.read_bytes()).value))


@pytest.mark.parametrize("old", ["none", None, {"line": "hose-50"}])
def test_schema_lets_a_frame_be_empty(old: Any) -> None:
    job = {"id": "j", "frame": "f", "from": "a", "to": "b", "old": old, "new": {"line": "x"}}
    assert not list(_validator("job.schema.json").iter_errors({"format": 1, "job": job}))


@pytest.mark.parametrize(
    "line",
    [
        {"id": "a", "kind": "hydraulic_hose", "outer": 0.2, "bend_radius": 35},
        {"id": "a", "kind": "hydraulic_hose", "outer": "5", "bend_radius": 35},
        {"id": "a b", "kind": "hydraulic_hose", "outer": 5, "bend_radius": 35},
        {"id": "a", "kind": "hose", "outer": 5, "bend_radius": 35},
        {"id": "a", "kind": "hydraulic_hose", "outer": 5, "bend_radius": 35, "colour": "red"},
    ],
)
def test_schema_refuses_what_the_reader_refuses(line: dict[str, Any]) -> None:
    good = {"id": "a", "kind": "hydraulic_hose", "outer": 5, "bend_radius": 35}
    validator = _validator("catalog.schema.json")
    assert not list(validator.iter_errors({"format": 1, "lines": [good]}))
    assert list(validator.iter_errors({"format": 1, "lines": [line]}))


def test_every_number_says_its_unit() -> None:
    definitions = json.loads((SCHEMA_FOLDER / "catalog.schema.json").read_text(encoding="utf-8"))["$defs"]
    length = definitions["LineEntry"]["properties"]["outer"]
    assert (length["unit"], length["minimum"], length["description"]) == ("mm", 0.8, "Across the line, with calipers.")
