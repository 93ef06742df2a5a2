"""No file needs a file that needs it: whatever two files both need stands in a third."""

import grimp
import networkx
import pytest

PACKAGES = ("planner", "catalog", "ui")


@pytest.fixture(scope="module")
def imports() -> networkx.DiGraph:
    """Which file imports which, wherever in the file it does so; a front door stands for no file."""
    found = grimp.build_graph(*PACKAGES, cache_dir=None)
    graph = networkx.DiGraph()
    for importer in found.modules:
        graph.add_edges_from((importer, imported) for imported in found.find_modules_directly_imported_by(importer))
    return graph


def test_no_files_import_each_other(imports: networkx.DiGraph) -> None:
    rings = [sorted(ring) for ring in networkx.strongly_connected_components(imports) if len(ring) > 1]
    assert rings == []
