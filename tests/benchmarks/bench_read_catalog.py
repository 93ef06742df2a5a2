"""How long a catalog takes to read: run with `pytest tests/benchmarks/bench_read_catalog.py`."""

from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from catalog import STARTER_FOLDER, read_catalog
from catalog.open_catalog import _opened, starter_work
from catalog.read_files import document_of
from catalog.yaml_text import read_yaml

EXAMPLE = Path(__file__).parents[1] / "catalog" / "example_frame.yaml"


def _forget() -> None:
    for memory in (_opened, starter_work, document_of, read_yaml):
        memory.cache_clear()


@pytest.mark.parametrize("paths", [[EXAMPLE], [STARTER_FOLDER]], ids=["example with starter work", "whole starter"])
def test_read_with_every_memory_emptied(benchmark: BenchmarkFixture, paths: list[Path]) -> None:
    benchmark.pedantic(read_catalog, args=(paths,), setup=_forget, rounds=10)


def test_read_again(benchmark: BenchmarkFixture) -> None:
    benchmark(read_catalog, [EXAMPLE])
