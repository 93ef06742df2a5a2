"""The files that are broken on purpose say what stands beside them, word for word."""

from pathlib import Path

import pytest

from catalog import check_files

FOLDER = Path(__file__).parents[2] / "demo_frames" / "broken_on_purpose"
FILES = sorted(FOLDER.glob("*.yaml"))
COMPANY = {"job_for_another_frame.yaml": Path("../../tests/catalog/example_frame.yaml")}
"""Files that are checked together with another one."""


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_broken_file_says_what_is_wrong(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(FOLDER)
    company = [COMPANY[path.name]] if path.name in COMPANY else []
    told = [str(problem) for problem in check_files([*company, Path(path.name)], over_starter=True)]
    expected = path.with_suffix(".expected.txt").read_text(encoding="utf-8").splitlines()
    assert expected, "a file broken on purpose must be broken"
    assert told == expected


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_broken_file_says_at_its_top_what_is_planted(path: Path) -> None:
    assert path.read_text(encoding="utf-8").startswith("# Planted: ")


def test_there_are_at_least_six_broken_catalogs_and_two_broken_jobs() -> None:
    jobs = [path for path in FILES if "job" in path.stem]
    assert len(jobs) >= 2
    assert len(FILES) - len(jobs) >= 6
