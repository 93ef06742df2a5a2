"""Who says so: where a figure in the catalog was read."""

from dataclasses import dataclass
from enum import StrEnum


class SourceKind(StrEnum):
    """How far a figure can be trusted."""

    PUBLISHED = "published"
    MEASURED = "measured"
    COMMON_PRACTICE = "common_practice"
    INVENTED = "invented"


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One place a figure comes from.

    title : the work, drawing or workshop note
    locator : page, clause or drawing number; empty when the whole is meant
    kind : how it came to be known
    """

    title: str
    locator: str = ""
    kind: SourceKind = SourceKind.COMMON_PRACTICE
