"""Stock files: what is accepted, how every slip is told, and what such a file says after the cuts."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalog import CatalogProblems, check_files, holds_stock, read_catalog, read_stock, stock_text_after
from catalog.open_stock import opened_stock
from catalog.read_files import document_of
from catalog.stock_left import stock_after
from planner import CutList, Piece, StockLength, find_cut_list
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB, FOLDER

ID_RULE = "a short name of letters, digits, point, plus, hyphen and underscore, without spaces"
SAMPLE = """\
# the shelf
format: 1
kerf: 0.5
keep_offcut_from: 300   # shorter is scrap
stock:
  # on the wall
  - {id: roll, line: hose-50, length: 5000, quantity: 2, price: "40.00"}  # blue box
  - {id: endless, line: gear-40, length: 10000, note: "quantity: 7 a week"}
  # in the drawer
  - {id: left-1, line: hose-50, length: 900.5, quantity: 1, offcut: true}
  - id: left-2
    line: hose-50
    length: 700
    quantity: 3      # equally long
    offcut: true
    # end of the drawer
"""


@pytest.fixture(scope="module")
def catalog():
    return read_catalog([EXAMPLE_FRAME])


def stock_of(text: str, tmp_path: Path, catalog):
    path = tmp_path / "s.yaml"
    path.write_text(text, encoding="utf-8")
    return read_stock(path, catalog)


def cut(stock, *lengths_mm: float, line_id: str = "hose-50") -> CutList:
    return find_cut_list(
        pieces=[Piece(id=f"p{n}", line_id=line_id, length_mm=mm) for n, mm in enumerate(lengths_mm)],
        stock=stock.lengths,
        kerf_mm=stock.kerf_mm,
        keep_offcut_from_mm=stock.keep_offcut_from_mm,
    )


def test_a_stock_file_becomes_lengths_to_cut_from(tmp_path: Path, catalog) -> None:
    stock = stock_of(SAMPLE, tmp_path, catalog)
    assert (stock.kerf_mm, stock.keep_offcut_from_mm) == (0.5, 300)
    assert [(each.id, each.quantity, each.is_offcut) for each in stock.lengths] == [
        ("roll", 2, False),
        ("endless", None, False),
        ("left-1", 1, True),
        ("left-2", 3, True),
    ]
    assert str(stock.lengths[0].price) == "40.00"
    assert stock.lengths[1].price is None


ROLL = '{id: roll, line: hose-50, length: 5000, quantity: 2, price: "40.00"}'
FAULTS = {
    "unknown line": (
        "line: gear-40",
        "line: gear-4",
        "s.yaml:8: stock endless > line: there is no line gear-4, did you mean gear-40?",
    ),
    "id given twice": (
        "id: left-1",
        "id: roll",
        "s.yaml:10: stock roll > id: roll is already given at s.yaml:7, an id of its own for each",
    ),
    "endless offcut": (
        "length: 900.5, quantity: 1",
        "length: 900.5",
        "s.yaml:10: stock left-1 > quantity: nothing was given, "
        "how many there are must be given for an offcut, such as 1",
    ),
    "inches": (
        "length: 900.5",
        "length: 35.5",
        "s.yaml:10: stock left-1 > length: 35.5 mm was given, 50 to 100000 mm is allowed; "
        "if that was inches, it is 901.7 mm",
    ),
    "negative quantity": (
        "quantity: 3 ",
        "quantity: -1 ",
        "s.yaml:14: stock left-2 > quantity: -1 pieces was given, 0 to 10000 pieces is allowed",
    ),
    "half a roll": (
        "quantity: 2",
        "quantity: 2.5",
        "s.yaml:7: stock roll > quantity: 2.5 was given, a number is allowed, 0 to 10000 pieces",
    ),
    "price as a number": (
        'price: "40.00"',
        "price: 40.5",
        's.yaml:7: stock roll > price: the number 40.5 was given, money is decimal text in quotes such as "40.50"',
    ),
    "misspelt field": (
        "offcut: true}",
        "offcutt: true}",
        "s.yaml:10: stock left-1 > offcutt: offcutt is not a field here, did you mean offcut?",
    ),
    "misspelt key": (
        "keep_offcut_from:",
        "keep_offcuts_from:",
        "s.yaml:4: file > keep_offcuts_from: keep_offcuts_from is not a field here, did you mean keep_offcut_from?",
    ),
    "thick saw": ("kerf: 0.5", "kerf: 25", "s.yaml:3: file > kerf: 25 mm was given, 0 to 10 mm is allowed"),
    "other format": ("format: 1", "format: 2", "s.yaml:2: file > format: 2 was given, format: 1 is the one known here"),
    "no format": ("format: 1", "", "s.yaml:3: file: format is missing, format: 1 is the one known here"),
    "id with a space": ("id: roll,", "id: my roll,", f"s.yaml:7: stock my roll > id: 'my roll' was given, {ID_RULE}"),
    "no length": (
        "length: 5000, ",
        "",
        "s.yaml:7: stock roll > length: nothing was given, 50 to 100000 mm must be given",
    ),
}


@pytest.mark.parametrize("slip", FAULTS)
def test_a_slip_is_told_where_it_stands(slip: str) -> None:
    before, after, told = FAULTS[slip]
    assert SAMPLE.count(before) == 1
    document = document_of("s.yaml", SAMPLE.replace(before, after).encode())
    _, problems = opened_stock(document, line_ids={"hose-50", "hose-55", "gear-40"})
    assert [str(problem) for problem in problems] == [told]


def test_all_slips_are_told_at_once() -> None:
    text = SAMPLE.replace("line: gear-40", "line: gear-4").replace("900.5", '"900.5"').replace("id: left-2", "id: roll")
    _, problems = opened_stock(document_of("s.yaml", text.encode()), line_ids={"hose-50"})
    assert [problem.line for problem in problems] == [8, 10, 11]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("format: 1\nstock: 5\n", "a list in brackets is allowed"),
        ("format: 1\nstock: [5]\n", "a mapping of fields is allowed"),
        ("format: 1\nkerf: 1\n", "nothing was given"),
        ("", "an empty file"),
        ("format: 1\njob: {}\nstock: []\n", "this is a job file"),
        ("format: 1\nstock:\n\t- {}\n", "a tab"),
    ],
)
def test_what_is_no_stock_file_is_refused_in_words(text: str, words: str) -> None:
    entries, problems = opened_stock(document_of("s.yaml", text.encode()), line_ids=())
    assert entries is None
    assert words in "\n".join(map(str, problems))


def test_a_file_that_is_not_there_is_named(tmp_path: Path, catalog) -> None:
    with pytest.raises(CatalogProblems, match=r"nowhere\.yaml: file: there is no such file"):
        read_stock(tmp_path / "nowhere.yaml", catalog)


def test_check_knows_stock_files_and_catalog_folders_pass_them_over(tmp_path: Path) -> None:
    (tmp_path / "frame.yaml").write_bytes(EXAMPLE_FRAME.read_bytes())
    (tmp_path / "shelf.yaml").write_text(SAMPLE, encoding="utf-8")
    assert check_files([tmp_path]) == []
    assert "larkmoor-140" in read_catalog([tmp_path]).frames
    (tmp_path / "shelf.yaml").write_text(SAMPLE.replace("gear-40", "gear-4"), encoding="utf-8")
    assert [problem.field for problem in check_files([tmp_path])] == ["line"]
    assert [holds_stock(path) for path in (tmp_path / "shelf.yaml", EXAMPLE_FRAME, EXAMPLE_JOB)] == [True, False, False]


def test_what_is_used_goes_and_what_is_kept_comes_and_comments_stay(tmp_path: Path, catalog) -> None:
    stock = stock_of(SAMPLE, tmp_path, catalog)
    cut_list = cut(stock, 900.5, 700, 4600, 4999.5)
    assert not cut_list.uncut
    assert (
        stock_text_after(stock, cut_list)
        == """\
# the shelf
format: 1
kerf: 0.5
keep_offcut_from: 300   # shorter is scrap
stock:
  # on the wall
  - {id: roll, line: hose-50, length: 5000, quantity: 0, price: "40.00"}  # blue box
  - {id: endless, line: gear-40, length: 10000, note: "quantity: 7 a week"}
  # in the drawer
  - id: left-2
    line: hose-50
    length: 700
    quantity: 2      # equally long
    offcut: true
  - {id: roll-rest-1, line: hose-50, length: 399.5, quantity: 1, offcut: true}
    # end of the drawer
"""
    )


def test_the_rest_of_a_rest_gets_the_next_free_number(tmp_path: Path, catalog) -> None:
    text = """\
format: 1
keep_offcut_from: 50
stock:
  - {id: roll-rest-1, line: hose-50, length: 3000, quantity: 1, offcut: true}
  - {id: roll-rest-2, line: hose-50, length: 400, quantity: 1, offcut: true}
"""
    stock = stock_of(text, tmp_path, catalog)
    left = stock_after(stock, cut(stock, 1000))
    assert [(entry.id, entry.length) for entry in left.stock] == [("roll-rest-2", 400), ("roll-rest-3", 2000)]


def test_an_endless_roll_stays_endless(tmp_path: Path, catalog) -> None:
    stock = stock_of(SAMPLE, tmp_path, catalog)
    text = stock_text_after(stock, cut(stock, 9800, 9800, line_id="gear-40"))
    assert text == SAMPLE  # 199.5 mm each is less than is kept


@pytest.mark.parametrize("text", [SAMPLE, "{format: 1, stock: []}  # empty"], ids=["a list", "one line"])
def test_nothing_cut_changes_nothing(text: str, tmp_path: Path, catalog) -> None:
    stock = stock_of(text, tmp_path, catalog)
    assert stock_text_after(stock, cut(stock)) == text


@pytest.mark.parametrize(
    "text",
    [
        "format: 1\nkeep_offcut_from: 100\n"
        "stock: [{id: r, line: hose-50, length: 2000, quantity: 3}, {id: true-1, line: hose-50, length: 60,"
        " quantity: 1, offcut: true}]\n",
        '{format: 1, keep_offcut_from: 100, stock: [{"id": r, line: hose-50, length: 2000, "quantity": 3}]}',
        "format: 1\nkeep_offcut_from: 100\nstock:\n  -\n    id: r\n    line: hose-50\n    length: 2000\n"
        "    quantity:\n      3\n",
        "format: 1\nkeep_offcut_from: 100\nstock:\n- {note: 'quantity: 3, on Monday', id: r, line: hose-50,\n"
        "   length: 2000, quantity: 3\n  }\n",
    ],
    ids=["one list", "one line", "values on their own lines", "quantity in a note"],
)
def test_a_file_laid_out_in_another_way_says_the_same_afterwards(text: str, tmp_path: Path, catalog) -> None:
    stock = stock_of(text, tmp_path, catalog)
    cut_list = cut(stock, 1500)
    again = stock_of(stock_text_after(stock, cut_list), tmp_path, catalog)
    assert again.entries == stock_after(stock, cut_list)
    assert {("r", 2), ("r-rest-1", 1)} <= {(entry.id, entry.quantity) for entry in again.entries.stock}


def test_an_empty_shelf_is_written_as_one(tmp_path: Path, catalog) -> None:
    stock = stock_of("format: 1\nstock: []\n", tmp_path, catalog)
    assert stock_of(stock_text_after(stock, cut(stock)), tmp_path, catalog).lengths == ()


ENTRIES = st.lists(
    st.tuples(st.integers(500, 4000), st.one_of(st.none(), st.integers(0, 3)), st.booleans()), min_size=1, max_size=4
)


@settings(max_examples=40, deadline=None)
@given(entries=ENTRIES, lengths=st.lists(st.integers(200, 3000), max_size=5), keep=st.integers(50, 900))
def test_no_millimetre_of_counted_stock_is_lost(entries, lengths, keep, tmp_path_factory, catalog) -> None:
    rows = [
        f"  - {{id: s{n}, line: hose-50, length: {mm}{'' if count is None else f', quantity: {count}'}"
        f"{', offcut: true' if offcut and count is not None else ''}}}"
        for n, (mm, count, offcut) in enumerate(entries)
    ]
    text = "\n".join(["format: 1", "kerf: 1", f"keep_offcut_from: {keep}", "stock:", *rows, ""])
    folder = tmp_path_factory.mktemp("stock")
    stock = stock_of(text, folder, catalog)
    cut_list = cut(stock, *lengths)
    after = stock_of(stock_text_after(stock, cut_list), folder, catalog)
    endless = {each.id for each in stock.lengths if each.quantity is None}
    used_mm = sum(
        each.length_mm - (0 if each.stock_id in endless else each.offcut_mm)
        for each in cut_list.opened
        if each.stock_id not in endless
    )
    from_endless_mm = sum(each.offcut_mm for each in cut_list.opened if each.stock_id in endless)
    assert _counted_mm(after.lengths) == pytest.approx(_counted_mm(stock.lengths) - used_mm + from_endless_mm)


def _counted_mm(lengths: tuple[StockLength, ...]) -> float:
    return sum(each.length_mm * (each.quantity or 0) for each in lengths)


def test_the_demo_shelf_is_sound() -> None:
    demo = FOLDER.parents[1] / "demo_frames" / "workshop.stock.yaml"
    assert read_stock(demo, read_catalog()).lengths
