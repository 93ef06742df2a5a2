"""What was made of a plan, shown again without being made again: its pictures, its words.

It is known by the very things it was made of, which are held on to as long: nothing here can be out of date.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Any, TypeVar

Made = TypeVar("Made")

MOST = 256
"""So many things are held for all windows together; what was asked for longest ago gives way."""

_made: OrderedDict[Hashable, tuple[tuple[object, ...], Any]] = OrderedDict()
_lock = Lock()


def made_once(make: Callable[[], Made], name: str, *things: object, how: Hashable = ()) -> Made:
    """What is made of these things, made now where it was not made before.

    make : makes it; of the same things, named and done alike, it always makes the same
    things : what it is made of, never changed once it is made
    how : everything else that it depends on
    """
    key = (name, tuple(map(id, things)), how)
    with _lock:
        if key in _made:
            _made.move_to_end(key)
            found: Made = _made[key][1]
            return found
    new = make()
    with _lock:
        _made[key] = (things, new)
        if len(_made) > MOST:
            _made.popitem(last=False)
    return new
