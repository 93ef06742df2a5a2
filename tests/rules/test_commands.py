"""What README and DEVELOPERS.md tell is true: every command runs, here or in `.ci/run`; every file named is there."""

import re
import shlex
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.ui.shop_samples import CATALOG, DEMO, ROOT, TRAIL, done, lineplan
from ui.commands.options import STORE_FILE

PAGES = ("README.md", "DEVELOPERS.md")
CI = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
EXAMPLES = ROOT / "tests" / "catalog"
SAVED_JOB = "trail-rear-brake"

RUN_ELSEWHERE = {"lineplan page": ROOT / "tests" / "ui" / "test_page_server.py"}
"""What runs until it is stopped, with the test that starts and stops it."""

ASKS_BACK = {"lineplan new frame FILE": ROOT / "tests" / "ui" / "dialogue" / "test_new_walks.py"}
"""What waits for answers, with the test that walks through it in a terminal."""


def told_commands() -> Iterator[str]:
    """Every command in the shell blocks of both pages, without comments; what is chained one by one."""
    for page in PAGES:
        text = (ROOT / page).read_text(encoding="utf-8")
        for block in re.findall(r"```sh\n(.*?)```", text, re.DOTALL):
            for line in block.splitlines():
                yield from (part.strip() for part in line.split("#")[0].split("&&") if part.strip())


COMMANDS = list(dict.fromkeys(told_commands()))
OWN = [command for command in COMMANDS if command.startswith("lineplan ")]


def filled_in(command: str, folder: Path) -> list[str]:
    """The words of a command with real files where the page has words in capitals."""
    words = shlex.split(command)[1:]
    stand_ins: dict[str, list[object]] = {
        "CATALOG": [DEMO / "trail.frame.yaml"],
        "FILES...": [EXAMPLES / "example_frame.yaml"],
        "FILES": [EXAMPLES / "example_frame.yaml"],
        "JOB": [SAVED_JOB],
        "FRAME": ["quillfern-130"],
        "FRAMES": [DEMO / "trail.frame.yaml"],
        "--to FILE": [folder / "written.csv"],
        "COPY": [folder / "copy.sqlite"],
        "PORT": ["stay-front"],
        "VALUE": ["round 6.5"],
        "JOB...": [TRAIL, *CATALOG],
        "--pdf FILE": [folder / "written.pdf"],
        "DRAWING": [EXAMPLES / "example_hole.svg"],
        "--picture FILE": [folder / "written.svg"],
        "--stock FILE": [DEMO / "workshop.stock.yaml"],
    }
    before = ["", *words]
    told = [f"{before[place]} {word}" if word == "FILE" else word for place, word in enumerate(words)]
    return [str(word) for key in told for word in stand_ins.get(key, [key])]


def test_the_pages_tell_commands() -> None:
    assert len(OWN) >= 12
    assert len(COMMANDS) >= len(OWN) + 5


@pytest.fixture(scope="module")
def kept_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with one job in it."""
    path = tmp_path_factory.mktemp("kept") / STORE_FILE
    done("save", TRAIL, *CATALOG, "--store", path, "--by", "Mira")
    return path


@pytest.mark.parametrize("command", [one for one in OWN if one not in RUN_ELSEWHERE and one not in ASKS_BACK])
def test_every_command_of_the_program_runs(
    command: str, kept_once: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.copy(kept_once, tmp_path / STORE_FILE)
    monkeypatch.chdir(tmp_path)
    result = lineplan(*filled_in(command, tmp_path))
    assert result.exit_code == 0, result.stderr


@pytest.mark.parametrize("command", RUN_ELSEWHERE)
def test_what_runs_until_it_is_stopped_has_a_test_of_its_own(command: str) -> None:
    words = ", ".join(f"'{word}'" for word in command.split())
    assert words in RUN_ELSEWHERE[command].read_text(encoding="utf-8")


@pytest.mark.parametrize("command", ASKS_BACK)
def test_what_asks_back_is_walked_through_in_a_terminal(command: str) -> None:
    walks = ASKS_BACK[command].read_text(encoding="utf-8")
    assert command in COMMANDS
    assert all(words in walks for words in ("pty.openpty()", 'PROGRAM, "new"', '"frame", tmp_path'))


@pytest.mark.parametrize("command", [command for command in COMMANDS if command not in OWN])
def test_every_other_command_is_run_on_a_clean_machine(command: str) -> None:
    """With its own numbers: `.ci/run` tries whether long runs start, not what they come to."""
    start = re.split(r" --(?!quiet|editable)", command)[0]
    assert any(line.startswith(start) for line in CI.splitlines()), start


def test_every_file_that_is_named_is_there() -> None:
    text = "".join((ROOT / page).read_text(encoding="utf-8") for page in PAGES)
    named = set(re.findall(r"`((?:planner|catalog|ui|tests|demo_frames|\.ci)/[\w./-]+)`", text))
    assert len(named) > 25
    assert {name for name in named if not (ROOT / name).exists()} == set()


def test_the_reading_path_has_eight_files_and_every_recipe_its_own() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    path = text.partition("## A job becomes a plan")[2].partition("\n## ")[0]
    assert re.findall(r"^(\d)\. `[\w/.]+\.py`", path, re.MULTILINE) == [str(n) for n in range(1, 9)]
    recipes = text.partition("## Recipes")[2].partition("\n## ")[0]
    told = dict(re.findall(r"^- \*\*(?:An?) ([\w ]+)\*\*:((?:.|\n)*?)(?=\n- \*\*|\Z)", recipes, re.MULTILINE))
    assert set(told) >= {"opening shape", "joint kind", "rule", "fact", "screen", "part kind"}
    assert all(re.search(r"`\w+/[\w/]+\.py`", words) for words in told.values())


def test_at_most_ten_decisions_concern_the_whole() -> None:
    decisions = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").partition("## Decisions")[2].partition("\n## ")[0]
    assert 5 <= len(re.findall(r"^\d+\. \*\*", decisions, re.MULTILINE)) <= 10
