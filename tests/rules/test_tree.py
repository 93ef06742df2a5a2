"""Rules about the tree itself: one question a file, no host of a package registry, no path of a machine."""

import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def text_files() -> list[Path]:
    listed = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    names = listed.stdout.splitlines() or [str(path.relative_to(ROOT)) for path in ROOT.rglob("*.py")]
    endings = {".py", ".md", ".toml", ".yaml", ".json", ".csv", ".svg", ".txt", ""}
    return [ROOT / name for name in names if Path(name).suffix in endings and (ROOT / name).is_file()]


FILES = text_files()


@pytest.mark.parametrize("path", [path for path in FILES if path.suffix == ".py"], ids=lambda path: str(path.name))
def test_a_file_answers_one_question(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 350


def test_no_registry_host_and_no_path_of_a_machine() -> None:
    forbidden = (
        "pypi" + ".org",
        "python" + "hosted",
        "npmjs" + ".",
        "deb.debian" + ".",
        "/" + "work/",
        "/" + "root/",
        "../" + "shared",
    )
    found = [
        f"{path.relative_to(ROOT)}: {word}"
        for path in FILES
        for word in forbidden
        if word in path.read_text(encoding="utf-8", errors="ignore")
    ]
    assert found == []
