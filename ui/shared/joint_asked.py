"""A joint between two lines of the catalog, asked about in place of a typed diameter."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from catalog import Catalog
from planner.parts import LeaderLine, Line, Method
from planner.verdicts import Check, Outcome, Thing

MOST_LINES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class JointAsked:
    """What was typed: which joint, and the old and the new line, or one for both."""

    method_id: str
    line_ids: tuple[str, ...]


def find_joint_problems(asked: JointAsked, catalog: Catalog) -> Iterator[str]:
    """Everything that is wrong with the joint asked about, one sentence each."""
    method_ids = [method.id for method in catalog.workshop.methods]
    if asked.method_id not in method_ids:
        yield f"fit > joint: {asked.method_id!r} was given, allowed: {_listed(method_ids)}"
    if not 1 <= len(asked.line_ids) <= MOST_LINES:
        given = f"fit > line: {len(asked.line_ids)} were given"
        yield f"{given}, allowed: one for both sides of the joint, or the old and the new"
    for line_id in asked.line_ids:
        if line_id not in catalog.lines:
            yield f"fit > line: {line_id!r} was given, allowed: {_listed(catalog.lines)}"


def check_joint_asked(asked: JointAsked, catalog: Catalog) -> tuple[Check, ...]:
    """What stands against making this joint between these lines; empty where nothing does."""
    from planner import check_method_suits_lines

    method, old, new = _parts(asked, catalog)
    checks = check_method_suits_lines(method=method, old=old, new=new, limits=catalog.workshop.limits)
    return tuple(check for check in checks if check.outcome > Outcome.TIGHT)


def thing_of_joint(asked: JointAsked, catalog: Catalog) -> Thing:
    """The joint as a round thing; only asked where nothing stands against it."""
    from planner import find_joint_size

    method, old, new = _parts(asked, catalog)
    return find_joint_size(method=method, old=old, new=new)


def _parts(asked: JointAsked, catalog: Catalog) -> tuple[Method, Line | None, Line]:
    """A single line is joined to another of its kind; a leader draws it through an empty frame."""
    method = next(method for method in catalog.workshop.methods if method.id == asked.method_id)
    old, new = catalog.lines[asked.line_ids[0]], catalog.lines[asked.line_ids[-1]]
    is_leader_alone = isinstance(method, LeaderLine) and len(asked.line_ids) == 1
    return method, (None if is_leader_alone else old), new


def _listed(ids: Iterable[str]) -> str:
    return ", ".join(sorted(ids)) or "none, for the catalog has none"
