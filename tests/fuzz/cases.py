"""One case of each kind, by its number: the same number makes the same files."""

from functools import lru_cache
from pathlib import Path
from random import Random

import numpy as np

from catalog import STARTER_FOLDER
from planner.errors import ImpossibleDimensionError
from planner.fit.hole_fit import WORK_RAN_OUT
from tests.fuzz.mutations import mutated
from tests.fuzz.random_holes import ask
from tests.fuzz.random_jobs import random_job_files, random_size
from tests.fuzz.whole_way import check_alone, follow

DEMO_FOLDER = Path(__file__).parents[2] / "demo_frames"
FRAME_OF_JOB = {
    "city-cable-stops": "city",
    "dropbar-headset": "dropbar",
    "empty-frame-leader": "commuter",
    "four-bar-rear-brake": "four-bar",
    "hardtail-gear-housing": "hardtail",
    "hardtail-shared-port": "hardtail",
    "spoke-only": "spoke-only",
    "touring-unmeasured": "touring",
    "trail-rear-brake": "trail",
}

HOLES_SEED = 77


@lru_cache(maxsize=64)
def _text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def starter_files() -> list[Path]:
    """The catalog that mutated files are read beside."""
    return sorted(STARTER_FOLDER.glob("*.yaml"))


def mutated_file(number: int, folder: Path, *, follows_every_n: int, plans_every_n: int) -> str:
    """A frame, a job, a stock or a starter file broken at random, followed as far as it goes.

    Returns how far that was, and the kind of file.

    follows_every_n : a file is read beside its catalog once in so many, by itself always
    plans_every_n : of those, a sound one is planned with once in so many
    """
    draw = Random(number)
    job = draw.choice(sorted(FRAME_OF_JOB))
    frame_file, job_file = DEMO_FOLDER / f"{FRAME_OF_JOB[job]}.frame.yaml", DEMO_FOLDER / f"{job}.job.yaml"
    kind = draw.choice(("frame", "frame", "job", "stock", "starter"))
    broken = {
        "frame": frame_file,
        "job": job_file,
        "stock": DEMO_FOLDER / "workshop.stock.yaml",
        "starter": draw.choice(starter_files()),
    }[kind]
    target = folder / broken.name
    target.write_bytes(mutated(draw, _text_of(broken), others=_text_of(draw.choice(starter_files()))))
    alone = check_alone(target)
    if draw.random() * follows_every_n >= 1:
        return f"{kind} {alone}"
    catalogs = [target if path == broken else path for path in (*starter_files(), frame_file)]
    is_planned = draw.random() * plans_every_n < 1
    came_to = follow(
        catalogs,
        target if kind == "job" else job_file,
        target if kind == "stock" else None,
        plans=is_planned,
        prints=is_planned and draw.random() < 0.05,
    )
    return f"{kind} {came_to}"


def random_job(number: int, folder: Path, *, prints_every_n: int) -> str:
    """A sound job of any shape, followed to its pictures, and some to paper.

    Returns how large it is, the outcome of its plan, and whether it was printed.

    prints_every_n : once in so many jobs the papers are made as well
    """
    draw = Random(number)
    size = random_size(draw)
    for name, content in random_job_files(draw, size=size).items():
        (folder / name).write_bytes(content)
    prints = number % prints_every_n == 0
    came_to = follow([*starter_files(), folder / "frame.yaml"], folder / "job.yaml", None, plans=True, prints=prints)
    return f"{size.name} {came_to}{', printed' if prints and came_to != 'refused' else ''}"


def hole_question(number: int, _folder: Path) -> str:
    """Some things in some hole: answered, never better at worst than as told, or its sizes refused.

    Returns the outcome, and whether the work allowed ran out.
    """
    try:
        fit = ask(np.random.default_rng([HOLES_SEED, number]))
    except ImpossibleDimensionError:  # an outline that crosses itself, or a tolerance as large as the hole
        return "sizes refused"
    assert fit.clearance_mm is not None
    assert fit.worst_clearance_mm is not None
    assert fit.worst_clearance_mm <= fit.clearance_mm + 1e-6
    return f"{fit.outcome.word}{', work ran out' if fit.proof == WORK_RAN_OUT else ''}"
