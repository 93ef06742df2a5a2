"""The one check command: format, lint, types, imports, tests. `python -m tests` runs all and stops at the first no.

The tests run on two cores, in no order; a file stays on one of them, with what its tests share (a served page, plans).
Words after `-m tests` go to pytest.
"""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent
BIN = Path(sys.executable).parent

CHECKS = (
    ("format", [str(BIN / "ruff"), "format", "--check", "."]),
    ("lint", [str(BIN / "ruff"), "check", "."]),
    ("types", [str(BIN / "mypy")]),
    ("imports", [str(BIN / "lint-imports")]),
    ("tests", [sys.executable, "-m", "pytest", "-n", "2", "--dist", "loadfile", *sys.argv[1:]]),
)


def main() -> int:
    """Run every check in turn; returns the status of the first that fails."""
    for name, command in CHECKS:
        print(f"--- {name}", flush=True)
        status = subprocess.call(command, cwd=ROOT)
        if status:
            print(f"{name}: failed", file=sys.stderr)
            return status
    return 0


if __name__ == "__main__":
    sys.exit(main())
