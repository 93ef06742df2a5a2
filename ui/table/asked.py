"""What a table is asked about: cases and brakes, read together from files."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from catalog import CatalogProblems, Problem, TableFiles, read_table_files
from planner import find_frame_names
from planner.parts import Brake, Case, Frame, FrameEnd, Workshop
from ui.shared.suiting_ends import brake_pairs


@dataclass(frozen=True, slots=True, kw_only=True)
class TableAsked:
    """Cases against brakes.

    workshop : which they were read with
    """

    workshop: Workshop
    cases: tuple[Case, ...]
    brakes: tuple[Brake, ...]

    def frame(self, frame_id: str) -> str:
        """What a frame is called."""
        return next((case.frame.name for case in self.cases if case.frame.id == frame_id), frame_id)

    def place(self, frame_id: str, place_id: str) -> str:
        """What a port or run of a frame is called."""
        frame = next((case.frame for case in self.cases if case.frame.id == frame_id), None)
        return place_id if frame is None else place_label(frame, place_id)


def read_asked(
    *,
    frames: tuple[Path, ...],
    brakes: tuple[Path, ...],
    catalogs: tuple[Path, ...],
    ends: FrameEnd,
    is_bare: bool,
) -> TableAsked:
    """The cases and brakes in some files; a bare frame is a case with nothing in it, once for each way a brake may run.

    frames : frame files, and job files without new
    brakes : files with brakes; none for all there are
    ends : which end of bare frames is asked about

    Raises CatalogProblems with everything that is wrong in any of the files.
    """
    files = read_table_files(frames=frames, brakes=brakes, catalogs=catalogs, over_starter=not is_bare)
    found = [bare_cases(frame, ends) for frame, _ in files.frames]
    problems = [*_without_ends(files, found, ends), *_named_twice(files, found)]
    if problems:
        raise CatalogProblems(problems)
    return TableAsked(
        workshop=files.catalog.workshop,
        cases=(*files.cases, *(case for some in found for case in some)),
        brakes=files.brakes,
    )


def asked_of_parts(
    workshop: Workshop, *, frames: Sequence[Frame], told: Sequence[Case], brakes: Sequence[Brake], ends: FrameEnd
) -> TableAsked:
    """Frames against brakes that are at hand; a frame that a case tells of is not asked about bare too.

    told : cases that tell what lies in their frames
    ends : which end of bare frames is asked about; frames without a way to such a brake are left out
    """
    in_cases = {case.frame.id for case in told}
    bare = [case for frame in frames if frame.id not in in_cases for case in bare_cases(frame, ends)]
    taken = {case.id for case in bare}
    named = (replace(case, id=f"job-{case.id}") if case.id in taken else case for case in told)
    return TableAsked(workshop=workshop, cases=(*named, *bare), brakes=tuple(brakes))


def place_label(frame: Frame, place_id: str) -> str:
    """What a port, anchor or run of a frame is called."""
    names = find_frame_names(frame)
    return names.place(place_id) if place_id in names.places else names.run(place_id)


def bare_cases(frame: Frame, ends: FrameEnd) -> list[Case]:
    """A frame with nothing in it, once for each way a brake may run to that end; none where no such ends are told."""
    pairs = brake_pairs(frame, ends)
    return [
        Case(
            id=frame.id if len(pairs) == 1 else f"{frame.id}+{start}+{end}",
            frame=frame,
            from_anchor_id=start,
            to_anchor_id=end,
            old=None,
        )
        for start, end in pairs
    ]


def _without_ends(files: TableFiles, found: list[list[Case]], ends: FrameEnd) -> Iterator[Problem]:
    for (frame, file), cases in zip(files.frames, found, strict=True):
        if not cases:
            given = f"no runs lead from a lever to a {ends.value} brake"
            allowed = "such ends with part, end and serves, another --ends, or a job file without new that names them"
            yield _about(frame, file, given=given, allowed=allowed)


def _named_twice(files: TableFiles, found: list[list[Case]]) -> Iterator[Problem]:
    told = {case.id for case in files.cases}
    for (frame, file), cases in zip(files.frames, found, strict=True):
        for case in cases:
            if case.id in told:
                yield _about(
                    frame, file, given=f"{case.id} is also the id of a job", allowed="an id of its own for each"
                )


def _about(frame: Frame, file: str, *, given: str, allowed: str) -> Problem:
    return Problem(file=file, line=0, thing=f"frame {frame.id}", field="", given=given, allowed=allowed)
