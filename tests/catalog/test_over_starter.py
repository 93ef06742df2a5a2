"""Own catalog files laid over the starter: the same id, and the own one counts, and that is told."""

from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, CatalogProblems, check_files, read_catalog, read_job
from tests.catalog.samples import EXAMPLE_FRAME, EXAMPLE_JOB

OWN_HOSE = "  - {id: hose-50x21, kind: hydraulic_hose, outer: 5.1, bore: 2.1, bend_radius: 35}\n"


def own_file(folder: Path, text: str, *, name: str = "own.yaml") -> Path:
    path = folder / name
    path.write_text("format: 1\n" + text, encoding="utf-8")
    return path


def test_own_files_stand_beside_the_starter_s_parts_and_before_them() -> None:
    starter, own = read_catalog(), read_catalog([EXAMPLE_FRAME])
    both = read_catalog([EXAMPLE_FRAME], over_starter=True)
    assert set(both.frames) == {"larkmoor-140"} | set(starter.frames)
    assert set(both.lines) == {*own.lines, *starter.lines}
    assert set(both.brakes) == {*own.brakes, *starter.brakes}
    methods = [method.id for method in both.workshop.methods]
    assert methods[:3] == [method.id for method in own.workshop.methods], "what suits as well is looked for here first"
    assert both.workshop.adapters == starter.workshop.adapters
    assert both.stands_in == ()


def test_files_that_stand_for_themselves_leave_frames_lines_parts_and_methods_out_but_keep_the_starter_s_work() -> None:
    bare = read_catalog([EXAMPLE_FRAME])
    assert len(bare.workshop.methods) == 3
    assert bare.workshop.adapters == ()
    assert bare.workshop.steps == read_catalog().workshop.steps
    assert bare.workshop.limits == read_catalog().workshop.limits


def test_the_own_entry_wins_and_is_told_once(tmp_path: Path) -> None:
    catalog = read_catalog([own_file(tmp_path, "lines:\n" + OWN_HOSE)], over_starter=True)
    assert catalog.lines["hose-50x21"].outer_diameter_mm == 5.1
    assert catalog.brakes["dunmere-4-rear"].line.outer_diameter_mm == 5.1, "the starter's brakes are supplied with it"
    assert catalog.stands_in == ("line hose-50x21",)


def test_what_says_the_same_as_the_starter_is_not_worth_telling(tmp_path: Path) -> None:
    for path in STARTER_FOLDER.glob("*.yaml"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    catalog = read_catalog([tmp_path], over_starter=True)
    assert catalog.stands_in == ()
    assert catalog == read_catalog()


def test_an_own_part_stands_in_for_a_starter_s_adapter_of_its_name(tmp_path: Path) -> None:
    catalog = read_catalog([own_file(tmp_path, "parts: [{id: post-step-20}]\n")], over_starter=True)
    assert catalog.stands_in == ("adapter post-step-20",)
    assert "post-step-20" not in {adapter.id for adapter in catalog.workshop.adapters}


@pytest.mark.parametrize("starter", [STARTER_FOLDER, Path("catalog/starter")], ids=["by its place", "from here"])
def test_the_starter_named_as_well_is_still_the_starter(
    starter: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(STARTER_FOLDER.parents[1])
    own = own_file(tmp_path, "shop: {trim: 7}\nlines:\n" + OWN_HOSE)
    for paths in ([starter, own], [own, starter]):
        catalog = read_catalog(paths, over_starter=True)
        assert catalog.stands_in == ("line hose-50x21",)
        assert catalog.read_from.count("the starter catalog") == 1
        assert check_files(paths, over_starter=True) == []


def test_the_same_id_in_two_own_files_is_still_a_fault(tmp_path: Path) -> None:
    first, second = (own_file(tmp_path, "lines:\n" + OWN_HOSE, name=name) for name in ("a.yaml", "b.yaml"))
    with pytest.raises(CatalogProblems, match=r"b\.yaml:3: line hose-50x21 > id: line hose-50x21 is already given"):
        read_catalog([first, second], over_starter=True)


def test_a_check_holds_own_files_against_the_starter_below_them(tmp_path: Path) -> None:
    own = own_file(tmp_path, "brakes:\n  - {id: mine, lever: {}, caliper: {}, line: hose-50x21}\n")
    assert check_files([own], over_starter=True) == []
    (problem,) = check_files([own])
    assert (problem.given, problem.allowed) == ("there is no line hose-50x21", "the catalog has none")


JOB = """format: 1
job: {id: j, frame: larkmoor-140, from: bar-right, to: caliper-rear, old: none, new: {brake: calder-9}}
"""


def test_no_such_brake_tells_which_files_were_read(tmp_path: Path) -> None:
    job = tmp_path / "job.yaml"
    job.write_text(JOB, encoding="utf-8")
    told = "there is no brake calder-9, did you mean calder-4? (read: the starter catalog, example_frame.yaml)"
    with pytest.raises(CatalogProblems) as refusal:
        read_job(job, read_catalog([EXAMPLE_FRAME], over_starter=True))
    assert told in str(refusal.value)
    assert [told in str(problem) for problem in check_files([job, EXAMPLE_FRAME], over_starter=True)] == [True]
    with pytest.raises(CatalogProblems, match=r"calder-4\? \(read: example_frame\.yaml\)$"):
        read_job(job, read_catalog([EXAMPLE_FRAME]))


def test_many_files_are_not_all_told(tmp_path: Path) -> None:
    paths = [own_file(tmp_path, f"parts: [{{id: p-{n}}}]\n", name=f"{n}.yaml") for n in range(9)]
    job = tmp_path / "job.yaml"
    job.write_text(JOB, encoding="utf-8")
    told = r"\(read: the starter catalog, 0\.yaml, 1\.yaml, 2\.yaml, 3\.yaml, 4\.yaml and 4 more\)"
    with pytest.raises(CatalogProblems, match=told):
        read_job(job, read_catalog(paths, over_starter=True))


def test_the_example_is_planned_on_over_the_starter_too() -> None:
    catalog = read_catalog([EXAMPLE_FRAME], over_starter=True)
    assert read_job(EXAMPLE_JOB, catalog).new.brake == catalog.brakes["calder-4"]
