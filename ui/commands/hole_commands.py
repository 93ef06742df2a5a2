"""The command that traces a hole, and its options."""

from pathlib import Path
from typing import Annotated

import typer

from ui.commands.options import JsonOption, ReplaceOption


def add_hole_commands(app: typer.Typer) -> None:
    """Give a program the commands of this file."""
    app.command()(trace)


def trace(
    file: Annotated[
        Path, typer.Argument(metavar="DRAWING", help="The hole alone in an SVG or DXF file, or points in TXT or CSV.")
    ],
    length: Annotated[
        float | None,
        typer.Option("--length", help="How long the hole is, left to right once turned, in mm. [the file's unit]"),
    ] = None,
    turn: Annotated[
        float, typer.Option("--turn", help="Turn it by so many degrees, so that left to right runs along the tube.")
    ] = 0.0,
    to: Annotated[
        Path | None, typer.Option("--to", help="A YAML file to write the opening to, for a port of a frame.")
    ] = None,
    picture: Annotated[Path | None, typer.Option("--picture", help="An SVG file to draw the hole to.")] = None,
    json: JsonOption = False,
    replace: ReplaceOption = False,
) -> None:
    """Trace a hole: from a drawing to an outline with its figures, as an opening is typed."""
    from ui.commands.trace import TraceQuestion, run_trace

    question = TraceQuestion(
        drawing=file, known_length_mm=length, turn_deg=turn, to=to, picture=picture, replaces=replace
    )
    raise typer.Exit(run_trace(question, as_json=json))
