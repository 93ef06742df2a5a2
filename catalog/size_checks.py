"""Whether two sizes of one entry agree."""

from collections.abc import Iterator

from catalog.mechanic_errors import Complaint
from catalog.yaml_text import Path


def narrower(path: Path, bore_mm: float | None, outer_mm: float) -> Iterator[Complaint]:
    """A bore lies inside its wall."""
    if bore_mm is not None and bore_mm >= outer_mm:
        yield path, f"{bore_mm:g} mm was given", f"less than outer, {outer_mm:g} mm, is allowed"
