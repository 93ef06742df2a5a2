"""The tables of `catalog/README.md`: every field of a frame with its unit, its range and an example, from the schema.

`python -m catalog.guide_tables --replace` writes them anew between their marks.
"""

import re
import sys
from pathlib import Path
from typing import Any

import yaml
from pydantic import BaseModel

from catalog.asked_fields import FRAME_KINDS
from catalog.errors import FileNotWritten
from catalog.field_help import FieldHelp, fields_of
from catalog.write_files import write_file

GUIDE = Path(__file__).parent / "README.md"
EXAMPLES_FILE = Path(__file__).parent / "guide_examples.yaml"
MARKS = re.compile(r"(<!-- fields of (\w+) -->\n)(?:.*?\n)??(<!-- end -->)", re.DOTALL)
HEAD = ("| field | unit, range or words | example | what it says |", "|---|---|---|---|")


def table_of(kind: str) -> str:
    """One table, a line for each field; those that must be told in bold.

    kind : a word of FRAME_KINDS
    """
    model = FRAME_KINDS[kind]
    rows = [_row(name, field, example_of(kind, name)) for name, field in fields_of(model).items()]
    return "\n".join((_about(model), "", *HEAD, *rows)) + "\n"


def example_of(kind: str, name: str) -> Any:
    """A value that one field may have.

    kind : a word of FRAME_KINDS
    """
    examples = _examples()
    return examples.get(kind, {}).get(name, examples["all"].get(name))


def guide_text(text: str) -> str:
    """The guide with its tables as they are now."""
    return MARKS.sub(lambda found: f"{found[1]}{table_of(found[2])}{found[3]}", text)


def _examples() -> dict[str, dict[str, Any]]:
    examples: dict[str, dict[str, Any]] = yaml.safe_load(EXAMPLES_FILE.read_text(encoding="utf-8"))
    return examples


def _about(model: type[BaseModel]) -> str:
    return str(model.__doc__).strip().splitlines()[0]


def _row(name: str, field: FieldHelp, example: Any) -> str:
    called = f"**`{name}`**" if field.is_required else f"`{name}`"
    takes = field.range if field.is_number else ", ".join(field.choices)
    dumped = yaml.safe_dump([example], default_flow_style=True, width=100_000, sort_keys=False).strip()[1:-1]
    return f"| {called} | {takes} | `{dumped}` | {field.help} |"


if __name__ == "__main__":
    try:
        guide = guide_text(GUIDE.read_text(encoding="utf-8"))
        write_file(GUIDE, guide, replaces="--replace" in sys.argv[1:])
    except FileNotWritten as refusal:
        print(refusal, file=sys.stderr)
        sys.exit(2)
