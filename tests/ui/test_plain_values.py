"""Words, numbers and names of files taken plainly are what typer makes of them; every slip is still told by typer."""

from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
import typer
from typer.testing import CliRunner

from ui.commands.plain_values import NotPlain, _taken, take_plain_values
from ui.terminal import app

TEXTS = (
    "",
    "5",
    "-3",
    "5.5",
    "1e3",
    " 7",
    "1_000",
    "nan",
    "a.yaml",
    "/",
    "slot 19x7",
    "20..45",
    "letter",
    "A4",
    "\udc80",
)


def every_param(command: Any) -> Iterator[tuple[Any, Any]]:
    for below in getattr(command, "commands", {}).values():
        yield from every_param(below)
    yield from ((command, param) for param in command.params if hasattr(param, "type_descriptor"))


def test_whatever_is_taken_plainly_is_what_typer_makes_of_it() -> None:
    taken_n = 0
    for command, param in every_param(typer.main.get_command(app)):
        context = typer.Context(command)
        kind, wanted = param.type_descriptor.annotation, param.type_descriptor.parameter_info
        for text in (None, *TEXTS):
            value = [text] if text is not None and (param.multiple or param.nargs == -1) else text
            try:
                plainly = _taken(value, kind, wanted)
            except (NotPlain, typer.BadParameter):
                continue
            by_typer = param.get_runtime_param().coerce(value, param=param, ctx=context)
            assert repr(plainly) == repr(by_typer), (command.name, param.name, text)
            taken_n += 1
    assert taken_n > 500


def test_a_folder_that_may_not_be_read_is_left_to_typer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("ui.commands.plain_values.os.access", lambda *_: False)
    (_, param), *_ = [
        (command, param) for command, param in every_param(typer.main.get_command(app)) if param.name == "catalog"
    ]
    with pytest.raises(NotPlain):
        _taken([str(tmp_path)], param.type_descriptor.annotation, param.type_descriptor.parameter_info)


@pytest.mark.parametrize(
    "words",
    [["fit", "--item", "five"], ["fit", "--nothing"], ["plan"], ["page", "--port", "x"], ["quote", "--over", "-1"]],
    ids=" ".join,
)
def test_slips_are_told_as_before(words: list[str]) -> None:
    before = CliRunner().invoke(app, words)
    command = typer.main.get_command(app)
    take_plain_values(command)
    result = _ran(command, words)
    assert result == (before.exit_code, before.output)


def _ran(command: Any, words: list[str]) -> tuple[int, str]:
    told = StringIO()
    with redirect_stdout(told), redirect_stderr(told):
        try:
            command.main(args=words, prog_name="lineplan")
        except SystemExit as end:
            return int(str(end.code or 0)), told.getvalue()
    return 0, told.getvalue()
