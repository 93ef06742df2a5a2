"""The answers of one run as they are kept in the store, batch by batch."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from catalog import Store


class StoreParts:
    """Those of a run that are there.

    known : keys of their cases
    """

    def __init__(self, store: "Store", run: str, keys: Sequence[str]) -> None:
        """Look what is there.

        keys : of the cases that will be asked for
        """
        self._answers, self._run = store.tables.answers, run
        self.known = set(self._answers.known(run, keys))

    def add(self, keys: Sequence[str], texts: Sequence[str]) -> None:
        """Keep some answers, all or none."""
        self._answers.add(self._run, dict(zip(keys, texts, strict=True)))
        self.known.update(keys)

    def text(self, key: str) -> str:
        """The answers of a case that is known."""
        return self._answers.text(self._run, key)

    def forget_others(self, keys: Sequence[str]) -> None:
        """Nothing goes: other tables may stand on it; the store forgets what no table does, after a while."""
