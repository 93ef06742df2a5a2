"""The shop's commands called as a person calls them, and the jobs they are called with."""

from pathlib import Path
from typing import Any

from typer.testing import CliRunner

from ui.terminal import app

ROOT = Path(__file__).parents[2]
STARTER, DEMO = ROOT / "catalog" / "starter", ROOT / "demo_frames"
TRAIL, CITY = DEMO / "trail-rear-brake.job.yaml", DEMO / "city-cable-stops.job.yaml"
FRAMES = tuple(DEMO / f"{name}.frame.yaml" for name in ("trail", "city", "touring"))
CATALOG = ("-c", STARTER, *(word for frame in FRAMES for word in ("-c", frame)))
DAY = ("--date", "2031-03-14")


def lineplan(*words: object, **environment: str) -> Any:
    """The command in this process; a traceback fails the test."""
    result = CliRunner().invoke(app, [str(word) for word in words], env={"COLUMNS": "160", **environment})
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def done(*words: object) -> str:
    """What a command printed that is meant to be done."""
    result = lineplan(*words)
    assert result.exit_code == 0, result.stderr
    return str(result.stdout)


def refused(*words: object, **environment: str) -> str:
    """What a command told that is meant to be refused: status 2, and nothing where results are printed."""
    result = lineplan(*words, **environment)
    assert (result.exit_code, result.stdout) == (2, ""), result.stdout
    return str(result.stderr)


def flat(text: str) -> str:
    """A printed text without its line ends and frames."""
    return " ".join(text.replace("│", " ").split())


def write_job(folder: Path, *changes: tuple[str, str], name: str = "mine.yaml") -> Path:
    """The trail job with some of its words changed."""
    text = TRAIL.read_text(encoding="utf-8")
    for before, after in changes:
        assert before in text
        text = text.replace(before, after)
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def change_price(store: Path, folder: Path, *, before: str, after: str, by: str) -> None:
    """Change a price of the starter's brakes in the store, by way of a file as a person would."""
    done("store", "export", folder, "--store", store)
    path = folder / "brakes.yaml"
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")
    done("store", "import", folder, "--store", store, "--by", by)
