"""What can go wrong in the store, each with what it was about and what to do.

StoreError (a CatalogError)
  EditConflict          two people edited the same thing; nothing of the later save was kept
    SeveralConflicts    the same for several things of one save
  NotInStore            a document, revision, job, plan or quote that is not there
  StoreRefused          content that cannot be kept, or a step that the state of a thing does not allow
  StoreDamaged          what was read is not what was saved
  StoreUnreachable      the database cannot be opened, is busy, or went away
  WrittenMeanwhile      the database refused what was written: somebody was quicker by a moment
  StoreOutdated         its tables are older than this program: upgrade it
  StoreTooNew           its tables are newer than this program
  BackupRefused         a copy that cannot be put back; the store is as it was
"""

from collections.abc import Sequence

from catalog.errors import CatalogError


class StoreError(CatalogError):
    """Base of everything the store raises on purpose."""


class EditConflict(StoreError):  # noqa: N818
    """Somebody else saved a thing between your opening it and your saving it."""

    def __init__(
        self,
        *,
        thing: str,
        opened_revision: int | None,
        current_revision: int | None,
        saved_by: str = "",
        saved_at: str = "",
        they_changed: Sequence[str] = (),
        you_changed: Sequence[str] = (),
        both_changed: Sequence[str] = (),
    ) -> None:
        self.thing = thing
        self.opened_revision, self.current_revision = opened_revision, current_revision
        self.saved_by, self.saved_at = saved_by, saved_at
        self.they_changed, self.you_changed = tuple(they_changed), tuple(you_changed)
        self.both_changed = tuple(both_changed)
        super().__init__(" ".join(self._sentences()))

    def _sentences(self) -> list[str]:
        if self.current_revision is None:
            return [f"{self.thing}: you opened revision {self.opened_revision}, but it is not in the store any more."]
        who = f" by {self.saved_by}" if self.saved_by else ""
        when = f" on {self.saved_at}" if self.saved_at else ""
        if self.opened_revision is None:
            said = [f"{self.thing}: you meant to add it, but it was already saved{who}{when}."]
        else:
            said = [
                f"{self.thing}: you opened revision {self.opened_revision}; revision {self.current_revision} "
                f"was saved since{who}{when}."
            ]
        if self.they_changed:
            said.append(f"There: {'; '.join(self.they_changed)}.")
        if self.you_changed:
            said.append(f"Yours: {'; '.join(self.you_changed)}.")
        if self.both_changed:
            said.append(f"Both touch {', '.join(self.both_changed)}.")
        return [*said, "Nothing of yours was saved: open it again and make your change there."]


class SeveralConflicts(EditConflict):
    """Several things of one save were edited by somebody else; nothing of that save was kept."""

    def __init__(self, conflicts: Sequence[EditConflict]) -> None:
        self.conflicts = tuple(conflicts)
        first = conflicts[0]
        super().__init__(
            thing=first.thing,
            opened_revision=first.opened_revision,
            current_revision=first.current_revision,
            saved_by=first.saved_by,
            saved_at=first.saved_at,
        )
        self.args = ("\n".join(str(conflict) for conflict in conflicts),)


class NotInStore(StoreError):  # noqa: N818
    """Something was asked for that the store does not hold."""

    def __init__(self, *, thing: str, near: Sequence[str] = ()) -> None:
        self.thing, self.near = thing, tuple(near)
        hint = f"; did you mean {' or '.join(near)}?" if near else ""
        super().__init__(f"{thing} is not in the store{hint}")


class StoreRefused(StoreError):  # noqa: N818
    """Content that cannot be kept, or a step that is not allowed now."""

    def __init__(self, *, thing: str, given: str, rule: str) -> None:
        self.thing, self.given, self.rule = thing, given, rule
        super().__init__(f"{thing}: {given} was given; {rule}")


class StoreDamaged(StoreError):  # noqa: N818
    """What was read is not what was saved."""

    def __init__(self, *, thing: str, why: str) -> None:
        self.thing, self.why = thing, why
        super().__init__(
            f"{thing} cannot be trusted: {why}; `lineplan store check` tells all; restore the store from a copy"
        )


class StoreUnreachable(StoreError):  # noqa: N818
    """The database cannot be opened, is busy, or went away."""

    def __init__(self, *, place: str, why: str) -> None:
        self.place, self.why = place, why
        super().__init__(f"the store {place} cannot be used now: {why}")


class WrittenMeanwhile(StoreError):  # noqa: N818
    """The database refused what was written; most often another program was quicker by a moment."""

    def __init__(self, *, place: str, why: str) -> None:
        self.place, self.why = place, why
        super().__init__(f"the store {place} did not take what was written ({why}); nothing was saved, try again")


class StoreOutdated(StoreError):  # noqa: N818
    """The tables of the store are older than this program."""

    def __init__(self, *, place: str, found: str, wanted: str) -> None:
        self.place, self.found, self.wanted = place, found, wanted
        super().__init__(
            f"the store {place} has tables of version {found}; this program needs {wanted}: "
            "copy it, then run `lineplan store upgrade`"
        )


class StoreTooNew(StoreError):  # noqa: N818
    """The tables of the store are newer than this program."""

    def __init__(self, *, place: str, found: str, wanted: str) -> None:
        self.place, self.found, self.wanted = place, found, wanted
        super().__init__(
            f"the store {place} has tables of version {found}, which this program (up to {wanted}) does not know: "
            "use the newer program"
        )


class BackupRefused(StoreError):  # noqa: N818
    """A copy that cannot be put back; the store is as it was."""

    def __init__(self, *, name: str, why: str) -> None:
        self.name, self.why = name, why
        super().__init__(f"{name} cannot be put back: {why.rstrip('.')}. Nothing was changed.")
