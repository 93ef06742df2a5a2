"""What one step costs beside what lies in the frame at its moment, and whether all ride together at the end."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from planner.verdicts import Outcome, Room
from planner.whole_bike.changes import NO_COST, Asked, Manner, Value, Way
from planner.whole_bike.lyings import Lying
from planner.whole_bike.place_book import STRICT, Lenience, PlaceBook, Size


@dataclass(frozen=True, slots=True, kw_only=True)
class StepAnswer:
    """The best manner of one step at one moment.

    value : what it costs
    manner : None for a line that only goes out
    outcome : of its drawing
    """

    value: Value
    manner: Manner | None
    outcome: Outcome


@dataclass(slots=True)
class StepBook:
    """The memory of steps over one visit.

    places : the memory of the places
    staying : lines that nobody touches
    level : the worst outcome that is taken
    lenience : what is overlooked
    """

    places: PlaceBook
    staying: tuple[Lying, ...]
    level: Outcome = Outcome.FITS
    lenience: Lenience = STRICT
    known: dict[tuple[object, ...], StepAnswer | None] = field(default_factory=dict)

    def asking(self, *, level: Outcome, lenience: Lenience = STRICT) -> "StepBook":
        """The same memory, asked at another level or with another lenience."""
        return StepBook(
            places=self.places,
            staying=self.staying,
            level=level,
            lenience=lenience,
            known=self.known,
        )

    def step(self, way: Way, beside: Iterable[Lying], *, is_unmeasured: bool = False) -> StepAnswer | None:
        """The least that this step costs beside these lines; None where no manner reaches the level.

        is_unmeasured : whether the line rests on something unmeasured in any case, since it rides there

        Raises WorkRanOutError as the memory of the places does.
        """
        if not way.manners:
            return StepAnswer(value=NO_COST, manner=None, outcome=Outcome.FITS)
        asked_of = {asked.place_id for asked in way.manners[0].drawing}
        sizes = _sizes_at(asked_of, (*self.staying, *beside))
        key = (way, self.level, self.lenience, is_unmeasured, tuple(sorted(sizes.items())))
        if key not in self.known:
            self.known[key] = self._find(way, sizes, is_unmeasured)
        return self.known[key]

    def _find(self, way: Way, sizes: dict[str, tuple[Size, ...]], is_unmeasured: bool) -> StepAnswer | None:
        second: StepAnswer | None = None
        for manner in way.manners:
            outcome = self._worst(manner.drawing, sizes, manner.alone)
            rests_on_unmeasured = is_unmeasured or outcome is Outcome.UNKNOWN
            resting_n = len(way.lines) if rests_on_unmeasured else 0
            answer = StepAnswer(value=(resting_n, *manner.value[1:]), manner=manner, outcome=outcome)
            if outcome <= self.level and rests_on_unmeasured is is_unmeasured:
                return answer
            if outcome <= self.level and second is None:
                second = answer
        return second

    def _worst(self, asked: tuple[Asked, ...], sizes: dict[str, tuple[Size, ...]], outcome: Outcome) -> Outcome:
        for each in asked:
            if outcome > self.level:
                break
            together = (each.size, *each.behind, *sizes.get(each.place_id, ()))
            outcome = max(outcome, self._outcome(each.place_id, each.room, together))
        return outcome

    def _outcome(self, place_id: str, room: Room, sizes: Iterable[Size]) -> Outcome:
        """Whether a no is a no or only not known is asked where that makes a difference: it is dear."""
        proves_no = self.level is Outcome.UNKNOWN
        return self.places.outcome(place_id, room, sizes, self.lenience, proves_no=proves_no)

    def end(self, ways: Iterable[Way]) -> Outcome:
        """Whether these lines and those that stay ride together, as far as the level asks.

        Raises WorkRanOutError as the memory of the places does.
        """
        worst = Outcome.FITS
        for outcome in self._end_by_place(tuple(ways)).values():
            worst = max(worst, outcome)
        return worst

    def rides_unmeasured(self, ways: Iterable[Way]) -> tuple[bool, ...]:
        """For each of these ways, whether something it rides in at the end is not measured or not proven.

        Raises WorkRanOutError as the memory of the places does.
        """
        ways = tuple(ways)
        by_place = self._end_by_place(ways) if self.level is Outcome.UNKNOWN else {}
        unmeasured = {place_id for place_id, outcome in by_place.items() if outcome is Outcome.UNKNOWN}
        return tuple(any(asked.place_id in unmeasured for asked in way.riding) for way in ways)

    def _end_by_place(self, ways: tuple[Way, ...]) -> dict[str, Outcome]:
        """What is found at each place, up to the first that is worse than the level."""
        lying = (*self.staying, *(each for way in ways for each in way.new))
        rooms = {asked.place_id: asked.room for way in ways for asked in way.riding}
        sizes = _sizes_at(rooms, lying)
        found: dict[str, Outcome] = {}
        for place_id, room in rooms.items():
            found[place_id] = self._outcome(place_id, room, sizes.get(place_id, ()))
            if found[place_id] > self.level:
                break
        return found


def _sizes_at(places: Iterable[str], lying: Iterable[Lying]) -> dict[str, tuple[Size, ...]]:
    """What lies in each of these places; a place where nothing does is left out."""
    found: dict[str, list[Size]] = {}
    asked = set(places)
    for each in lying:
        for place_id in each.places & asked:
            found.setdefault(place_id, []).append((each.diameter_mm, each.tolerance_mm))
    return {place_id: tuple(sorted(sizes)) for place_id, sizes in sorted(found.items())}
