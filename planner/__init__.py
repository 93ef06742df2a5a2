"""Computes: whether a line passes, which way it takes, how it is joined, how long it must be.

The names below are the front door. Each is loaded when it is first asked for, so that reading a catalog does not wait
for the libraries of the search.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from planner.documents.drawings.cut_drawing import draw_cut_list
    from planner.documents.drawings.hole_drawing import draw_hole
    from planner.documents.drawings.length_bar import draw_length_bar
    from planner.documents.drawings.motion_drawing import draw_motion
    from planner.documents.drawings.route_drawing import draw_route
    from planner.documents.drawings.svg import Picture
    from planner.documents.paper.cut_label import CutLabel, cut_label_pdf, label_of_plan, least_label_mm
    from planner.documents.paper.cut_sheet import cut_sheet_pdf
    from planner.documents.paper.job_card import card_pictures, job_card_pdf
    from planner.documents.paper.quote_sheet import quote_pdf
    from planner.documents.records.cut_record import cuts_as_record
    from planner.documents.records.parts_csv import parts_csv
    from planner.documents.records.plan_record import plan_as_record
    from planner.documents.words.caution_letters import caution_letters
    from planner.documents.words.cut_wording import cut_size, cuts_sentence, uncut_sentence, why_not_cut_sentence
    from planner.documents.words.need_words import need_words
    from planner.documents.words.outcome_words import fit_class_words, marked_outcome, outcome_word
    from planner.documents.words.printable import in_markdown, in_xml, printable_line, printable_text
    from planner.documents.words.quote_sentences import (
        assumption_sentences,
        quote_line_words,
        rounding_sentence,
        spread_sentence,
        time_sentences,
    )
    from planner.documents.words.quote_wording import alternative_words, tax_words
    from planner.documents.words.sizes_in_words import millimetres
    from planner.documents.words.wording import (
        deciding_check,
        end_name,
        pull_sentence,
        remark_words,
        sentence_for,
        verdict_sentence,
    )
    from planner.fit.compatibility import CompatibilityResult, check_compatibility
    from planner.fit.hole_fit import check_things_in_room
    from planner.fit.wall_fit import check_rigid_through_wall, find_longest_through_port
    from planner.plan.cut_length import cut_words, order_words
    from planner.plan.cut_list import find_cut_list
    from planner.plan.cut_stock import CutList, OpenedLength, Piece, StockLength
    from planner.plan.job_cuts import JobCut, JobCuts, find_job_cuts
    from planner.plan.job_time import whole_minutes
    from planner.plan.plan_builder import plan_job
    from planner.plan.quote import Alternative, Quote, make_quote
    from planner.plan.quote_lines import QuoteLine
    from planner.plan.quote_spread import TotalRange, find_total_range
    from planner.plan.routing_plan import RoutingPlan

_HOMES = {
    "Alternative": "planner.plan.quote",
    "CompatibilityResult": "planner.fit.compatibility",
    "CutLabel": "planner.documents.paper.cut_label",
    "CutList": "planner.plan.cut_stock",
    "JobCut": "planner.plan.job_cuts",
    "JobCuts": "planner.plan.job_cuts",
    "OpenedLength": "planner.plan.cut_stock",
    "Picture": "planner.documents.drawings.svg",
    "Piece": "planner.plan.cut_stock",
    "Quote": "planner.plan.quote",
    "QuoteLine": "planner.plan.quote_lines",
    "RoutingPlan": "planner.plan.routing_plan",
    "StockLength": "planner.plan.cut_stock",
    "TotalRange": "planner.plan.quote_spread",
    "alternative_words": "planner.documents.words.quote_wording",
    "assumption_sentences": "planner.documents.words.quote_sentences",
    "card_pictures": "planner.documents.paper.job_card",
    "caution_letters": "planner.documents.words.caution_letters",
    "check_compatibility": "planner.fit.compatibility",
    "check_rigid_through_wall": "planner.fit.wall_fit",
    "check_things_in_room": "planner.fit.hole_fit",
    "cut_label_pdf": "planner.documents.paper.cut_label",
    "cut_sheet_pdf": "planner.documents.paper.cut_sheet",
    "cut_size": "planner.documents.words.cut_wording",
    "cut_words": "planner.plan.cut_length",
    "cuts_as_record": "planner.documents.records.cut_record",
    "cuts_sentence": "planner.documents.words.cut_wording",
    "deciding_check": "planner.documents.words.wording",
    "draw_cut_list": "planner.documents.drawings.cut_drawing",
    "draw_hole": "planner.documents.drawings.hole_drawing",
    "draw_length_bar": "planner.documents.drawings.length_bar",
    "draw_motion": "planner.documents.drawings.motion_drawing",
    "draw_route": "planner.documents.drawings.route_drawing",
    "end_name": "planner.documents.words.wording",
    "find_cut_list": "planner.plan.cut_list",
    "find_job_cuts": "planner.plan.job_cuts",
    "find_longest_through_port": "planner.fit.wall_fit",
    "find_total_range": "planner.plan.quote_spread",
    "fit_class_words": "planner.documents.words.outcome_words",
    "in_markdown": "planner.documents.words.printable",
    "in_xml": "planner.documents.words.printable",
    "job_card_pdf": "planner.documents.paper.job_card",
    "label_of_plan": "planner.documents.paper.cut_label",
    "least_label_mm": "planner.documents.paper.cut_label",
    "make_quote": "planner.plan.quote",
    "marked_outcome": "planner.documents.words.outcome_words",
    "millimetres": "planner.documents.words.sizes_in_words",
    "need_words": "planner.documents.words.need_words",
    "order_words": "planner.plan.cut_length",
    "outcome_word": "planner.documents.words.outcome_words",
    "parts_csv": "planner.documents.records.parts_csv",
    "plan_as_record": "planner.documents.records.plan_record",
    "plan_job": "planner.plan.plan_builder",
    "printable_line": "planner.documents.words.printable",
    "printable_text": "planner.documents.words.printable",
    "pull_sentence": "planner.documents.words.wording",
    "quote_line_words": "planner.documents.words.quote_sentences",
    "quote_pdf": "planner.documents.paper.quote_sheet",
    "remark_words": "planner.documents.words.wording",
    "rounding_sentence": "planner.documents.words.quote_sentences",
    "sentence_for": "planner.documents.words.wording",
    "spread_sentence": "planner.documents.words.quote_sentences",
    "tax_words": "planner.documents.words.quote_wording",
    "time_sentences": "planner.documents.words.quote_sentences",
    "uncut_sentence": "planner.documents.words.cut_wording",
    "verdict_sentence": "planner.documents.words.wording",
    "whole_minutes": "planner.plan.job_time",
    "why_not_cut_sentence": "planner.documents.words.cut_wording",
}

__all__ = [
    "Alternative",
    "CompatibilityResult",
    "CutLabel",
    "CutList",
    "JobCut",
    "JobCuts",
    "OpenedLength",
    "Picture",
    "Piece",
    "Quote",
    "QuoteLine",
    "RoutingPlan",
    "StockLength",
    "TotalRange",
    "alternative_words",
    "assumption_sentences",
    "card_pictures",
    "caution_letters",
    "check_compatibility",
    "check_rigid_through_wall",
    "check_things_in_room",
    "cut_label_pdf",
    "cut_sheet_pdf",
    "cut_size",
    "cut_words",
    "cuts_as_record",
    "cuts_sentence",
    "deciding_check",
    "draw_cut_list",
    "draw_hole",
    "draw_length_bar",
    "draw_motion",
    "draw_route",
    "end_name",
    "find_cut_list",
    "find_job_cuts",
    "find_longest_through_port",
    "find_total_range",
    "fit_class_words",
    "in_markdown",
    "in_xml",
    "job_card_pdf",
    "label_of_plan",
    "least_label_mm",
    "make_quote",
    "marked_outcome",
    "millimetres",
    "need_words",
    "order_words",
    "outcome_word",
    "parts_csv",
    "plan_as_record",
    "plan_job",
    "printable_line",
    "printable_text",
    "pull_sentence",
    "quote_line_words",
    "quote_pdf",
    "remark_words",
    "rounding_sentence",
    "sentence_for",
    "spread_sentence",
    "tax_words",
    "time_sentences",
    "uncut_sentence",
    "verdict_sentence",
    "whole_minutes",
    "why_not_cut_sentence",
]


def __getattr__(name: str) -> Any:
    """Load a name of the front door from the module it lives in."""
    if name not in _HOMES:
        raise AttributeError(f"planner has no {name}; its front door has {', '.join(__all__)}")
    return getattr(import_module(_HOMES[name]), name)
