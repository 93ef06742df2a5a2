"""JSON Schema of the three file formats, for editors that complete and check while one types.

`python -m catalog.json_schema` writes the committed files anew.
"""

import json
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from catalog.catalog_file import CatalogFile
from catalog.jobs import JobFile
from catalog.stock import StockFile

SCHEMA_FOLDER = Path(__file__).parent / "schema"
SCHEMA_FILES: dict[str, type[BaseModel]] = {
    "catalog.schema.json": CatalogFile,
    "job.schema.json": JobFile,
    "stock.schema.json": StockFile,
}


def schema_of(model: type[BaseModel]) -> dict[str, Any]:
    """The schema of a file format; a file must say which format it has."""
    schema = model.model_json_schema(by_alias=True, mode="validation")
    required = sorted({"format", *schema.get("required", [])})
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema, "required": required}


def schema_text(model: type[BaseModel]) -> str:
    """The schema as it is committed."""
    return json.dumps(schema_of(model), indent=1, ensure_ascii=False, sort_keys=True) + "\n"


def write_schemas() -> None:
    """Write the committed files anew."""
    for name, model in SCHEMA_FILES.items():
        (SCHEMA_FOLDER / name).write_text(schema_text(model), encoding="utf-8")


if __name__ == "__main__":
    write_schemas()
