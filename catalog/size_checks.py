"""Whether two sizes of one entry agree."""

from collections.abc import Iterator

from catalog.mechanic_errors import Complaint
from catalog.yaml_text import Path


def narrower(path: Path, bore_mm: float | None, outer_mm: float, *, of: str = "outer") -> Iterator[Complaint]:
    """A bore lies inside its wall, a cable inside its bore.

    of : the field that tells the wider one
    """
    if bore_mm is not None and bore_mm >= outer_mm:
        yield path, f"{bore_mm:g} mm was given", f"less than {of}, {outer_mm:g} mm, is allowed"
