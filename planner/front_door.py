"""A front door whose names are listed once, under TYPE_CHECKING, and loaded when they are first asked for.

Type checker and import-linter read the list as what it says: imports. At run time the package's `__getattr__` looks the
name up in the same list, in the package's own source.
"""

import re
from functools import cache
from importlib import import_module
from importlib.util import find_spec
from typing import Any

_ROW = re.compile(r"^    from (\S+) import (?:\w+ as )?(\w+)$", re.MULTILINE)
"""A row of the list. It is read as text, for a parser would take longer than many a command."""


@cache
def names_behind(package: str) -> dict[str, str]:
    """Every name that a package lists under TYPE_CHECKING, sorted, with the module it lives in.

    package : as it is imported, such as "planner"

    Raises ImportError when its source is not at hand.
    """
    spec = find_spec(package)
    source = None if spec is None or spec.loader is None else spec.loader.get_source(package)  # type: ignore[attr-defined]
    if source is None:
        raise ImportError(f"{package}: its front door is read from its source, and that is not here")
    homes = {name: home for home, name in _ROW.findall(source)}
    return dict(sorted(homes.items()))


def open_door(package: str, name: str) -> Any:
    """What a name of a front door stands for, loaded now; for `__all__`, the names.

    Raises AttributeError when there is no such name.
    """
    homes = names_behind(package)
    if name == "__all__":
        return list(homes)
    if name not in homes:
        raise AttributeError(f"{package} has no {name}; its front door has {', '.join(homes)}")
    return getattr(import_module(homes[name]), name)
