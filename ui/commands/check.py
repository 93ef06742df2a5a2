"""`lineplan check`: every problem in some files, at once."""

import sys
from pathlib import Path

from catalog import check_files

EXIT_SOUND, EXIT_BAD_INPUT = 0, 2


def run_check(files: list[Path]) -> int:
    """Check catalog and job files; returns the exit status."""
    problems = check_files(files)
    for problem in problems:
        print(problem, file=sys.stderr)
    if problems:
        count = len(problems)
        print(f"{count} problem{'' if count == 1 else 's'} found", file=sys.stderr)
        return EXIT_BAD_INPUT
    print(f"{', '.join(str(file) for file in files)}: nothing wrong found")
    return EXIT_SOUND
