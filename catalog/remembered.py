"""A memory of what was made of texts, as large as the texts in it: a thousand small files stay, one huge one goes."""

from collections import OrderedDict
from collections.abc import Callable
from functools import update_wrapper
from threading import Lock
from typing import Generic, ParamSpec, TypeVar

Made = TypeVar("Made")
Texts = ParamSpec("Texts")

ROOM_BYTES = 32_000_000
"""Of texts remembered by one function; what is made of them takes some twenty times that."""


class Remembered(Generic[Texts, Made]):
    """A function of texts that works out once what it was asked lately; what was asked longest ago gives way.

    Several threads may ask at once. Texts are told by their places.

    function : what it makes is shared and never changed
    """

    def __init__(self, function: Callable[Texts, Made]) -> None:
        self._function = function
        self._made: OrderedDict[tuple[object, ...], Made] = OrderedDict()
        self._taken_bytes = 0
        self._lock = Lock()
        update_wrapper(self, function)

    def __call__(self, *texts: Texts.args, **none: Texts.kwargs) -> Made:
        """What is made of the texts."""
        with self._lock:
            if texts in self._made:
                self._made.move_to_end(texts)
                return self._made[texts]
        made = self._function(*texts, **none)
        self.remember(made, *texts, **none)
        return made

    def remember(self, made: Made, *texts: Texts.args, **_none: Texts.kwargs) -> None:
        """Take something for what is made of the texts."""
        with self._lock:
            if texts not in self._made:
                self._taken_bytes += _size_of(texts)
            self._made[texts] = made
            while self._taken_bytes > ROOM_BYTES:
                gone, _ = self._made.popitem(last=False)
                self._taken_bytes -= _size_of(gone)

    def cache_clear(self) -> None:
        """Forget everything."""
        with self._lock:
            self._made.clear()
            self._taken_bytes = 0


def _size_of(texts: tuple[object, ...]) -> int:
    return sum(len(text) for text in texts if isinstance(text, bytes | str))
