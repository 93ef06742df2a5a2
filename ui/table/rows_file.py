"""The rows of a table as the bytes of a file: CSV, or Parquet with the extra `table`."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from planner import BYTE_ORDER_MARK, COLUMNS, NUMBER_COLUMNS, csv_line
from ui.table.make import Row

CSV, PARQUET = ".csv", ".parquet"
ROWS_AT_ONCE = 100_000


def pieces_of(path: Path, rows: Iterable[Row]) -> Iterator[bytes]:
    """The file that the path names by its ending, piece by piece."""
    return csv_pieces(rows) if path.suffix.lower() == CSV else _parquet(rows)


def csv_pieces(rows: Iterable[Row]) -> Iterator[bytes]:
    """The rows as a CSV file, line by line."""
    yield (BYTE_ORDER_MARK + csv_line(COLUMNS)).encode("utf-8")
    for row in rows:
        yield csv_line(row).encode("utf-8")


def _parquet(rows: Iterable[Row]) -> Iterator[bytes]:
    """Words as dictionaries, what does not apply as null; the same bytes for the same rows and library."""
    import pyarrow
    from pyarrow import parquet

    words = pyarrow.dictionary(pyarrow.int32(), pyarrow.string())
    schema = pyarrow.schema([(name, pyarrow.float64() if name in NUMBER_COLUMNS else words) for name in COLUMNS])
    sink = pyarrow.BufferOutputStream()
    with parquet.ParquetWriter(sink, schema, compression="zstd", store_schema=False) as writer:
        for some in _in_batches(rows):
            columns = zip(*some, strict=True)
            arrays = [pyarrow.array(column, field.type) for column, field in zip(columns, schema, strict=True)]
            writer.write_table(pyarrow.Table.from_arrays(arrays, schema=schema))
    yield sink.getvalue().to_pybytes()


def _in_batches(rows: Iterable[Row]) -> Iterator[list[Row]]:
    some: list[Row] = []
    for row in rows:
        some.append(row)
        if len(some) == ROWS_AT_ONCE:
            yield some
            some = []
    if some:
        yield some
