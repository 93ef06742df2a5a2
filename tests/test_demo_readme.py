"""The frame that the demo frames' README tells in words is accepted and placed."""

import re
from pathlib import Path

from tests.catalog.samples import catalog_of, problems_in

README = Path(__file__).parent.parent / "demo_frames" / "README.md"


def test_the_frame_told_in_words_is_accepted_and_every_place_of_it_known() -> None:
    (told,) = re.findall(r"```yaml\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    text = "format: 1\nframes:\n  - id: told\n" + "".join(f"    {line}\n" for line in told.splitlines())
    text += "    brakes: {rear: {mount: post}}\n"
    assert [str(problem) for problem in problems_in(text)] == []
    frame = catalog_of(text).frames["told"]
    assert all(port.position_mm is not None for port in frame.ports.values())
    assert all(anchor.position_mm is not None for anchor in frame.anchors.values())
    assert frame.rear is not None
    assert set(frame.rear.moves) == {"front", "rear", "caliper"}
