"""Write catalog files: whole or not at all, and with the comments of whoever wrote them."""

import os
import tempfile
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

from catalog.edit_yaml import edit_yaml
from catalog.errors import CatalogError, PartNotInCatalog
from catalog.yaml_text import read_yaml


class FileChanged(CatalogError):  # noqa: N818
    """Somebody else wrote a file between your reading and your writing it."""

    def __init__(self, *, path: str) -> None:
        self.path = path
        super().__init__(f"{path} was changed since you opened it; nothing of yours was written: open it again")


def write_atomically(path: Path, content: bytes) -> None:
    """Put a file in place of the old one in one step: a crash leaves the old or the new, never half.

    The new file lies complete on the disk, beside the old one, before it takes its name.
    """
    target = path.resolve()  # a link goes on pointing at the same file
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".new")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            os.chmod(name, target.stat().st_mode & 0o7777)
        else:
            os.chmod(name, 0o644)
        os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    _settle(target.parent)


def _settle(folder: Path) -> None:
    """The new name is on the disk too; where folders cannot be opened (Windows), the system sees to it."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass  # some network folders cannot; the file itself is safe
    finally:
        os.close(handle)


def hash_of_file(path: Path) -> str:
    """What to remember of a file when it is opened for editing."""
    return sha256(path.read_bytes()).hexdigest()


def edit_file(path: Path, value: Mapping[str, Any], *, opened_sha256: str | None = None) -> None:
    """Make a file say `value`, leaving all that stays the same, comments included, as it was."""
    content = path.read_bytes()
    if opened_sha256 is not None and sha256(content).hexdigest() != opened_sha256:
        raise FileChanged(path=str(path))
    edited = edit_yaml(content.decode("utf-8"), value).encode("utf-8")
    if edited != content:
        write_atomically(path, edited)


def edit_entry(
    path: Path, section: str, id: str, entry: Mapping[str, Any] | None, *, opened_sha256: str | None = None
) -> None:
    """Change one entry of a catalog file, add it when it is new, or take it out (None)."""
    content = path.read_bytes()
    if opened_sha256 is not None and sha256(content).hexdigest() != opened_sha256:
        raise FileChanged(path=str(path))
    whole = read_yaml(content).value
    value = dict(whole) if isinstance(whole, dict) else {}
    edit_file(path, value_with_entry(value, section, id, entry), opened_sha256=sha256(content).hexdigest())


def value_with_entry(
    value: Mapping[str, Any], section: str, id: str, entry: Mapping[str, Any] | None
) -> dict[str, Any]:
    """What a file says with one entry changed, added or taken out."""
    if section == "shop":
        rest = {key: inner for key, inner in value.items() if key != "shop"}
        return rest if entry is None else {**value, "shop": dict(entry)}
    items = list(value.get(section) or ())
    places = [place for place, item in enumerate(items) if isinstance(item, Mapping) and item.get("id") == id]
    if entry is None and not places:
        known = [str(item.get("id")) for item in items if isinstance(item, Mapping)]
        raise PartNotInCatalog(kind=section, asked=id, near=known[:3])
    if entry is None:
        del items[places[0]]
    elif places:
        items[places[0]] = dict(entry)
    else:
        items.append(dict(entry))
    return {**value, section: items}
