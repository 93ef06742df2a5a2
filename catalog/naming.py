"""How a complaint names the thing and the field it is about, in the words of the file."""

from collections.abc import Mapping

from catalog.errors import Problem
from catalog.yaml_text import Path, YamlText

SECTION_WORDS = {
    "frames": "frame",
    "lines": "line",
    "fittings": "fitting",
    "brakes": "brake",
    "methods": "method",
    "parts": "part",
    "adapters": "adapter",
    "steps": "step",
    "cautions": "caution",
    "rescues": "rescue",
    "measures": "measure",
    "at_hand": "tool",
    "stock": "stock",
}
_INNER_WORDS = {"zones": "zone", "ports": "port", "anchors": "anchor", "runs": "run", "staying": "staying line"}


def thing_and_field(value: object, path: Path) -> tuple[str, str]:
    """("frame larkmoor-140 port neck-left", "opening length") for the path that leads there."""
    if not path:
        return "file", ""
    words, rest = _outer_thing(value, path)
    entry = _walk(value, path[: len(path) - len(rest)])
    if len(rest) >= 2 and rest[0] in _INNER_WORDS and isinstance(rest[1], int):
        items = entry.get(rest[0]) if isinstance(entry, Mapping) else None
        item = items[rest[1]] if isinstance(items, list) and rest[1] < len(items) else None
        words.append(f"{_INNER_WORDS[str(rest[0])]} {_name_of(item, rest[1])}")
        rest = rest[2:]
    return " ".join(words), " ".join(_field_word(step) for step in rest)


def _outer_thing(value: object, path: Path) -> tuple[list[str], Path]:
    section = str(path[0])
    if section == "job":
        return [f"job {_name_of(_walk(value, ('job',)), None)}".rstrip()], path[1:]
    if section == "shop":
        return ["shop"], path[1:]
    if section in SECTION_WORDS and len(path) >= 2 and isinstance(path[1], int):
        return [f"{SECTION_WORDS[section]} {_name_of(_walk(value, path[:2]), path[1])}"], path[2:]
    return ["file"], path


def _walk(value: object, path: Path) -> object:
    for step in path:
        if isinstance(value, Mapping):
            value = value.get(step)
        elif isinstance(value, list) and isinstance(step, int) and step < len(value):
            value = value[step]
        else:
            return None
    return value


def _name_of(entry: object, place: int | None) -> str:
    if isinstance(entry, Mapping):
        for key in ("id", "line"):
            if isinstance(entry.get(key), str | int | float) and str(entry[key]).strip():
                return " ".join(str(entry[key]).split())[:64]
    return "" if place is None else f"no. {place + 1}"


def _field_word(step: str | int) -> str:
    return f"no. {step + 1}" if isinstance(step, int) else " ".join(step.split())[:64]


def problem_at(file: str, text: YamlText, path: Path, *, given: str, allowed: str, line: int | None = None) -> Problem:
    """The complaint about what stands at a path of a file."""
    thing, field = thing_and_field(text.value, path)
    return Problem(
        file=file,
        line=text.line_of(path) if line is None else line,
        thing=thing,
        field=field,
        given=_one_line(given),
        allowed=_one_line(allowed),
    )


def _one_line(sentence: str) -> str:
    """Without line ends, and no longer than a few lines of a screen, whatever was quoted in it."""
    flat = " ".join(sentence.split())
    return flat if len(flat) <= 400 else f"{flat[:300]} ... {flat[-60:]}"
