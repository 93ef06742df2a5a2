"""Files that are too big, too many or no files at all: an answer in words, soon, and never a traceback."""

import os
import threading
from pathlib import Path
from time import process_time

import pytest

from catalog import MOST_TOLD, CatalogProblems, check_files, read_catalog, told_in_lines
from catalog.errors import MOST_PROBLEMS
from catalog.open_catalog import contents_of
from catalog.read_files import document_of, read_document
from catalog.yaml_nodes import MOST_VALUES
from catalog.yaml_text import BIGGEST_FILE_BYTES, read_yaml

LONGEST_S = 8.0
"""Working time allowed for any of these files; on an idle machine it is an eighth of that."""

LINES = "format: 1\nlines: [{}]\n"

HUGE = {
    "a sign beyond all signs": ('a: "\\UFFFFFFFF"', "invalid Unicode character escape"),
    "half a sign": ('a: "\\uD800"', "invalid Unicode character escape"),
    "a number of thousands of digits": (f"format: 1\nshop: {{kerf: {'9' * 5000}}}", "a number of 5000 signs"),
    "a thousand such numbers": (f"format: 1\nx: [{('9' * 4000 + ',') * 1000}]", "a number of 4000 signs"),
    "8,000 keys given twice": ("format: 1\n" + "a: 1\n" * 8000, "a is given twice, first on line 2"),
    "a million numbers": (f"format: 1\nx: [{'1,' * 1_000_000}]", f"more than {MOST_VALUES} keys and values"),
    "a million tabs": ("format: 1\n" + "\t x\n" * 1_000_000, "a tab in front of the text"),
    "90,000 numbers for lines": (LINES.format("1," * 90_000), "problems up to here"),
    "90,000 lines without a field": (LINES.format("{}," * 90_000), "problems up to here"),
    "40,000 keys nobody knows": ("format: 1\n" + "".join(f"k{n}: 1\n" for n in range(40_000)), "k0 is not known here"),
    "40,000 fields nobody knows": (LINES.format(f"{{{','.join(f'k{n}: 1' for n in range(40_000))}}}"), "k0 is not"),
    "90,000 anchors": (f"a: [{','.join(f'&x{n} 1' for n in range(90_000))}]", "the anchor &x0"),
    "49,000 words behind commas": (f"format: 1\nx: {{a: b{', c' * 49_000}}}", "x is not known here"),
    "a text of four million blanks": (f'format: 1\nx: "{" " * 4_000_000}"', "x is not known here"),
    "brackets in brackets": ("[" * 1_000_000, "brackets in brackets without end"),
}


@pytest.mark.parametrize(("text", "said"), HUGE.values(), ids=HUGE.keys())
def test_a_huge_file_is_answered_soon_and_in_words(text: str, said: str) -> None:
    begun = process_time()
    problems = contents_of([document_of.__wrapped__("huge.yaml", text.encode())]).problems
    assert process_time() - begun < LONGEST_S
    assert any(said in problem.given for problem in problems)
    assert len(problems) <= MOST_PROBLEMS + 10


def test_names_that_lead_nowhere_among_thousands_are_told_soon() -> None:
    parts = "".join(f"  - {{id: part-{n}, name: Part}}\n" for n in range(9000))
    sizes = "name: Nut, style: compression, outer: 9.5, length: 18, set_by: workshop"
    nuts = "".join(f"  - {{id: nut-{n}, {sizes}, uses: [parq-{n}]}}\n" for n in range(100))
    begun = process_time()
    text = f"format: 1\nparts:\n{parts}fittings:\n{nuts}"
    problems = contents_of([document_of.__wrapped__("huge.yaml", text.encode())]).problems
    assert process_time() - begun < 2 * LONGEST_S
    assert any("did you mean part-" in problem.allowed for problem in problems)


def test_a_number_of_forty_signs_is_read_and_a_longer_one_is_not() -> None:
    assert read_yaml(b"a: " + b"9" * 40).value == {"a": int("9" * 40)}
    assert read_yaml(b"a: " + b"9" * 41).slips[0].given == "a number of 41 signs is no number here"


def test_at_most_200_problems_are_printed_and_the_rest_is_counted(tmp_path: Path) -> None:
    path = tmp_path / "many.yaml"
    path.write_text(LINES.format("1," * 300), encoding="utf-8")
    problems = check_files([path])
    lines = told_in_lines(problems)
    assert (len(problems), len(lines)) == (300, MOST_TOLD + 1)
    assert lines[-1] == "... and 100 more problems"
    assert told_in_lines(problems[:201])[-1] == "... and 1 more problem"
    assert told_in_lines(problems[:200]) == [str(problem) for problem in problems[:200]]
    with pytest.raises(CatalogProblems, match=r"\.\.\. and 100 more problems$"):
        read_catalog([path])


def test_a_pipe_is_no_file_to_wait_for(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.yaml"
    os.mkfifo(pipe)
    found: list[str] = []
    reading = threading.Thread(target=lambda: found.extend(map(str, check_files([pipe]))), daemon=True)
    reading.start()
    reading.join(timeout=20)
    assert found == [f"{pipe}: file: it cannot be read: it is no ordinary file, a readable file"]


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/null"])
def test_a_device_is_no_file_to_read(device: str) -> None:
    assert "it is no ordinary file" in read_document(Path(device)).problems[0].given


def test_a_folder_in_place_of_a_job_is_told() -> None:
    assert "it cannot be read" in read_document(Path("/")).problems[0].given


def test_a_file_over_the_limit_is_told_with_the_limit(tmp_path: Path) -> None:
    path = tmp_path / "big.yaml"
    path.write_bytes(b"#" * (3 * BIGGEST_FILE_BYTES))
    told = str(read_document(path).problems[0])
    assert told == f"{path}:1: file: more than 5000000 bytes, share it out over several files"


def test_a_file_cut_short_hides_no_name_that_stands_further_down() -> None:
    """What is not looked at is not said to be missing."""
    brakes = "  - {id: brake, name: Brake, line: hose-at-the-end}\n"
    text = f"format: 1\nbrakes:\n{brakes}lines: [{'{},' * 500}{{id: hose-at-the-end}}]\n"
    given = [problem.given for problem in contents_of([document_of("f.yaml", text.encode())]).problems]
    assert not any("there is no line" in words for words in given)
    assert "problems up to here" in given[-1]
