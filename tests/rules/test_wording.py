"""Every rule and outcome that the planner can give has its sentence, in one place."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from planner.documents.words.compatibility_wording import PART_SENTENCES
from planner.documents.words.wording import SENTENCES, sentence_for
from planner.verdicts import Check, Outcome

PLANNER = Path(__file__).parents[2] / "planner"


def rules_in_code() -> set[str]:
    """Every text given as `rule=` to a check or a rejection, anywhere in fit, routing and plan."""
    rules: set[str] = set()
    for folder in ("fit", "routing", "plan"):
        for path in (PLANNER / folder).rglob("*.py"):
            calls = (
                node for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.Call)
            )
            for call in calls:
                if ast.unparse(call.func) in ("Check", "Rejection"):
                    rules |= {leaf.value for leaf in _texts(call) if re.fullmatch("[a-z_]+", leaf.value)}
    return rules


def _texts(call: ast.Call) -> Iterator[ast.Constant]:
    for keyword in call.keywords:
        if keyword.arg == "rule":
            yield from (leaf for leaf in ast.walk(keyword.value) if isinstance(leaf, ast.Constant))


def test_every_rule_in_code_has_sentences() -> None:
    assert rules_in_code() - set(SENTENCES) - set(PART_SENTENCES) == set()


@pytest.mark.parametrize("rule", sorted(SENTENCES))
def test_sentences_can_be_filled_and_name_no_leftover(rule: str) -> None:
    for outcome in SENTENCES[rule]:
        check = Check(
            rule=rule,
            outcome=outcome,
            port_id="neck",
            with_ids=("gear",),
            size_mm=5.2,
            available_mm=6.6,
            clearance_mm=1.4,
            worst_clearance_mm=1.2,
            note="inner_cable",
        )
        sentence = sentence_for(check, labels={"neck": "Upper port"})
        assert not re.search(r"[{}]|None", sentence)
        assert sentence[0] == sentence[0].lower() or not sentence[0].isalpha() or "Upper port" in sentence


def test_a_length_without_a_measurement_is_told_as_such() -> None:
    check = Check(rule="port_clearance", outcome=Outcome.NO_FIT, port_id="neck")
    assert "not measured" in sentence_for(check)
