"""Texts are remembered by how large they are, not by how many; and many files are read by several processes alike."""

from pathlib import Path

import pytest

from catalog import check_files, remembered
from catalog import read_ahead as reading
from catalog.file_contents import read_contents
from catalog.read_files import document_of
from catalog.remembered import Remembered
from catalog.yaml_text import read_yaml

MANY = 400


def line_file(number: int) -> bytes:
    """A small catalog file of its own."""
    entry = f"{{id: hose-{number}, name: Hose {number}, kind: hydraulic_hose, outer: 5.0, bore: 2.1, bend_radius: 40}}"
    return f"format: 1\nlines:\n- {entry}\n".encode()


def test_a_catalog_of_many_small_files_is_read_once() -> None:
    texts = [line_file(number) for number in range(MANY)]
    first = [document_of(f"{number}.yaml", text) for number, text in enumerate(texts)]
    again = [document_of(f"{number}.yaml", text) for number, text in enumerate(texts)]
    assert all(one is other for one, other in zip(first, again, strict=True))


def test_the_text_asked_for_longest_ago_gives_way(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remembered, "ROOM_BYTES", 30)
    asked: list[bytes] = []

    @Remembered
    def size(text: bytes) -> int:
        asked.append(text)
        return len(text)

    a, b, c = b"a" * 10, b"b" * 10, b"c" * 20
    assert [size(text) for text in (a, b, a, c, a, b)] == [10, 10, 10, 20, 10, 10]
    assert asked == [a, b, c, b]
    huge = b"d" * 31
    assert (size(huge), size(huge)) == (31, 31)
    assert asked[-2:] == [huge, huge]
    size.cache_clear()
    size(a)
    size(a)
    assert asked[-2:] == [huge, a]


def test_other_processes_read_what_one_would(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(30):
        (tmp_path / f"{number}.yaml").write_bytes(line_file(1000 + number))
    (tmp_path / "slip.yaml").write_bytes(line_file(2000).replace(b"outer: 5.0", b"outer: 5,0"))
    (tmp_path / "bad.yaml").write_bytes(b"format: 1\nlines: [")
    monkeypatch.setattr(reading, "WORTH_IT_BYTES", 1)
    monkeypatch.setattr(reading.os, "cpu_count", lambda: 2)
    read_yaml.cache_clear()
    reading.read_ahead(read_contents([tmp_path]))
    remembered_texts = {path.name: read_yaml(path.read_bytes()) for path in tmp_path.iterdir()}
    read_yaml.cache_clear()
    assert {path.name: read_yaml(path.read_bytes()) for path in tmp_path.iterdir()} == remembered_texts
    document_of.cache_clear()
    alone = check_files([tmp_path])
    document_of.cache_clear()
    read_yaml.cache_clear()
    assert check_files([tmp_path], on_all_cores=True) == alone
    assert {Path(problem.file).name for problem in alone} == {"slip.yaml", "bad.yaml"}
