"""Frames told in words, broken at random: accepted or refused with sentences and asked about, never a crash."""

from pathlib import Path
from random import Random

import pytest

from catalog import check_files, questions_of_files, read_catalog
from tests.catalog.test_geometry_table import FRAME as BY_TABLE
from tests.catalog.test_told_on_tubes import FRAME as ON_TUBES
from tests.fuzz.mutations import mutated

FILES = 120


@pytest.mark.parametrize(("whole", "other"), [(BY_TABLE, ON_TUBES), (ON_TUBES, BY_TABLE)], ids=["table", "tubes"])
def test_a_broken_frame_is_refused_in_sentences_or_read(tmp_path: Path, whole: str, other: str) -> None:
    file = tmp_path / "f.yaml"
    read = 0
    for number in range(FILES):
        file.write_bytes(mutated(Random(number), whole, others=other))
        problems = check_files([file])
        told = [*problems, *questions_of_files([file])]
        assert all(str(each).startswith(f"{file}") for each in told)
        if not problems:
            read += 1
            read_catalog([file], over_starter=True)
    assert 0 < read < FILES
