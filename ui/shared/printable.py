"""Names of files as they can be printed anywhere."""

from pathlib import Path


def printable(name: Path | str) -> str:
    """The name with every byte that is no text told by its number."""
    return str(name).encode("utf-8", "backslashreplace").decode("utf-8")
