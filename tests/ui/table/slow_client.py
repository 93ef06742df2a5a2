"""A client that lets a cluster make a small table: `python -m tests.ui.table.slow_client ADDRESS FOLDER CASES`."""

import sys
from pathlib import Path

from tests.ui.table.small_tables import small_cases, table_bytes
from ui.table.workers import cluster


def main(address: str, folder: Path, cases_n: int) -> None:
    sys.stdout.buffer.write(table_bytes(small_cases(cases_n), folder, workers=cluster(address), workers_n=8))


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]))
