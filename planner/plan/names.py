"""What people call the things of a job: labels and names in place of ids."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import field, replace

from planner.parts import Frame, Job, Line, LineEnd, Visit, Workshop
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """Labels and names for people, by id; an id stands for itself where nobody named it.

    places : ports and anchors
    runs : of the frame
    things : lines, fittings, methods and adapters
    """

    places: Mapping[str, str] = field(default_factory=dict)
    runs: Mapping[str, str] = field(default_factory=dict)
    things: Mapping[str, str] = field(default_factory=dict)

    def place(self, place_id: str) -> str:
        """What a port or anchor is called."""
        return self.places.get(place_id, place_id)

    def run(self, run_id: str) -> str:
        """What a run is called."""
        return self.runs.get(run_id, run_id)

    def thing(self, thing_id: str) -> str:
        """What a line, fitting, method or adapter is called."""
        return self.things.get(thing_id, thing_id)

    def way(self, place_ids: tuple[str, ...]) -> str:
        """The places of a way, one after the other."""
        return " → ".join(self.place(place_id) for place_id in place_ids if place_id)


NO_NAMES = Names()
"""Nobody named anything: every id stands for itself."""


def find_frame_names(frame: Frame) -> Names:
    """Labels of a frame's places, told apart where two are alike; a run without one is called by its two ends."""
    told = {key: port.label for key, port in frame.ports.items()}
    told |= {key: anchor.label for key, anchor in frame.anchors.items()}
    places = told_apart({key: label for key, label in told.items() if label})
    runs = {
        run.id: run.label or f"the leg {' – '.join(places.get(end, end) for end in run.between)}"
        for run in frame.runs.values()
    }
    return Names(places=places, runs=told_apart(runs))


def told_apart(labels: Mapping[str, str]) -> dict[str, str]:
    """Labels by id; those that are alike each with its id behind it."""
    alike = Counter(labels.values())
    return {key: label if alike[label] == 1 else f"{label} ({key})" for key, label in labels.items()}


def find_names(*, job: Job, workshop: Workshop) -> Names:
    """Everything that a plan for this job may speak of.

    workshop : its methods and adapters
    """
    of_job = find_job_names(job)
    shop = {each.id: each.name for each in (*workshop.methods, *workshop.adapters)}
    return replace(of_job, things={**shop, **of_job.things})


def find_job_names(job: Job | Visit) -> Names:
    """Everything that a job of one line or of several speaks of by itself: its places, lines and fittings."""
    lines, beside = (job.lines, ()) if isinstance(job, Visit) else ((job,), job.ridden_beside)
    old = [each for line in lines if line.old for each in _named(line.old.line, line.old.from_end, line.old.to_end)]
    new = [each for line in lines if line.new for each in _named(line.new.line, line.new.from_end, line.new.to_end)]
    staying = [(line.line.id, line.line.name) for line in (*job.staying, *beside)]
    return replace(find_frame_names(job.frame), things=dict([*old, *staying, *new]))


def _named(line: Line, *ends: LineEnd) -> list[tuple[str, str]]:
    fittings = [end.fitting for end in ends if end.fitting is not None]
    return [(line.id, line.name), *((fitting.id, fitting.name) for fitting in fittings if fitting.name)]
