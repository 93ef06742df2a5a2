"""A catalog of many frames: one invented frame under as many names."""

from pathlib import Path

DEMO_FOLDER = Path(__file__).parents[2] / "demo_frames"
FRAMES_A_FILE = 100


def write_many_frames(folder: Path, frames_n: int) -> list[Path]:
    """The trail frame under as many other names, in files of a hundred, written into the folder."""
    head, entry = (DEMO_FOLDER / "trail.frame.yaml").read_text(encoding="utf-8").split("frames:\n", 1)
    paths = []
    for first in range(0, frames_n, FRAMES_A_FILE):
        numbers = range(first, min(first + FRAMES_A_FILE, frames_n))
        named = (entry.replace("quillfern-130", f"copy-{n}") for n in numbers)
        copies = (one.replace("Quillfern 130", f"Copy {n}") for n, one in zip(numbers, named, strict=True))
        paths.append(folder / f"many-{first}.frame.yaml")
        paths[-1].write_text(f"{head}frames:\n{''.join(copies)}", encoding="utf-8")
    return paths
