"""Names and titles that would steer a terminal come out as text, whichever command prints them."""

import ast
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

UI = Path(__file__).parents[2] / "ui"
DEMO_JOB = UI.parent / "demo_frames" / "trail-rear-brake.job.yaml"
TITLE = "\x1b]0;owned\x1b\u202e\x9b2J"
WRITTEN = r'"\e]0;owned\e\u202E\x9B2J"'
TOLD = r"\u001b]0;owned\u001b\u202e\u009b2J"


def lineplan(*words: str | bytes, **changes: str) -> subprocess.CompletedProcess[bytes]:
    environment = os.environ | {"COLUMNS": "200"} | changes
    return subprocess.run(
        [sys.executable, "-c", "from ui.terminal import main; main()", *words], capture_output=True, env=environment
    )


def assert_harmless(printed: bytes) -> None:
    text = printed.decode("utf-8")
    assert not any(ord(sign) < 32 and sign != "\n" for sign in text)
    assert not set(text) & {"\x7f", "\x9b", "\u202e"}


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    written = DEMO_JOB.read_text(encoding="utf-8")
    title = next(line for line in written.splitlines() if line.strip().startswith("title:"))
    begun = title[: title.index("title:")]
    path = tmp_path_factory.mktemp("jobs") / "job.yaml"
    path.write_text(written.replace(title, f"{begun}title: {WRITTEN}"), encoding="utf-8")
    return path


CATALOGS = ("-c", str(UI.parent / "catalog" / "starter"), "-c", str(UI.parent / "demo_frames" / "trail.frame.yaml"))


def test_a_title_steers_no_terminal(job: Path) -> None:
    done = lineplan("plan", str(job), *CATALOGS)
    assert_harmless(done.stdout + done.stderr)
    assert TOLD in done.stdout.decode()


def test_json_keeps_the_title_as_it_is(job: Path) -> None:
    done = lineplan("plan", str(job), "--json", *CATALOGS)
    assert_harmless(done.stdout)
    assert json.loads(done.stdout)["title"] == TITLE


@pytest.mark.parametrize("command", ["plan", "check"])
def test_the_name_of_a_file_steers_no_terminal_and_stays_in_its_line(command: str) -> None:
    done = lineplan(command, b"\x1b]0;owned\x07\nforged: \xff.yaml")
    assert done.returncode == 2
    assert_harmless(done.stdout + done.stderr)
    assert rb"\u001b]0;owned\u0007\u000aforged: \udcff.yaml" in done.stderr


def test_an_option_nobody_knows_is_told_as_text() -> None:
    done = lineplan("plan", "--\x1b[2J")
    assert done.returncode == 2
    assert_harmless(done.stderr)


def test_signs_that_a_terminal_cannot_show_are_told_by_number_too() -> None:
    done = lineplan("demo", "--no-page", PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (0, b"")


def test_every_report_goes_through_the_one_place() -> None:
    """Nobody else opens a console of their own."""
    for path in UI.rglob("*.py"):
        calls = (node for node in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(node, ast.Call))
        opened = [call for call in calls if ast.unparse(call.func).endswith("Console")]
        assert not opened or path == UI / "reports" / "report.py", path
