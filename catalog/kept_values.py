"""The values of a file that was read before, without reading its text again; lines are found when one is asked for."""

from dataclasses import dataclass
from functools import partial

from catalog.kept_files import as_text, find_value, hash_of, keep, key_of
from catalog.yaml_text import Path, YamlText, read_yaml


@dataclass(frozen=True, slots=True)
class _ReadBefore(YamlText):
    """A text whose values are known: it has no slips.

    content : the text, byte for byte
    """

    content: bytes = b""

    def line_of(self, path: Path) -> int:
        """Line of the thing, or of the nearest thing around it."""
        return read_yaml(self.content).line_of(path)


def values_of(content: bytes) -> YamlText:
    """What `read_yaml` finds in a file, kept where it is sound."""
    key = key_of("values", hash_of(content))
    value = find_value(key)
    if isinstance(value, dict):
        return _ReadBefore(value, content=content)
    text = read_yaml(content)
    if isinstance(text.value, dict) and not text.slips:
        keep(key, partial(as_text, text.value))
    return text
