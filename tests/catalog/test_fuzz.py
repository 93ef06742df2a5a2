"""Whatever stands in a file, the answer is a list of problems, never a crash."""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from catalog import Catalog, EntryNotAccepted, Problem, job_from_fields, read_catalog
from catalog.open_catalog import contents_of
from catalog.open_job import known_things, opened_job
from catalog.read_files import LIST_SECTIONS, Document, document_of
from catalog.yaml_text import YamlText, read_yaml
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB, FOLDER

ZOO_TEXT = (FOLDER / "zoo.yaml").read_text(encoding="utf-8")
JOB_TEXT = EXAMPLE_JOB.read_text(encoding="utf-8")
LINES = ZOO_TEXT.splitlines(keepends=True)
SPLINTERS = [
    *("{", "}", "[", "]", ":", ": ", ",", "- ", "#", "&a ", "*a", "!x ", "'", '"', "|", ">", "%", "\t", "\n", "?", "~"),
    *(".nan", "1e400", "0x", "-.inf", "9" * 5000, "null", "<<: ", "id: ", "\u2028", "é", "\x00", "---\n", "...\n"),
]
PLAIN = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=5)
    | st.sampled_from(["zoo", "wire", "none"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(max_size=4) | st.sampled_from(["id", "kind", "shape", "ports"]), inner, max_size=4)
    ),
    max_leaves=12,
)


def _told_in_words(problems: list[Problem]) -> None:
    for problem in problems:
        text = str(problem)
        assert "\n" not in text.replace(problem.given, "")
        assert problem.line >= 0
        assert problem.given
        assert problem.allowed
        assert "Entry" not in problem.allowed, "no names of classes"


def _check(content: bytes) -> None:
    document = document_of.__wrapped__("fuzz.yaml", content)
    _told_in_words(list(contents_of([document]).problems))
    known = known_things(_zoo())
    job, problems = opened_job(document, known=known)
    _told_in_words(problems)
    assert job is not None or problems


def _zoo() -> Catalog:
    return read_catalog([FOLDER / "zoo.yaml"])


@settings(deadline=None, max_examples=60)
@given(place=st.integers(0, len(ZOO_TEXT)), cut=st.integers(0, 12), splinter=st.sampled_from(SPLINTERS))
def test_catalog_text_with_a_splinter_in_it(place: int, cut: int, splinter: str) -> None:
    start = max(0, place - 400)
    _check((ZOO_TEXT[start:place] + splinter + ZOO_TEXT[place + cut : place + 300]).encode())


@settings(deadline=None, max_examples=25)
@given(st.lists(st.sampled_from(LINES), min_size=1, max_size=12))
def test_lines_of_a_catalog_in_any_order(lines: list[str]) -> None:
    _check("".join(["format: 1\n", *lines]).encode())


@settings(deadline=None, max_examples=60)
@given(place=st.integers(0, len(JOB_TEXT)), cut=st.integers(0, 12), splinter=st.sampled_from(SPLINTERS))
def test_job_text_with_a_splinter_in_it(place: int, cut: int, splinter: str) -> None:
    _check((JOB_TEXT[:place] + splinter + JOB_TEXT[place + cut :]).encode())


@settings(deadline=None, max_examples=150)
@given(st.binary(max_size=60))
def test_any_bytes(content: bytes) -> None:
    _check(content)


@settings(deadline=None, max_examples=100)
@given(section=st.sampled_from([*LIST_SECTIONS, "shop"]), value=PLAIN)
def test_any_values_in_any_section(section: str, value: Any) -> None:
    text = YamlText({"format": 1, section: value}, {(): 1})
    _told_in_words(list(contents_of([Document(file="fuzz.yaml", text=text)]).problems))


@settings(deadline=None, max_examples=100)
@given(field=st.sampled_from(["old", "new", "staying", "frame", "from", "allow", "rotor"]), value=PLAIN)
def test_any_choice_on_a_form(field: str, value: Any) -> None:
    try:
        job_from_fields({"id": "a", "frame": "zoo", field: value}, _zoo())
    except EntryNotAccepted as refused:
        _told_in_words(list(refused.problems))


@settings(deadline=None, max_examples=150)
@given(path=st.sampled_from(sorted(read_yaml(ZOO_TEXT.encode()).lines, key=str)), value=PLAIN)
def test_any_value_in_place_of_any_value(path: tuple[str | int, ...], value: Any) -> None:
    text = read_yaml(ZOO_TEXT.encode())
    changed = _with(text.value, path, value)
    _told_in_words(list(contents_of([Document(file="fuzz.yaml", text=YamlText(changed, text.lines))]).problems))


def _with(value: Any, path: tuple[str | int, ...], new: Any) -> Any:
    if not path:
        return new
    step, rest = path[0], path[1:]
    if isinstance(value, dict):
        return {key: _with(inner, rest, new) if key == step else inner for key, inner in value.items()}
    return [_with(inner, rest, new) if place == step else inner for place, inner in enumerate(value)]


def test_examples_are_sound_before_they_are_broken() -> None:
    known = known_things(read_catalog([EXAMPLE_FRAME]))
    assert opened_job(document_of("job.yaml", JOB_TEXT.encode()), known=known)[1] == []
