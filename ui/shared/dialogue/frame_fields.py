"""The answers about a frame as the entry of a catalog file, with a comment behind each value that nobody measured."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

from catalog import HoleKind, Noted, usual_frame
from planner.parts import OUTSIDE, FrameFeature, GeometryError
from ui.shared.dialogue.frame_layouts import LAYOUTS, FrameLayout
from ui.shared.dialogue.frame_questions import id_of_name
from ui.shared.dialogue.frame_words import TABLE
from ui.shared.dialogue.questions import PHOTOS, Answer, Source
from ui.shared.dialogue.said_places import HolePlace, zone_name
from ui.shared.dialogue.said_sizes import Size, opening_fields

CALIPER_ID = "caliper-rear"
_ID_STEMS = {
    HoleKind.NECK: "neck",
    HoleKind.BOSS: "boss",
    HoleKind.HEADSET: "headset-cover",
    HoleKind.WINDOW: "window",
    HoleKind.STAY: "stay",
    HoleKind.END: "end",
}


def frame_entry(answers: Mapping[str, Answer]) -> dict[str, Any]:
    """The frame, as far as it is told; what nobody knows is left out and said in a comment."""
    layout = LAYOUTS[answers["layout"].value]
    places = places_told(answers)
    ids = hole_ids(places)
    ends = _bar_ids(answers)
    entry: dict[str, Any] = {
        "id": id_of_name(answers["name"].value),
        "name": answers["name"].value,
        "zones": zones_of(answers),
        "ports": draft_ports(answers),
        "anchors": [*(_lever(end) for end in ends), _caliper(answers)],
        "runs": list(_runs(answers, places, ids, ends)),
        **_geometry(answers, layout),
        **_rest(answers, layout),
    }
    return {name: value for name, value in entry.items() if value not in ([], None)}


def draft_ports(answers: Mapping[str, Answer]) -> list[dict[str, Any]]:
    """The holes of which everything is told, while others are still to come."""
    places = places_told(answers)
    ids = hole_ids(places)
    return [
        _port(answers, hole, place, ids[hole - 1])
        for hole, place in enumerate(places, 1)
        if f"hole {hole} rubber" in answers
    ]


def zones_of(answers: Mapping[str, Answer]) -> list[dict[str, Any]]:
    """The cavities that the holes told so far lead through."""
    return [_zone(zone) for zone in _zones(places_told(answers))]


def places_told(answers: Mapping[str, Answer]) -> list[HolePlace]:
    """Where the holes are that were told so far."""
    return [answer.value for key, answer in answers.items() if key.startswith("hole ") and key.endswith(" place")]


def hole_ids(places: Sequence[HolePlace]) -> list[str]:
    """A short name for each hole, by what sort it is."""
    ids: list[str] = []
    for place in places:
        stem = _ID_STEMS[place.kind]
        if place.kind in (HoleKind.STAY, HoleKind.END):
            stem = ("chainstay" if place.zone.startswith("stay_") else place.zone.split("_")[0]) + (
                "-front" if place.joins[0] == OUTSIDE else "-exit"
            )
        taken = sum(id_ == stem or id_.startswith(f"{stem}-") for id_ in ids)
        ids.append(stem if not taken else f"{stem}-{taken + 1}")
    return ids


def unknown_words(answers: Mapping[str, Answer]) -> list[str]:
    """What is still unknown of a frame as told, what decides first."""
    called = [f"hole {hole} ({place.label})" for hole, place in enumerate(places_told(answers), 1)]
    skipped = [key for key, answer in answers.items() if answer.is_skipped]
    told = [f"the opening of {one}" for hole, one in enumerate(called, 1) if f"hole {hole} opening" in skipped]
    told += [
        f"the tilt at {one}, taken as the usual {answer.words} degrees"
        for hole, one in enumerate(called, 1)
        if (answer := answers[f"hole {hole} tilt"]).source is Source.DEFAULT and answer.value.high > answer.value.low
    ]
    if answers["lengths"].value == "later":
        told.append("every length: the line is laid in, then marked; or measure the old one")
    elif missing := sum(key.endswith("length") for key in skipped):
        told.append(f"the length of {missing} stretch{'es' if missing > 1 else ''}")
    layout, has_table = LAYOUTS[answers["layout"].value], _has_table(answers)
    if has_table and FrameFeature.SUSPENSION in layout.features and not _rear(answers):
        told.append("how the rear end moves: stretches behind it are reckoned as if it stood still")
    if has_table and any(answer.source is Source.PHOTO for answer in answers.values()):
        told.append("every length: what was read off the photograph counts as told by eye")
    mount = "the caliper mount, rotors and hub" + (": so the last stretch has no length" if has_table else "")
    words = {"mount": mount, "clamp": "the bar's clamp"}
    return told + [word for key, word in words.items() if key in skipped]


def _zones(places: Sequence[HolePlace]) -> list[str]:
    return list(dict.fromkeys(zone for place in places for zone in place.joins if zone != OUTSIDE))


def _zone(zone: str) -> dict[str, Any]:
    return {
        "id": zone,
        "bore": Noted(value=usual_frame().tubes[zone].bore, note="default; a bent wire to the far wall tells it"),
    }


def _port(answers: Mapping[str, Answer], hole: int, place: HolePlace, id_: str) -> dict[str, Any]:
    tilt: Size = answers[f"hole {hole} tilt"].value
    port: dict[str, Any] = {
        "id": id_,
        "label": place.label,
        "joins": list(place.joins),
        **opening_fields(answers[f"hole {hole} opening"].value),
        "tilt": _noted(answers[f"hole {hole} tilt"], tilt.written, _tilt_note(tilt)),
        "looks": _noted(answers[f"hole {hole} looks"], answers[f"hole {hole} looks"].value, "default"),
        "wall": _noted(answers[f"hole {hole} wall"], answers[f"hole {hole} wall"].value, "default"),
    }
    if _has_table(answers) and (on := _on(place)) is not None:
        port["on"] = on
    if answers[f"hole {hole} rubber"].value is not None:
        port["insert"] = answers[f"hole {hole} rubber"].value
    if place.kind is HoleKind.HEADSET:
        port["lies_at"] = "headset"
    return port


def _has_table(answers: Mapping[str, Answer]) -> bool:
    return "lengths" in answers and answers["lengths"].value == "table"


def _tilt_note(tilt: Size) -> str:
    if tilt.low == tilt.high:
        return "default"
    return "default: the larger end counts; it decides, measure it first"


def _noted(answer: Answer, value: Any, note: str) -> Any:
    if answer.source in PHOTOS:
        return Noted(value=value, note="from a photograph: measure it where it matters")
    return Noted(value=value, note=note) if answer.source is Source.DEFAULT else value


def _on(place: HolePlace) -> Any:
    """Its place on its tube; none on a cavity that a geometry table does not draw."""
    if any(zone in ("bb_shell", "motor_bay") for zone in place.joins):
        return None
    on, lean = place.on_fields, usual_frame().holes[place.kind].lean
    if isinstance(on, Mapping) and lean is not None and "end" not in on:
        return {**on, "lean": Noted(value=lean, note="default: of the line to straight through the wall")}
    return on


def _bar_ids(answers: Mapping[str, Answer]) -> list[str]:
    first = answers["hand"].value
    return [f"bar-{first}", f"bar-{'left' if first == 'right' else 'right'}"]


def _lever(id_: str) -> dict[str, Any]:
    side = id_.removeprefix("bar-")
    label = f"{side.capitalize()} lever"
    return {"id": id_, "label": label, "is": "lever", "side": side, "moves_with": "bar", "serves": "brake"}


def _caliper(answers: Mapping[str, Answer]) -> dict[str, Any]:
    rides = {"moves_with": "rear"} if _rear(answers) else {}
    return {
        "id": CALIPER_ID,
        "label": "Rear caliper",
        "is": "caliper",
        "side": "left",
        "end": "rear",
        **rides,
        "serves": "brake",
    }


def _runs(
    answers: Mapping[str, Answer], places: Sequence[HolePlace], ids: Sequence[str], ends: Sequence[str]
) -> Iterator[dict[str, Any]]:
    stops = [ends[0], *ids, CALIPER_ID]
    zones = [OUTSIDE, *(place.joins[1] for place in places)]
    for stretch, ((start, stop), zone) in enumerate(zip(pairwise(stops), zones, strict=True), 1):
        outside = "Loop to the caliper" if stop == CALIPER_ID else "Loop outside"
        label = f"From the {ends[0].removeprefix('bar-')} lever" if stretch == 1 else outside
        run = {
            "id": f"stretch-{stretch}",
            "label": label if zone == OUTSIDE else f"{zone_name(zone)}, inside",
            "zone": zone,
            "between": [start, stop],
        }
        guide = answers.get(f"stretch {stretch} guide")
        if guide is not None and guide.value is not None:
            run["guide"] = guide.value
        yield {**run, **_length(answers, stretch, zone)}
    other = ends[1].removeprefix("bar-")
    yield {
        "id": f"stretch-1-{other}",
        "label": f"From the {other} lever",
        "zone": OUTSIDE,
        "between": [ends[1], stops[1]],
    }


def _length(answers: Mapping[str, Answer], stretch: int, zone: str) -> dict[str, Any]:
    answer = answers.get(f"stretch {stretch} length")
    if answer is None or answer.value is None:
        return {}
    fields: dict[str, Any] = {"length": answer.value.written}
    if answer.value.tolerance is not None:
        fields["length_tolerance"] = answer.value.tolerance
    if zone == OUTSIDE and answers["reached"].value:
        fields |= {"length_by": "old_line", "reached": True}
    return fields


def _geometry(answers: Mapping[str, Answer], layout: FrameLayout) -> dict[str, Any]:
    if not _has_table(answers):
        return {}
    tables: dict[str, dict[str, Any]] = {"geometry": {"layout": str(layout.id)}, "cockpit": {"bar": str(layout.bar)}}
    for name, (_, kind) in TABLE.items():
        tables[kind][name] = _noted(answers[name], answers[name].value, "default")
    lock = Noted(value=layout.lock_deg, note="default: turn of the bar to each side")
    return {
        **tables,
        "geometry_error": _geometry_error(answers),
        "bar": {"lock": lock},
        **({"rear": rear} if (rear := _rear(answers)) else {}),
    }


def _geometry_error(answers: Mapping[str, Answer]) -> Noted:
    """How well its places are told; those of a photograph that nobody took squarely count as told by eye."""
    sources = {answer.source for answer in answers.values()}
    if Source.PHOTO in sources:
        note = "places from a photograph not taken squarely: no length is told by them"
        return Noted(value=str(GeometryError.ROUGH), note=note)
    where = "a photograph taken squarely" if Source.SQUARE_PHOTO in sources else "a table and words"
    if Source.CORRECTED_PHOTO in sources:
        where = "a photograph whose slant the wheels put right"
    note = f"default: places from {where}, adds some 40 mm to the cut"
    return Noted(value=str(GeometryError.ORDINARY), note=note)


def _rear(answers: Mapping[str, Answer]) -> dict[str, Any] | None:
    answer = answers.get("travel")
    if answer is None or answer.value is None:
        return None
    return dict(answer.value)


def _rest(answers: Mapping[str, Answer], layout: FrameLayout) -> dict[str, Any]:
    rest: dict[str, Any] = {}
    if (mount := answers["mount"].value) is not None:
        rest["brakes"] = {"rear": mount}
    if (clamp := answers["clamp"].value) is not None:
        rest["bar_clamp"] = _noted(answers["clamp"], clamp, "default")
    carbon = any(key.endswith("wall") and answer.words.casefold() == "carbon" for key, answer in answers.items())
    features = [*(str(feature) for feature in layout.features), *(["carbon"] if carbon else [])]
    return {**rest, "features": features} if features else rest
