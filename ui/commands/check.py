"""`lineplan check`: every problem in some files, at once."""

import sys
from pathlib import Path

from catalog import check_files, told_in_lines
from ui.shared.exit_status import ExitStatus


def run_check(files: list[Path]) -> int:
    """Check catalog and job files; returns the exit status."""
    problems = check_files(files)
    if problems:
        print("\n".join(told_in_lines(problems)), file=sys.stderr)
        count = len(problems)
        print(f"{count} problem{'' if count == 1 else 's'} found", file=sys.stderr)
        return ExitStatus.BAD_INPUT
    print(f"{', '.join(str(file) for file in files)}: nothing wrong found")
    return ExitStatus.DONE
