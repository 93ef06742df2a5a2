"""A frame as far as it is told, to be looked at while the questions go on."""

from collections.abc import Mapping

from catalog import CatalogError, catalog_of_text, without_notes
from planner.parts import Frame
from ui.shared.dialogue.frame_fields import draft_ports, zones_of
from ui.shared.dialogue.questions import Answer
from ui.shared.dialogue.told_files import frame_text


def draft_of(answers: Mapping[str, Answer]) -> Frame | None:
    """The holes told so far, in their order; None before the first is told."""
    ports = draft_ports(answers)
    if not ports:
        return None
    entry = {"id": "draft", "name": answers["name"].value, "zones": zones_of(answers), "ports": ports}
    try:
        frames = catalog_of_text("draft", frame_text(without_notes(entry))).frames
    except CatalogError:
        return None
    return frames["draft"]
