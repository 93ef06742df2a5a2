"""A checked job becomes the planner's job."""

from itertools import pairwise

from catalog.jobs import CaseEntry, JobEntry, LineEndEntry, NewLineEntry, OldLineEntry, StayingLineEntry
from catalog.ready_catalog import Catalog
from catalog.visits import VisitEntry, VisitLineEntry
from planner import parts


def to_job(entry: JobEntry, *, catalog: Catalog) -> parts.Job:
    """The planner's job; everything the entry names must exist in the catalog."""
    frame = catalog.frames[entry.frame]
    lever_first = parts.is_lever_at_from(frame=frame, from_anchor_id=entry.from_, to_anchor_id=entry.to)
    return parts.Job(
        id=entry.id,
        title=entry.title or entry.id,
        frame=frame,
        from_anchor_id=entry.from_,
        to_anchor_id=entry.to,
        old=None if entry.old is None else _to_old(entry.old, catalog, lever_first),
        new=_to_new(entry.new, catalog, lever_first),
        staying=_to_staying(entry.staying, catalog),
        rotor_mm=entry.rotor,
        rotor_hub=entry.rotor_hub,
        may_remove_inserts=entry.allow.remove_inserts,
        keeps_old_brake=entry.allow.keep_old_brake,
    )


def to_case(entry: CaseEntry, *, catalog: Catalog) -> parts.Case:
    """The planner's case; everything the entry names must exist in the catalog."""
    frame = catalog.frames[entry.frame]
    lever_first = parts.is_lever_at_from(frame=frame, from_anchor_id=entry.from_, to_anchor_id=entry.to)
    return parts.Case(
        id=entry.id,
        frame=frame,
        from_anchor_id=entry.from_,
        to_anchor_id=entry.to,
        old=None if entry.old is None else _to_old(entry.old, catalog, lever_first),
        staying=_to_staying(entry.staying, catalog),
        rotor_mm=entry.rotor,
        rotor_hub=entry.rotor_hub,
        may_remove_inserts=entry.allow.remove_inserts,
        keeps_old_brake=entry.allow.keep_old_brake,
    )


def to_visit(entry: VisitEntry, *, catalog: Catalog) -> parts.Visit:
    """The planner's visit; everything the entry names must exist in the catalog."""
    return parts.Visit(
        id=entry.id,
        title=entry.title or entry.id,
        frame=catalog.frames[entry.frame],
        lines=tuple(_to_visit_line(line, catalog.frames[entry.frame], catalog) for line in entry.lines),
        staying=_to_staying(entry.staying, catalog),
        may_remove_inserts=entry.allow.remove_inserts,
        keeps_old_brake=entry.allow.keep_old_brake,
        may_take_out_first=entry.allow.take_out_first,
        first=entry.first,
        together=entry.together,
        before=tuple(pair for ids in entry.before for pair in pairwise(ids)),
    )


def _to_visit_line(entry: VisitLineEntry, frame: parts.Frame, catalog: Catalog) -> parts.VisitLine:
    lever_first = parts.is_lever_at_from(frame=frame, from_anchor_id=entry.from_, to_anchor_id=entry.to)
    return parts.VisitLine(
        id=entry.id,
        from_anchor_id=entry.from_,
        to_anchor_id=entry.to,
        old=None if entry.old is None else _to_old(entry.old, catalog, lever_first),
        new=None if entry.new is None else _to_new(entry.new, catalog, lever_first),
        through=entry.through,
        rotor_mm=entry.rotor,
        rotor_hub=entry.rotor_hub,
    )


def _to_staying(entries: tuple[StayingLineEntry, ...], catalog: Catalog) -> tuple[parts.StayingLine, ...]:
    return tuple(parts.StayingLine(line=catalog.lines[entry.line], through=entry.through) for entry in entries)


def _to_old(entry: OldLineEntry, catalog: Catalog, lever_first: bool) -> parts.OldLine:
    """The line in the frame: whatever belongs on its ends sits there."""
    brake, line, from_end, to_end = _chosen(entry, catalog, lever_first)
    return parts.OldLine(
        line=line,
        from_end=_as_fitted(from_end),
        to_end=_as_fitted(to_end),
        brake=brake,
        through=entry.through,
        measured_length_mm=entry.measured_length,
        measured=entry.measured,
        move_from_mm=None if entry.move is None else entry.move.from_,
        move_to_mm=None if entry.move is None else entry.move.to,
        is_reached=entry.reached,
    )


def _to_new(entry: NewLineEntry, catalog: Catalog, lever_first: bool) -> parts.NewLine:
    brake, line, from_end, to_end = _chosen(entry, catalog, lever_first)
    as_supplied = None if brake is None else brake.supplied_length_mm
    return parts.NewLine(
        line=line,
        from_end=from_end,
        to_end=to_end,
        brake=brake,
        supplied_length_mm=as_supplied if entry.supplied_length is None else entry.supplied_length,
    )


def _chosen(
    entry: OldLineEntry | NewLineEntry, catalog: Catalog, lever_first: bool
) -> tuple[parts.Brake | None, parts.Line, parts.LineEnd, parts.LineEnd]:
    """The brake if any, the line, and its ends at `from` and `to`."""
    if entry.brake is not None:
        brake = catalog.brakes[entry.brake]
        return brake, brake.line, *parts.ends_of_brake(brake, is_lever_at_from=lever_first)
    line = catalog.lines[entry.line or ""]
    return None, line, _to_end(entry.from_end, catalog), _to_end(entry.to_end, catalog)


def _to_end(entry: LineEndEntry | None, catalog: Catalog) -> parts.LineEnd:
    if entry is None:
        return parts.LineEnd()
    return parts.LineEnd(fitting=catalog.fittings[entry.fitting], is_fitted=entry.fitted)


def _as_fitted(end: parts.LineEnd) -> parts.LineEnd:
    return parts.LineEnd(fitting=end.fitting, is_fitted=end.fitting is not None)
