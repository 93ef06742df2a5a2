"""What is remembered, up to so many things: the oldest give way."""

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

Value = TypeVar("Value")


class Kept(Generic[Value]):
    """Answers by what they hang on; each is found when it is first asked for."""

    def __init__(self, most: int) -> None:
        """Nothing is remembered yet.

        most : how many are
        """
        self._most = most
        self._found: dict[Hashable, Value] = {}

    def once(self, key: Hashable, find: Callable[[], Value]) -> Value:
        """The answer for a key."""
        if key in self._found:
            return self._found[key]
        found = find()
        self._found[key] = found
        if len(self._found) > self._most:
            del self._found[next(iter(self._found))]
        return found
