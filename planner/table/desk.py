"""One case on the desk: what is worked out about it once, for whichever look asks first."""

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, field

from planner.fit.brake_end import find_brake_end
from planner.fit.things import thing_of_line
from planner.mechanics.drag import estimate_drag
from planner.mechanics.joint_hold import decide_pull
from planner.parts import Adapter, Case, Job, JobEnd, Line, job_of_pair
from planner.plan.cut_length import find_lengths
from planner.plan.job_facts import JobWay, inserts_taken_out
from planner.plan.joint_drag import drag_legs
from planner.plan.leg_views import leg_as_travelled, ranking_lengths_mm, with_slack
from planner.plan.lengths import LegLength, Lengths
from planner.plan.routing_plan import Joint
from planner.routing.attempts import Attempt
from planner.routing.closest_miss import find_closest_miss
from planner.routing.every_way import Way
from planner.routing.leg_poses import points_led_past_mm
from planner.routing.made import with_leading_bare
from planner.routing.passage import check_step
from planner.routing.run_graph import LEAVE, RunState
from planner.table.answer_book import AnswerBook
from planner.table.answers import WayAnswer
from planner.table.case_work import Passed, pass_all
from planner.table.ground import Ground
from planner.table.leg_book import Rest
from planner.table.manner_table import MannerTable
from planner.table.misses import LeastBad, NotDecidedHere, find_least_bad
from planner.table.pieces import numbers_of, piece_of
from planner.table.ranking import Candidate
from planner.table.steps import Steps, ask_steps
from planner.table.work_asked import classes_beyond_work
from planner.verdicts import Check, Outcome

SAME_MM = 1e-6
"""Ways whose lengths differ by less are left to the search itself."""


@dataclass(slots=True, kw_only=True)
class Desk:
    """A case with everything that was found out about it.

    kind : number of what lies in it, by which manners are remembered
    beyond_work : way classes whose plans may run out of work, which are planned by themselves
    """

    case: Case
    book: AnswerBook
    ground: Ground
    table: MannerTable
    kind: int
    places: Hashable
    steps: Steps = field(init=False)
    passed: Passed = field(init=False)
    beyond_work: frozenset[int] = field(init=False)
    jobs: dict[tuple[int, JobEnd | None], Job] = field(default_factory=dict)
    candidates: dict[int, tuple[Candidate, ...]] = field(default_factory=dict)
    way_lengths_mm: dict[int, list[float]] = field(default_factory=dict)
    answers: dict[Hashable, WayAnswer] = field(default_factory=dict)
    drags_n: dict[tuple[int, int, JobEnd], float] = field(default_factory=dict)
    lengths: dict[Hashable, Lengths] = field(default_factory=dict)
    least_bad: LeastBad | None = None

    def __post_init__(self) -> None:
        self.steps = ask_steps(
            job=self.job(0, None),
            states=self.ground.states,
            pieces=self.table.pieces,
            lines=self.table.lines,
            book=self.book.places,
            piece_book=self.book.pieces,
            bends=self.bends,
        )
        self.passed = pass_all(table=self.table, steps=self.steps, ground=self.ground)
        self.beyond_work = classes_beyond_work(
            job=self.job(0, None),
            graph=self.ground.graph,
            table=self.table,
            ride=numbers_of((piece_of(thing_of_line(line)) for line in self.table.lines), self.book.pieces),
            book=self.book.places,
            whole_rows=self.book.workshop.limits.plan_work_rows,
        )

    def once(self, key: Hashable, find: Callable[[], WayAnswer]) -> WayAnswer:
        """An answer that is found when it is first asked for."""
        if key not in self.answers:
            self.answers[key] = find()
        return self.answers[key]

    def job(self, look: int, bare_from: JobEnd | None) -> Job:
        """The job of a way class.

        bare_from : the end it is fed from where a fitting is taken off the leading end; None where none is
        """
        key = (look, bare_from)
        found = self.jobs.get(key)
        if found is None:
            found = job_of_pair(case=self.case, brake=self.book.looks.ways[look])
            found = self.jobs[key] = found if bare_from is None else with_leading_bare(found, bare_from)
        return found

    def job_of(self, row: int) -> Job:
        """The job as a row of the manner table does it."""
        look, manner = self.table.rows[row]
        return self.job(look, manner.feed_from if manner.undoes_leading else None)

    def legs(self, line: Line) -> Rest:
        """Every leg at rest."""
        return self.book.legs.rest(frame=self.case.frame, places=self.places, line=line)

    def bends(self, line: int, run_id: str) -> Sequence[Check]:
        """What the shape of a led run shows about a line's bends."""
        if not points_led_past_mm(self.case.frame.runs[run_id]):
            return ()
        return self.legs(self.table.lines[line]).legs[run_id].bend_checks

    def checks_at(self, row: int, state: RunState) -> tuple[Check, ...]:
        """The checks of one step, with their words and figures."""
        manner = self.table.rows[row][1]
        assert manner.mover is not None
        found = check_step(job=self.job_of(row), mover=manner.mover, state=state, limits=self.book.workshop.limits)
        return (*found, *self.bends(int(self.table.line[row]), state.run_id))

    def find_candidates(self, look: int) -> tuple[Candidate, ...]:
        """Every manner that gets through no worse than it must.

        Raises NotDecidedHere where two ways are as good and as long.
        """
        found = self.candidates.get(look)
        if found is None:
            rows = range(self.table.first_row[look], self.table.first_row[look + 1])
            outcomes = self.passed.outcomes[rows.start : rows.stop].tolist()
            least = min(outcomes, default=Outcome.NO_FIT)
            allowed = max(least, Outcome.TIGHT)
            passing = [row for row, outcome in zip(rows, outcomes, strict=True) if outcome <= allowed]
            found = tuple(map(self._candidate, passing)) if least < Outcome.NO_FIT else ()
            self.candidates[look] = found
        return found

    def _candidate(self, row: int) -> Candidate:
        manner = self.table.rows[row][1]
        way, length_mm = self._best_way(row)
        drag_n = self._drag_n(int(self.table.line[row]), way, manner.feed_from)
        limits = self.book.workshop.limits
        pull = decide_pull(
            holds_n=manner.holds_n,
            drag_n=drag_n,
            pull_margin_ratio=limits.pull_margin_ratio,
            ease_margin_ratio=limits.ease_margin_ratio,
        )
        return Candidate(
            manner=manner,
            row=row,
            outcome=Outcome(int(self.passed.outcomes[row])),
            way=way,
            length_mm=length_mm,
            drag_n=drag_n,
            advice=pull.advice,
        )

    def _best_way(self, row: int) -> tuple[int, float]:
        on_way = self.passed.on_way[row].tolist()
        least, lengths_mm = min(on_way), self._way_lengths_mm(int(self.table.line[row]))
        ways = [(lengths_mm[way], way) for way, outcome in enumerate(on_way) if outcome == least]
        (length_mm, best), *others = sorted(ways)
        if others and others[0][0] - length_mm < SAME_MM:
            raise NotDecidedHere
        return best, length_mm

    def _way_lengths_mm(self, line: int) -> list[float]:
        """By which equally good ways are put in order."""
        found = self.way_lengths_mm.get(line)
        if found is None:
            legs_mm = ranking_lengths_mm(self.legs(self.table.lines[line]).legs)
            found = [sum(legs_mm[state.run_id] for state in way) for way in self.ground.ways]
            self.way_lengths_mm[line] = found
        return found

    def _drag_n(self, line: int, way: int, feed_from: JobEnd) -> float:
        key = (line, way, feed_from)
        found = self.drags_n.get(key)
        if found is None:
            told, states = self.table.lines[line], self.ground.ways[way]
            rest, run_ids = self.legs(told), [state.run_id for state in states[1:-1]]
            met = drag_legs(
                frame=self.case.frame,
                port_ids=port_ids_of(states),
                between=[rest.legs[run_id] for run_id in run_ids],
                turns_deg=[rest.turns_deg[run_id] for run_id in run_ids],
                feed_from=feed_from,
            )
            found = self.drags_n[key] = estimate_drag(line=told, legs=met, limits=self.book.workshop.limits).drag_n
        return found

    def find_lengths(self, one: Candidate) -> Lengths:
        """How long the line must be that way."""
        look, manner = self.table.rows[one.row]
        key = (look, manner.feed_from if manner.undoes_leading else None, one.way, manner.bitten_mm)
        found = self.lengths.get(key)
        if found is None:
            limits = self.book.workshop.limits
            found = self.lengths[key] = find_lengths(
                job=self.job_of(one.row),
                legs=self._travelled(int(self.table.line[one.row]), one.way),
                limits=limits,
                bitten_mm=manner.bitten_mm,
                undone_mm=(limits.undone_end_mm or 0.0) if manner.undoes_leading else 0.0,
            )
        return found

    def _travelled(self, line: int, way: int) -> list[LegLength]:
        frame, states = self.case.frame, self.ground.ways[way]
        run_ids = [state.run_id for state in states]
        legs = self.book.legs.hung(frame=frame, places=self.places, line=self.table.lines[line], run_ids=run_ids)
        return [
            with_slack(
                leg=leg_as_travelled(leg=legs[state.run_id], from_place=state.place), run=frame.runs[state.run_id]
            )
            for state in states
        ]

    def work_min(self, one: Candidate, adapter: Adapter | None) -> float:
        """How long it takes that way."""
        look, manner = self.table.rows[one.row]
        assert manner.mover is not None
        job, route = self.job_of(one.row), port_ids_of(self.ground.ways[one.way])
        frame = self.case.frame
        places = frozenset(frame.ports[port_id].lies_at for port_id in route)
        inserts = (frame.ports[port_id].insert for port_id in inserts_taken_out(job=job, route=route))
        kinds = frozenset(insert.is_split for insert in inserts if insert is not None)
        key = (self.kind, look, manner.number, one.advice, adapter is None, places, kinds, self._facts_key(job))
        joint = Joint(thing=manner.mover.joint, holds_n=manner.holds_n, drag_n=one.drag_n, advice=one.advice)
        way = JobWay(
            job=job,
            method=manner.method,
            feed_from=manner.feed_from,
            joint=joint,
            route=route,
            adapter=adapter,
            undoes_leading=manner.undoes_leading,
            bitten_mm=manner.bitten_mm,
        )
        return self.book.work_min(way, key)

    def _facts_key(self, job: Job) -> Hashable:
        """What facts ask of a case beside what lies in it."""
        case, frame = self.case, self.case.frame
        end = find_brake_end(job=job)
        has_mount = end is not None and end.value in frame.brakes
        return frame.features, frame.rear is None, bool(case.staying), case.rotor_mm is None, end, has_mount

    def search_miss(self, row: int) -> Check | None:
        """What would have to give for a row to pass, where several ways are as little bad: as the search finds it."""
        manner, graph = self.table.rows[row][1], self.ground.graph
        assert manner.mover is not None
        attempt = Attempt(
            job=self.job_of(row),
            undoes_leading=manner.undoes_leading,
            leaves_old_way=False,
            method=manner.method,
            feed_from=manner.feed_from,
            joint=manner.mover.joint,
            general_checks=manner.general_checks,
            step_checks={state: self.checks_at(row, state) for state in graph if state != LEAVE},
            route=None,
        )
        return find_closest_miss(attempt=attempt, graph=graph, from_anchor_id=self.case.from_anchor_id)

    def least(self) -> LeastBad:
        """The least bad way of every row."""
        if self.least_bad is None:
            self.least_bad = find_least_bad(self.passed)
        return self.least_bad


def port_ids_of(way: Way) -> tuple[str, ...]:
    """Ids of the ports of a way, in order."""
    return tuple(state.place for state in way[1:])
