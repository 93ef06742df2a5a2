# ruff: noqa: E501  (a message is easier to compare in one piece)
"""Every planted slip is told with its line, its thing and field, what was given and what is allowed."""

import pytest

from tests.catalog.samples import example_with, problems_in

NECK = "frame larkmoor-140 port neck-left"
KINDS = "hydraulic_hose, brake_housing, shift_housing, inner_cable, electric_wire"
ID_RULE = "a short name of letters, digits, point, plus, hyphen and underscore, without spaces"

FAULTS = {
    "inches for a hose": (
        "outer: 5.0,",
        "outer: 0.2,",
        "f.yaml:61: line hose-50 > outer: 0.2 mm was given, 0.8 to 20 mm is allowed; if that was inches, it is 5.1 mm",
    ),
    "inches for a wall": (
        "wall: 1.6",
        "wall: 0.063",
        f"f.yaml:21: {NECK} > wall: 0.063 mm was given, 0.3 to 60 mm is allowed; if that was inches, it is 1.6 mm",
    ),
    "an inch mark": (
        "length: 22,",
        'length: 0.87",',
        "f.yaml:66: fitting crimp-82 > length: '0.87\"' was given, a number is allowed, 1 to 300 mm; "
        "if that was inches, it is 22.1 mm",
    ),
    "a number in quotes": (
        "outer: 5.0,",
        'outer: "5.0",',
        "f.yaml:61: line hose-50 > outer: the text '5.0' was given, a number is allowed, 0.8 to 20 mm, without quotes",
    ),
    "a decimal comma in braces": (
        "outer: 5.0,",
        "outer: 5,0,",
        "f.yaml:61: line hose-50 > outer: 5,0 was given, write a point, not a comma: 5.0",
    ),
    "a decimal comma on its own line": (
        "tilt: 50 ",
        "tilt: 7,5 ",
        f"f.yaml:20: {NECK} > tilt: 7,5 was given, a number is allowed, 0 to less than 90 degrees; "
        "write a point, not a comma: 7.5",
    ),
    "a unit behind the number": (
        "setup: 6}",
        "setup: 6 min}",
        "f.yaml:89: method stud-26 > setup: '6 min' was given, a number is allowed, 0 to 600 minutes; "
        "write 6 without unit",
    ),
    "not a number": ("wall: 1.6", "wall: .nan", f"f.yaml:21: {NECK} > wall: not a number (NaN) was given, 0.3 to 60 mm is allowed"),
    "an endless number": (
        "wall: 1.6",
        "wall: -.inf",
        f"f.yaml:21: {NECK} > wall: an endless number was given, 0.3 to 60 mm is allowed",
    ),
    "a negative force": (
        "holds: 60",
        "holds: -1",
        "f.yaml:89: method stud-26 > holds: -1 N was given, 0 to 5000 N is allowed",
    ),
    "a tilt along the wall": (
        "tilt: 50 ",
        "tilt: 90 ",
        f"f.yaml:20: {NECK} > tilt: 90 degrees was given, 0 to less than 90 degrees is allowed",
    ),
    "a missing field": (
        "        wall: 1.6\n        insert",
        "        insert",
        f"f.yaml:14: {NECK} > wall: nothing was given, 0.3 to 60 mm must be given",
    ),
    "a missing choice": (
        "kind: hydraulic_hose, outer: 5.0",
        "outer: 5.0",
        f"f.yaml:61: line hose-50 > kind: nothing was given, one of {KINDS} must be given",
    ),
    "a wrong choice": (
        "kind: hydraulic_hose, outer: 5.0",
        "kind: hydraulic, outer: 5.0",
        f"f.yaml:61: line hose-50 > kind: 'hydraulic' was given, one of {KINDS} is allowed; did you mean hydraulic_hose?",
    ),
    "a wrong shape": (
        "shape: slot, length: 19.0",
        "shape: slott, length: 19.0",
        f"f.yaml:19: {NECK} > opening shape: 'slott' was given, one of round, slot, oval, box, outline, gauge is allowed; "
        "did you mean slot?",
    ),
    "no shape": (
        "shape: slot, length: 19.0",
        "length: 19.0",
        f"f.yaml:19: {NECK} > opening shape: nothing was given, one of round, slot, oval, box, outline, gauge must be given",
    ),
    "an unknown section": ("\nparts:", "\nprats:\n  []\nparts:", "f.yaml:93: file > prats: prats is not known here, did you mean parts?"),
    "an unknown line": (
        "line: hose-50\n    supplied_length: 1800",
        "line: hose-05\n    supplied_length: 1800",
        "f.yaml:78: brake orrin-2 > line: there is no line hose-05, did you mean hose-55 or hose-50?",
    ),
    "an unknown fitting": (
        "lever: {fitting: nut-m8, clamp: 22.2}",
        "lever: {fitting: nut-m9, clamp: 22.2}",
        "f.yaml:76: brake orrin-2 > lever fitting: there is no fitting nut-m9, did you mean nut-m8?",
    ),
    "an unknown small part": (
        "uses: [olive-50, insert-21]",
        "uses: [olive-50, inset-21]",
        "f.yaml:68: fitting nut-m8 > uses no. 2: there is no part inset-21, did you mean insert-21?",
    ),
    "an unknown zone of a port": (
        "joins: [outside, down_tube]",
        "joins: [outside, downtube]",
        f"f.yaml:16: {NECK} > joins no. 2: there is no zone downtube, did you mean down_tube?",
    ),
    "a port that joins a zone to itself": (
        "joins: [outside, stay_left]",
        "joins: [stay_left, stay_left]",
        "f.yaml:33: frame larkmoor-140 port stay-front > joins: stay_left was given twice, two different zones",
        "f.yaml:52: frame larkmoor-140 run bb-loop > between no. 2: port stay-front joins stay_left and stay_left, "
        "not outside, a port that joins the zone of the run",
    ),
    "an unknown zone of a run": (
        "zone: down_tube, between",
        "zone: down, between",
        "f.yaml:51: frame larkmoor-140 run down-run > zone: there is no zone down, did you mean down_tube?",
    ),
    "a run to nowhere": (
        "between: [neck-left, belly-left]",
        "between: [neck-left, belly]",
        "f.yaml:51: frame larkmoor-140 run down-run > between no. 2: there is no port or anchor belly, "
        "did you mean belly-left?",
    ),
    "a run through the wrong zone": (
        "between: [neck-left, belly-left]",
        "between: [neck-left, stay-rear]",
        "f.yaml:51: frame larkmoor-140 run down-run > between no. 2: port stay-rear joins stay_left and outside, "
        "not down_tube, a port that joins the zone of the run",
    ),
    "an anchor inside a tube": (
        "zone: outside, between: [bar",
        "zone: down_tube, between: [bar",
        "f.yaml:50: frame larkmoor-140 run cockpit > between no. 1: anchor bar-right lies outside, the run in down_tube, "
        "zone: outside, or a port of down_tube",
    ),
    "a run from a port to itself": (
        "between: [belly-left, stay-front]",
        "between: [belly-left, belly-left]",
        "f.yaml:52: frame larkmoor-140 run bb-loop > between: belly-left was given twice, two different ports or anchors",
    ),
    "outside as a zone": (
        "- {id: down_tube, path",
        "- {id: outside, path: [[0, 0, 0], [1, 0, 0]]}\n      - {id: down_tube, path",
        "f.yaml:11: frame larkmoor-140 zone outside > id: outside was given, that zone exists on every frame: leave it out",
    ),
    "a moving port that is not there": (
        "moves: [stay-front",
        "moves: [stay-frnt",
        "f.yaml:56: frame larkmoor-140 > rear moves no. 1: there is no port or anchor stay-frnt, "
        "did you mean stay-front or stay-rear?",
    ),
    "an insert wider than its port": (
        "length: 10.2, width: 5.4",
        "length: 10.2, width: 7.4",
        f"f.yaml:22: {NECK} > insert opening width: the hole in the insert is 7.4 mm, "
        "at most the width of the port it sits in, 7 mm, is allowed",
    ),
    "a guide that turns without radius": (
        "guide: {bore: 6.2, bend_radius: 400, turn: 12}",
        "guide: {bore: 6.2, turn: 12}",
        "f.yaml:53: frame larkmoor-140 run stay-run > guide bend_radius: nothing was given for a turn of 12 degrees, "
        "a bend radius, or turn: 0 for a straight guide",
    ),
    "a bore as wide as the line": (
        "bore: 2.1, bend_radius: 35",
        "bore: 5.0, bend_radius: 35",
        "f.yaml:61: line hose-50 > bore: 5 mm was given, less than outer, 5 mm, is allowed",
    ),
    "an inner cable as thick as the housing's bore": (
        "bore: 1.6, bend_radius: 45",
        "bore: 1.6, cable: 1.6, bend_radius: 45",
        "f.yaml:63: line gear-40 > cable: 1.6 mm was given, less than bore, 1.6 mm, is allowed",
    ),
    "rotor limits the wrong way round": (
        "rotor_native: 180",
        "rotor_min: 210",
        "f.yaml:58: frame larkmoor-140 > brakes rear rotor_max: 203 mm was given, at least rotor_min, 210 mm, is allowed",
    ),
    "a collar thinner than its stud": (
        "stud: 2.6",
        "stud: 4.7",
        "f.yaml:89: method stud-26 > collar: 4.6 mm was given, at least the stud, 4.7 mm, is allowed",
    ),
    "an id given twice": (
        "id: hose-55",
        "id: hose-50",
        "f.yaml:62: line hose-50 > id: line hose-50 is already given at f.yaml:61, an id of its own for each",
    ),
    "a port and an anchor with one id": (
        "{id: bar-left, at",
        "{id: belly-left, at",
        "f.yaml:47: frame larkmoor-140 anchor belly-left > id: belly-left is already given at f.yaml:23, "
        "an id of its own for each of ports and anchors",
    ),
    "a field given twice": (
        "        tilt: 50 ",
        "        tilt: 40\n        tilt: 50 ",
        f"f.yaml:21: {NECK} > tilt: tilt is given twice, first on line 20, keep one of the two",
    ),
    "a price as a number": (
        'price: "1.20"',
        "price: 1.20",
        'f.yaml:94: part olive-50 > price: the number 1.2 was given, money is decimal text in quotes such as "1.20"',
    ),
    "a price with a comma": (
        'price: "1.20"',
        'price: "1,20"',
        "f.yaml:94: part olive-50 > price: '1,20' was given, decimal text in quotes in the shop's currency, "
        'such as "1.20"; write a point, not a comma: 1.20',
    ),
    "an id with a space": (
        "id: gear-40",
        "id: gear 40",
        f"f.yaml:63: line gear 40 > id: 'gear 40' was given, {ID_RULE}",
    ),
    "an id that is a number": (
        "id: gear-40",
        "id: 40",
        'f.yaml:63: line 40 > id: 40 was given, text is allowed; put it in quotes: "40"',
    ),
    "a direction without length": (
        "heading: [-0.48, -0.643, -0.60]",
        "heading: [0, 0, 0]",
        f"f.yaml:18: {NECK} > heading: a direction of length zero was given, at least one of x, y, z must differ from 0",
    ),
    "a place with two numbers": (
        "at: [416, 24, 520]",
        "at: [416, 24]",
        f"f.yaml:17: {NECK} > at: only 2 in the list, [x, y, z] from the bottom-bracket centre: x forward, "
        "y to the rider's left, z up",
    ),
    "a place with four numbers": (
        "at: [416, 24, 520]",
        "at: [416, 24, 520, 1]",
        f"f.yaml:17: {NECK} > at: 4 values were given, at most 3 are allowed: [x, y, z] from the bottom-bracket centre: "
        "x forward, y to the rider's left, z up",
    ),
    "a place with a word": (
        "at: [416, 24, 520]",
        "at: [416, left, 520]",
        f"f.yaml:17: {NECK} > at no. 2: 'left' was given, a number is allowed, -5000 to 5000 mm",
    ),
    "yes for true": (
        "removable: true",
        "removable: yes",
        f"f.yaml:22: {NECK} > insert removable: 'yes' was given, true or false is allowed",
    ),
    "an empty name": (
        "name: Larkmoor 140 trail frame (invented)",
        "name: ''",
        "f.yaml:8: frame larkmoor-140 > name: '' was given, words are allowed",
    ),
    "another format": ("format: 1", "format: 2", "f.yaml:4: file > format: 2 was given, format: 1 is the one known here"),
    "no format": ("format: 1\n", "", "f.yaml:5: file: format is missing, format: 1 is the one known here"),
    "a section that is no list": (
        "parts:\n",
        "steps: 5\nparts:\n",
        "f.yaml:93: file > steps: 5 was given, a list of entries is allowed",
    ),
    "an entry that is no mapping": (
        "parts:\n",
        "parts:\n  - olive\n",
        "f.yaml:94: part no. 1: 'olive' was given, a mapping of fields is allowed, such as {id: ...}",
    ),
    "a forgotten colon": (
        "wall: 1.6\n        insert: {opening",
        "wall: 1.6\n        insert: {removable true, opening",
        f"f.yaml:22: {NECK} > insert: 'removable true' stands alone between commas, "
        "a field is word: value; put a text with commas in quotes",
    ),
    "an anchor of YAML": (
        "outer: 5.0,",
        "outer: &d 5.0,",
        "f.yaml:61: line hose-50 > outer: the anchor &d, write the value out wherever it is meant",
    ),
    "a tag of YAML": (
        "outer: 5.0,",
        "outer: !size 5.0,",
        "f.yaml:61: line hose-50 > outer: the tag !size, plain values without tags",
        "f.yaml:61: line hose-50 > outer: the text '5.0' was given, a number is allowed, 0.8 to 20 mm, without quotes",
    ),
}  # fmt: skip


@pytest.mark.parametrize("slip", FAULTS.values(), ids=FAULTS.keys())
def test_planted_slip_is_told_in_full(slip: tuple[str, ...]) -> None:
    before, after, *messages = slip
    assert [str(problem) for problem in problems_in(example_with(before, after))] == messages


def test_everything_wrong_is_told_at_once_in_the_order_of_the_file() -> None:
    text = (
        example_with("outer: 5.0,", "outer: 0.2,").replace("wall: 1.6", "walls: 1.6").replace("rod: 2.0", "rod: .nan")
    )
    problems = problems_in(text)
    assert [problem.line for problem in problems] == [14, 21, 23, 30, 61, 91]
    assert len({problem.thing for problem in problems}) == 4


def test_a_broken_port_does_not_hide_a_run_to_nowhere() -> None:
    text = example_with("wall: 1.6", "walls: 1.6").replace(
        "between: [neck-left, belly-left]", "between: [neck-left, bely]"
    )
    assert any("there is no port or anchor bely" in str(problem) for problem in problems_in(text))


def test_a_broken_brake_does_not_hide_its_unknown_line() -> None:
    text = example_with("line: hose-50\n    supplied_length: 1800", "line: hose-5\n    supplied_length: long")
    assert [problem.field for problem in problems_in(text)] == ["line", "supplied_length"]


def test_a_broken_line_still_counts_as_there_for_the_brakes_that_name_it() -> None:
    assert [problem.field for problem in problems_in(example_with("outer: 5.0,", "outer: 0.2,"))] == ["outer"]
