"""A command called in a way that cannot be meant."""

from catalog import CatalogError


class CommandRefused(CatalogError):  # noqa: N818  (named for what happened, as the catalog's own)
    """Told like what a catalog refuses: which word of which command, what was given, what is allowed."""

    def __init__(self, *, command: str, option: str, given: str, allowed: str) -> None:
        self.command, self.option, self.given, self.allowed = command, option, given, allowed
        super().__init__(f"{command} > {option}: {given}, allowed: {allowed}")
