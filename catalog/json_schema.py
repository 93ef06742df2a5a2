"""JSON Schema of the three file formats, for editors that complete and check while one types.

`python -m catalog.json_schema --replace` writes the committed files anew.
"""

import json
import sys
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from catalog.catalog_file import CatalogFile
from catalog.errors import FileNotWritten
from catalog.stock import StockFile
from catalog.visits import JobFile
from catalog.write_files import write_all

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


def write_schemas(folder: Path, *, replaces: bool) -> None:
    """Write a schema file for each format; all of them or, where anything stands in the way, none.

    replaces : whether files that say something else may be lost

    Raises FileNotWritten with everything that stands in the way.
    """
    texts: dict[Path, str | bytes] = {folder / name: schema_text(model) for name, model in SCHEMA_FILES.items()}
    write_all(texts, replaces=replaces)


if __name__ == "__main__":
    try:
        write_schemas(SCHEMA_FOLDER, replaces="--replace" in sys.argv[1:])
    except FileNotWritten as refusal:
        print(refusal, file=sys.stderr)
        sys.exit(2)
