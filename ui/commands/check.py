"""`lineplan check`: every problem in some files, at once."""

import sys
from pathlib import Path

from catalog import check_files
from ui.shared.exit_status import ExitStatus


def run_check(files: list[Path]) -> int:
    """Check catalog and job files; returns the exit status."""
    problems = check_files(files)
    for problem in problems:
        print(problem, file=sys.stderr)
    if problems:
        count = len(problems)
        print(f"{count} problem{'' if count == 1 else 's'} found", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    print(f"{', '.join(str(file) for file in files)}: nothing wrong found")
    return ExitStatus.DONE
