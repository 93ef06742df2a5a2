"""The questions about a frame: one script for the terminal and the page."""

import re
from collections.abc import Collection, Mapping

from catalog import HoleKind, asked_field, usual_frame
from planner.parts import OUTSIDE
from ui.shared.dialogue import frame_words as words
from ui.shared.dialogue.frame_layouts import LAYOUT_CHOICES, LAYOUTS, FrameLayout
from ui.shared.dialogue.questions import (
    LONGEST_OUTLINE,
    Answer,
    AnswerRefused,
    Question,
    Script,
    choices_listed,
    read_choice,
    read_yes,
)
from ui.shared.dialogue.said_parts import read_guide, read_mount, read_rubber, read_travel
from ui.shared.dialogue.said_places import PLACE_ALLOWED, HolePlace, read_place, zone_name
from ui.shared.dialogue.said_sizes import OPENING_ALLOWED, read_hole_size, read_one, read_size

Answers = dict[str, Answer]
MOST_HOLES = 12
HANDS = (("right", "right"), ("left", "left"))
LOOKS = (("side", "through the side"), ("along", "along the tube"))


def frame_script(*, known_ids: Collection[str] = ()) -> Script[Answers]:
    """Ask for a whole frame, hole by hole from the lever to the caliper; tells all the answers by their keys.

    known_ids : of frames that are there already
    """
    answers: Answers = {}
    yield from _ask(answers, name_question(known_ids))
    layout = LAYOUTS[(yield from _ask(answers, _layout_question())).value]
    yield from _ask(answers, _choice("hand", words.HAND, HANDS, default="right"))
    count = (yield from _ask(answers, _count_question())).value
    places: list[HolePlace] = []
    for hole in range(1, count + 1):
        place = yield from _ask_hole(answers, hole, count, places)
        places.append(place)
    for stretch in range(1, count):
        if places[stretch - 1].joins[1] != OUTSIDE:
            yield from _ask(answers, _guide_question(stretch + 1, places[stretch - 1].joins[1]))
    yield from _ask_lengths(answers, places, layout)
    yield from _ask_rest(answers, layout)
    return answers


def _ask(answers: Answers, question: Question) -> Script[Answer]:
    answer = yield question
    answers[question.key] = answer
    return answer


def name_question(known_ids: Collection[str]) -> Question:
    """Ask what the frame is called; no other frame may be."""
    asks, allowed, explains = words.NAME

    def read(typed: str) -> str:
        if not id_of_name(typed):
            raise AnswerRefused("it has no letter or digit")
        if id_of_name(typed) in known_ids:
            raise AnswerRefused(f"there is a frame {id_of_name(typed)} already")
        return typed

    return Question(key="name", asks=asks, allowed=allowed, explains=explains, reads=read)


def id_of_name(name: str) -> str:
    """A short name for files, made of the words of a name; "" where nothing of it can stand in one."""
    return re.sub(r"[^\w.+]+", "-", name.casefold()).strip("-.+")[:64].rstrip("-.+")


def _layout_question() -> Question:
    asks, explains = words.LAYOUT
    return Question(
        key="layout",
        asks=asks,
        allowed=choices_listed(LAYOUT_CHOICES),
        explains=explains,
        reads=lambda typed: read_choice(typed, LAYOUT_CHOICES),
        default="1",
        choices=LAYOUT_CHOICES,
    )


def _choice(
    key: str, told: tuple[str, str, str], choices: tuple[tuple[str, str], ...], *, default: str | None
) -> Question:
    asks, allowed, explains = told
    return Question(
        key=key,
        asks=asks,
        allowed=allowed,
        explains=explains,
        reads=lambda typed: read_choice(typed, choices),
        default=default,
        choices=choices,
    )


def _count_question() -> Question:
    asks, allowed, explains = words.HOLES

    def read(typed: str) -> int:
        if not typed.isascii() or not typed.isdigit() or not 1 <= int(typed) <= MOST_HOLES:
            raise AnswerRefused("")
        return int(typed)

    return Question(key="holes", asks=asks, allowed=allowed, explains=explains, reads=read)


def _ask_hole(answers: Answers, hole: int, count: int, before: list[HolePlace]) -> Script[HolePlace]:
    inside = before[-1].joins[1] if before else OUTSIDE
    where = "it lies outside" if inside == OUTSIDE else f"it lies in the {zone_name(inside).lower()}"
    place: HolePlace = (
        yield from _ask(
            answers,
            Question(
                key=f"hole {hole} place",
                asks=f"Hole {hole} of {count}: where? (before it, {where})",
                allowed=PLACE_ALLOWED,
                explains=words.PLACE,
                reads=lambda typed: read_place(typed, inside=inside, is_last=hole == count),
                takes_photo=True,
            ),
        )
    ).value
    yield from _ask(answers, opening_question(f"hole {hole} opening", f"Hole {hole}: opening, mm?"))
    usual = usual_frame().holes[place.kind]
    low, high = usual.tilt
    leans = f"{low:g}..{high:g}" if high > low else f"{low:g}"
    asks = f"Hole {hole}: how far does the line lean in it, degrees?"
    yield from _ask(answers, tilt_question(f"hole {hole} tilt", asks, default=leans))
    looks = (f"Hole {hole}: through the tube's side, or along it?", "side or along", words.LOOKS)
    yield from _ask(answers, _choice(f"hole {hole} looks", looks, LOOKS, default=str(usual.looks)))
    yield from _ask(answers, _wall_question(hole, place.kind, answers))
    yield from _ask(
        answers,
        Question(
            key=f"hole {hole} rubber",
            asks=f"Hole {hole}: a rubber or plastic piece in it?",
            allowed="no, or the opening in it such as “slot 10x5.4” or “round 5.9 fixed”",
            explains=words.RUBBER,
            reads=lambda typed: read_rubber(typed, hole=answers[f"hole {hole} opening"].value),
            default="no",
        ),
    )
    return place


def opening_question(key: str, asks: str, *, default: str | None = None) -> Question:
    """Ask how large a hole is."""
    return Question(
        key=key,
        asks=asks,
        allowed=OPENING_ALLOWED,
        explains=words.OPENING,
        reads=read_hole_size,
        default=default,
        may_skip=True,
        longest=LONGEST_OUTLINE,
    )


def tilt_question(key: str, asks: str, *, default: str) -> Question:
    """Ask how far the line leans in a hole."""
    return Question(
        key=key,
        asks=asks,
        allowed="degrees such as 35, or 20..45",
        explains=words.TILT,
        reads=lambda typed: read_size(typed, kind="port", name="tilt"),
        default=default,
    )


def _wall_question(hole: int, kind: HoleKind, answers: Answers) -> Question:
    usual = usual_frame()
    material = next(
        (
            answer.words.casefold()
            for key, answer in reversed(answers.items())
            if key.endswith("wall") and answer.words.casefold() in usual.walls
        ),
        next(iter(usual.walls)),
    )
    return wall_question(
        f"hole {hole} wall",
        f"Hole {hole}: wall, mm?",
        default=f"{usual.headset_cover_wall:g}" if kind is HoleKind.HEADSET else material,
    )


def wall_question(key: str, asks: str, *, default: str) -> Question:
    """Ask how thick a wall is."""
    materials: Mapping[str, float] = usual_frame().walls
    listed = ", ".join(f"{material} ({thickness:g})" for material, thickness in materials.items())

    def read(typed: str) -> float | str:
        thickness = materials.get(typed.casefold())
        return read_size(typed, kind="port", name="wall").written if thickness is None else thickness

    return Question(
        key=key,
        asks=asks,
        allowed=f"millimetres such as 1.6, or {listed}",
        explains=words.WALL,
        reads=read,
        default=default,
    )


def _guide_question(stretch: int, zone: str) -> Question:
    return Question(
        key=f"stretch {stretch} guide",
        asks=f"Inside the {zone_name(zone).lower()}: a small tube for the line? (bore, tightest bend, turn)",
        allowed="no, or its bore, bend radius and turn such as “6.7 200 30”, or “6.7 straight”; or -",
        explains=words.GUIDE,
        reads=read_guide,
        default="no",
        may_skip=True,
    )


def _ask_lengths(answers: Answers, places: list[HolePlace], layout: FrameLayout) -> Script[None]:
    asks, explains = words.LENGTHS
    listed = choices_listed(words.LENGTH_CHOICES)
    question = _choice("lengths", (asks, listed, explains), words.LENGTH_CHOICES, default="1")
    how = (yield from _ask(answers, question)).value
    if how == "tape":
        ends = ["the lever", *(f"hole {hole} ({place.label})" for hole, place in enumerate(places, 1)), "the caliper"]
        for stretch in range(1, len(ends)):
            yield from _ask(answers, _length_question(stretch, ends[stretch - 1], ends[stretch]))
        asks, explains = words.REACHED
        yield from _ask(
            answers,
            Question(key="reached", asks=asks, allowed="yes or no", explains=explains, reads=read_yes, default="no"),
        )
    elif how == "table":
        for name, (asks, kind) in words.TABLE.items():
            yield from _ask(answers, _table_question(name, asks, kind, layout))


def _length_question(stretch: int, start: str, end: str) -> Question:
    return Question(
        key=f"stretch {stretch} length",
        asks=f"From {start} to {end}, along the line, mm?",
        allowed="millimetres such as 440, 430..450 or 440 ±8; or -",
        explains=words.STRETCH,
        reads=lambda typed: read_size(typed, kind="run", name="length"),
        may_skip=True,
    )


def _table_question(name: str, asks: str, kind: str, layout: FrameLayout) -> Question:
    field = asked_field(kind, name)
    usual = layout.usual(name)
    return Question(
        key=name,
        asks=asks,
        allowed=field.range,
        explains=field.help,
        reads=lambda typed: read_one(typed, kind=kind, name=name),
        default=None if usual is None else f"{usual:g}",
        takes_photo=True,
    )


def _ask_rest(answers: Answers, layout: FrameLayout) -> Script[None]:
    asks, allowed, explains = words.MOUNT
    yield from _ask(
        answers,
        Question(key="mount", asks=asks, allowed=allowed, explains=explains, reads=read_mount, may_skip=True),
    )
    asks, explains = words.CLAMP
    yield from _ask(
        answers,
        Question(
            key="clamp",
            asks=asks,
            allowed=f"{asked_field('frame', 'bar_clamp').range}, or -",
            explains=explains,
            reads=lambda typed: read_one(typed, kind="frame", name="bar_clamp"),
            default=f"{layout.bar_clamp_mm:g}",
            may_skip=True,
        ),
    )
    if layout.can_tell_rear and answers["lengths"].value == "table":
        asks, allowed, explains = words.TRAVEL
        yield from _ask(
            answers,
            Question(key="travel", asks=asks, allowed=allowed, explains=explains, reads=read_travel, may_skip=True),
        )
