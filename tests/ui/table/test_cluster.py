"""A cluster on this machine, a worker and then the client killed midway: nothing lost or twice, the same bytes."""

import json
import subprocess
import sys
import time
from pathlib import Path

import pytest
from distributed import LocalCluster

from tests.ui.shop_samples import DEMO, refused
from tests.ui.table.small_tables import small_cases, table_bytes
from ui.table.parts_folder import MANIFEST

CASES_N = 24


def cases_kept(folder: Path) -> list[str]:
    """Keys of the cases that the manifest tells of, in the order they came."""
    path = folder / MANIFEST
    text = path.read_text("utf-8") if path.exists() else ""
    return [key for line in text.split("\n") if line.endswith("}") for key in json.loads(line)["cases"]]


def wait_for(folder: Path, cases_n: int, client: "subprocess.Popen[bytes]") -> None:
    while len(cases_kept(folder)) < cases_n and client.poll() is None:
        time.sleep(0.01)


@pytest.mark.filterwarnings("ignore")  # a killed worker is told of in many ways
def test_a_worker_and_then_the_client_killed_midway(tmp_path: Path) -> None:
    folder = tmp_path / "parts"
    with LocalCluster(
        n_workers=2, threads_per_worker=1, dashboard_address=None, host="127.0.0.1", silence_logs=50
    ) as cluster:
        command = [sys.executable, "-m", "tests.ui.table.slow_client", cluster.scheduler_address, folder, f"{CASES_N}"]
        first = subprocess.Popen([str(word) for word in command], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
        wait_for(folder, 1, first)
        next(iter(cluster.workers.values())).process.process.kill()
        wait_for(folder, CASES_N // 3, first)
        first.kill()
        first.communicate()
        kept = cases_kept(folder)
        second = subprocess.run([str(word) for word in command], capture_output=True, check=False)
    assert second.returncode == 0, second.stderr[-2000:]
    assert 0 < len(kept) <= CASES_N
    assert set(kept) <= set(cases_kept(folder))
    assert len(cases_kept(folder)) == len(set(cases_kept(folder))) == CASES_N
    assert second.stdout == table_bytes(small_cases(CASES_N), tmp_path / "here")


def test_a_scheduler_that_does_not_answer_is_told(tmp_path: Path) -> None:
    to = tmp_path / "t.csv"
    words = refused("table", "--frames", DEMO / "trail.frame.yaml", "--to", to, "--scheduler", "nowhere://")
    assert "table > scheduler: nowhere:// does not answer" in words
    assert not to.exists()
