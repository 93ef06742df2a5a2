"""Every rule stands in one row, with a sentence for each answer; no rule is named by a bare string anywhere."""

import ast
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from planner.documents.words.check_words import sentence_for
from planner.outcomes import Outcome
from planner.plan.names import Names
from planner.rules import Rule, every_rule
from planner.rules.row import Answer
from planner.verdicts import Check

ROOT = Path(__file__).parents[2]
RULES = tuple(every_rule())
WORDS_OF_OTHER_THINGS = {
    "mount",
    "hub",
    "fluid",
    "thread",
    "fill",
    "motion",
    "pressure",
    "conversion",
    "old_route",
    "cut_end",
    "bend_radius",
    "leading_fitting",
    "supplied_length",
    "measured_length",
}
"""Words of rules that are also names of fields, needs, parts or reasons; they steer no rule where they stand."""


def _modules(*folders: str) -> Iterator[tuple[Path, ast.Module]]:
    for folder in folders:
        for path in sorted((ROOT / folder).rglob("*.py")):
            if "rules" not in path.relative_to(ROOT).parts[:2]:
                yield path, ast.parse(path.read_text(encoding="utf-8"))


def test_no_two_rules_have_the_same_word() -> None:
    assert max(Counter(rule.value for rule in RULES).values()) == 1


def test_every_rule_is_asked_somewhere() -> None:
    named = {
        node.attr
        for _, module in _modules("planner")
        for node in ast.walk(module)
        if isinstance(node, ast.Attribute) and ast.unparse(node.value) in {type(rule).__name__ for rule in RULES}
    }
    assert {rule.name for rule in RULES} - named == set()


def test_no_rule_is_named_by_a_bare_string() -> None:
    words = {rule.value for rule in RULES} - WORDS_OF_OTHER_THINGS
    bare = [
        f"{path.relative_to(ROOT)}:{node.lineno}: {node.value}"
        for path, module in _modules("planner", "catalog", "ui")
        for node in ast.walk(module)
        if isinstance(node, ast.Constant) and node.value in words
    ]
    assert bare == []


def test_no_word_of_a_rule_is_compared_with_a_string() -> None:
    """Also of those whose word means something else in other places."""
    compared = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path, module in _modules("planner", "catalog", "ui")
        for node in ast.walk(module)
        if isinstance(node, ast.Compare) and re.search(r"\.rule\b", ast.unparse(node.left))
        if any(isinstance(leaf, ast.Constant) for side in node.comparators for leaf in ast.walk(side))
    ]
    assert compared == []


@pytest.mark.parametrize("rule", RULES, ids=str)
def test_sentences_can_be_filled_and_name_no_leftover(rule: Rule) -> None:
    assert rule.row.says
    for answer in rule.row.says:
        sentence = sentence_for(_check(rule, answer), names=Names(places={"neck": "Upper port"}))
        assert not re.search(r"[{}]|None", sentence)
        assert sentence[0] == sentence[0].lower() or not sentence[0].isalpha() or "Upper port" in sentence


def _check(rule: Rule, answer: Answer) -> Check:
    outcome, note = (answer, "inner_cable") if isinstance(answer, Outcome) else answer
    return Check(
        rule=rule,
        outcome=outcome,
        port_id="neck",
        with_ids=("gear",),
        size_mm=5.2,
        available_mm=6.6,
        clearance_mm=1.4,
        worst_clearance_mm=1.2,
        note=note,
    )


def test_a_length_without_a_measurement_is_told_as_such() -> None:
    (rule,) = (rule for rule in RULES if rule.value == "port_clearance")
    check = Check(rule=rule, outcome=Outcome.NO_FIT, port_id="neck")
    assert "not measured" in sentence_for(check)
