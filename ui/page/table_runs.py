"""Tables that are being decided in the background, each by a process of its own, for all windows of the page."""

import json
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path
from secrets import token_hex
from threading import Thread
from time import monotonic

import streamlit as st

from ui.shared.store_place import page_store_place
from ui.table.apart import question_line
from ui.table.asked import TableAsked
from ui.table.progress import left_words

TOP = Path(__file__).parents[2]
ENDED = "The process that decided it was ended. What it had decided is kept: decide again, and it goes on from there."


@dataclass(slots=True, kw_only=True)
class Run:
    """One that is under way, or has just ended.

    title : what people call it
    whole_n, done_n : how many frames there are, and are done
    kept_n : how many an earlier run had done; None until that is told
    table_id : the table kept; None while there is none
    refused : why there will be none; "" while there may be one
    """

    title: str
    whole_n: int
    process: "subprocess.Popen[str]"
    began_s: float
    done_n: int = 0
    kept_n: int | None = None
    table_id: int | None = None
    refused: str = ""
    ended: bool = field(default=False)

    def left(self) -> str:
        """How far it is, and how long it will take."""
        done_n = self.done_n - (self.kept_n or 0)
        left = left_words(done_n=done_n, left_n=self.whole_n - self.done_n, spent_s=monotonic() - self.began_s)
        return f"{self.done_n} of {self.whole_n} frames{left}"


@st.cache_resource(show_spinner=False)
def runs() -> dict[str, Run]:
    """All of them, by a name that only this page knows."""
    return {}


def start_run(asked: TableAsked, *, title: str, by: str, note: str) -> str:
    """Begin to decide a table; returns the name of the run."""
    process = subprocess.Popen(
        [sys.executable, "-P", "-c", f"import sys; sys.path.insert(0, {str(TOP)!r}); {_RUN}"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    run = Run(title=title, whole_n=len(asked.cases), process=process, began_s=monotonic())
    line = question_line(asked, place=page_store_place(), by=by, note=note)
    Thread(target=_follow, args=(run, line), daemon=True).start()
    name = token_hex(5)
    runs()[name] = run
    return name


_RUN = "import runpy; runpy.run_module('ui.table.apart', run_name='__main__')"


def _follow(run: Run, line: str) -> None:
    """Ask, then read what is told until the process ends."""
    stdin, stdout = run.process.stdin, run.process.stdout
    assert stdin is not None  # both were asked for
    assert stdout is not None
    try:
        stdin.write(f"{line}\n")
        stdin.flush()
        for told in stdout:
            _take(run, json.loads(told))
    except (OSError, ValueError):
        pass  # it was ended; said below
    finally:
        run.process.kill()
        run.process.wait()
        if run.table_id is None and not run.refused:
            run.refused = ENDED
        run.ended = True


def _take(run: Run, step: dict[str, int | str]) -> None:
    if "done" in step:
        run.done_n = int(step["done"])
        run.kept_n = run.done_n if run.kept_n is None else run.kept_n
    elif "table" in step:
        run.table_id = int(step["table"])
    else:
        run.refused = str(step["refused"])


def stop_run(name: str) -> None:
    """End it; what it has decided is kept."""
    runs()[name].process.kill()


def forget_run(name: str) -> None:
    """Tell no more of one that has ended."""
    runs().pop(name, None)
