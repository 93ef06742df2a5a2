"""Computes: whether a line passes, which way it takes, how it is joined, how long it must be.

The names below are the front door, one row each, by where they live. Each is loaded when it is first asked for, so that
reading a catalog does not wait for the libraries of the search.
"""

from typing import TYPE_CHECKING, Any

from planner.front_door import open_door

if TYPE_CHECKING:
    from planner.documents.drawings.cut_drawing import draw_cut_list as draw_cut_list
    from planner.documents.drawings.hole_drawing import draw_hole as draw_hole
    from planner.documents.drawings.length_bar import draw_length_bar as draw_length_bar
    from planner.documents.drawings.motion_drawing import draw_motion as draw_motion
    from planner.documents.drawings.route_drawing import draw_route as draw_route
    from planner.documents.drawings.svg import Picture as Picture
    from planner.documents.drawings.visit_drawing import draw_visit as draw_visit
    from planner.documents.drawings.visit_lines import visit_letters as visit_letters
    from planner.documents.drawings.visit_strips import draw_visit_strips as draw_visit_strips
    from planner.documents.paper.cut_label import CutLabel as CutLabel
    from planner.documents.paper.cut_label import cut_label_pdf as cut_label_pdf
    from planner.documents.paper.cut_label import label_of_plan as label_of_plan
    from planner.documents.paper.cut_label import least_label_mm as least_label_mm
    from planner.documents.paper.cut_sheet import cut_sheet_pdf as cut_sheet_pdf
    from planner.documents.paper.gauge_sheet import gauge_sheet_pdf as gauge_sheet_pdf
    from planner.documents.paper.job_card import job_card_pdf as job_card_pdf
    from planner.documents.paper.measuring_sheet import measuring_sheet_pdf as measuring_sheet_pdf
    from planner.documents.paper.quote_sheet import quote_pdf as quote_pdf
    from planner.documents.paper.visit_card import visit_card_pdf as visit_card_pdf
    from planner.documents.records.cut_record import cuts_as_record as cuts_as_record
    from planner.documents.records.cuts_csv import cuts_csv as cuts_csv
    from planner.documents.records.parts_csv import BYTE_ORDER_MARK as BYTE_ORDER_MARK
    from planner.documents.records.parts_csv import parts_csv as parts_csv
    from planner.documents.records.plan_record import plan_as_record as plan_as_record
    from planner.documents.records.table_rows import COLUMNS as COLUMNS
    from planner.documents.records.table_rows import NUMBER_COLUMNS as NUMBER_COLUMNS
    from planner.documents.records.table_rows import csv_line as csv_line
    from planner.documents.records.table_rows import table_rows as table_rows
    from planner.documents.records.visit_record import visit_as_record as visit_as_record
    from planner.documents.words.advice import advice_in_order as advice_in_order
    from planner.documents.words.advice import advice_to_heed as advice_to_heed
    from planner.documents.words.advice import other_ways as other_ways
    from planner.documents.words.advice import proposals as proposals
    from planner.documents.words.advice import ruled_out_in_short as ruled_out_in_short
    from planner.documents.words.advice import ways_out_told as ways_out_told
    from planner.documents.words.caution_letters import caution_letters as caution_letters
    from planner.documents.words.caution_letters import told_first as told_first
    from planner.documents.words.cut_wording import cut_size as cut_size
    from planner.documents.words.cut_wording import cuts_sentence as cuts_sentence
    from planner.documents.words.cut_wording import uncut_sentence as uncut_sentence
    from planner.documents.words.cut_wording import why_not_cut_sentence as why_not_cut_sentence
    from planner.documents.words.measure_words import measures_told as measures_told
    from planner.documents.words.need_words import bench_rows as bench_rows
    from planner.documents.words.need_words import need_words as need_words
    from planner.documents.words.outcome_words import fit_class_words as fit_class_words
    from planner.documents.words.outcome_words import marked_outcome as marked_outcome
    from planner.documents.words.outcome_words import outcome_word as outcome_word
    from planner.documents.words.part_words import PART_TITLES as PART_TITLES
    from planner.documents.words.part_words import steps_by_part as steps_by_part
    from planner.documents.words.printable import in_markdown as in_markdown
    from planner.documents.words.printable import printable_line as printable_line
    from planner.documents.words.printable import printable_text as printable_text
    from planner.documents.words.quote_sentences import assumption_sentences as assumption_sentences
    from planner.documents.words.quote_sentences import quote_line_words as quote_line_words
    from planner.documents.words.quote_sentences import rounding_sentence as rounding_sentence
    from planner.documents.words.quote_sentences import spread_sentence as spread_sentence
    from planner.documents.words.quote_sentences import time_sentences as time_sentences
    from planner.documents.words.quote_wording import tax_words as tax_words
    from planner.documents.words.rescue_words import rescue_sheet as rescue_sheet
    from planner.documents.words.rescue_words import step_with_rescue as step_with_rescue
    from planner.documents.words.sizes_in_words import NOT_MEASURED as NOT_MEASURED
    from planner.documents.words.sizes_in_words import basis_words as basis_words
    from planner.documents.words.sizes_in_words import finely as finely
    from planner.documents.words.sizes_in_words import leg_size as leg_size
    from planner.documents.words.sizes_in_words import millimetres as millimetres
    from planner.documents.words.sizes_in_words import tape_millimetres as tape_millimetres
    from planner.documents.words.sizes_in_words import unknown_legs_words as unknown_legs_words
    from planner.documents.words.visit_steps import ToldStep as ToldStep
    from planner.documents.words.visit_steps import told_steps as told_steps
    from planner.documents.words.visit_words import forced_sentences as forced_sentences
    from planner.documents.words.visit_words import left_undone as left_undone
    from planner.documents.words.visit_words import needs_of_visit as needs_of_visit
    from planner.documents.words.visit_words import order_told as order_told
    from planner.documents.words.visit_words import price_words as price_words
    from planner.documents.words.visit_words import time_words as time_words
    from planner.documents.words.visit_words import unproven_sentence as unproven_sentence
    from planner.documents.words.visit_words import visit_verdict as visit_verdict
    from planner.documents.words.visit_words import visit_ways_out_told as visit_ways_out_told
    from planner.documents.words.way_out_words import way_out_sentences as way_out_sentences
    from planner.documents.words.wording import asked_length_words as asked_length_words
    from planner.documents.words.wording import deciding_check as deciding_check
    from planner.documents.words.wording import end_name as end_name
    from planner.documents.words.wording import fed_words as fed_words
    from planner.documents.words.wording import joint_at_least as joint_at_least
    from planner.documents.words.wording import joint_title as joint_title
    from planner.documents.words.wording import may_part_inside as may_part_inside
    from planner.documents.words.wording import pull_sentence as pull_sentence
    from planner.documents.words.wording import remark_words as remark_words
    from planner.documents.words.wording import sentence_for as sentence_for
    from planner.documents.words.wording import verdict_sentence as verdict_sentence
    from planner.documents.words.wording import way_words as way_words
    from planner.fit.compatibility import check_compatibility as check_compatibility
    from planner.fit.hole_fit import check_things_in_room as check_things_in_room
    from planner.fit.joint_size import check_method_suits_lines as check_method_suits_lines
    from planner.fit.joint_size import find_joint_size as find_joint_size
    from planner.fit.port_fit import find_hole_seen as find_hole_seen
    from planner.fit.room_sought import find_largest_item as find_largest_item
    from planner.fit.room_sought import find_smallest_opening as find_smallest_opening
    from planner.fit.wall_fit import check_rigid_through_wall as check_rigid_through_wall
    from planner.fit.wall_fit import find_longest_through_port as find_longest_through_port
    from planner.fit.wedging import Wedge as Wedge
    from planner.fit.wedging import check_of_wedge as check_of_wedge
    from planner.fit.wedging import wedge_in as wedge_in
    from planner.geometry.frame_table.cockpit import find_caliper_outlet as find_caliper_outlet
    from planner.geometry.frame_table.cockpit import find_outlet as find_outlet
    from planner.geometry.frame_table.frame_table import find_tubes as find_tubes
    from planner.geometry.frame_table.frame_table import rear_axle_mm as rear_axle_mm
    from planner.geometry.frame_table.frame_table import steering_axis as steering_axis
    from planner.geometry.frame_table.frame_table import swing_of_travel_deg as swing_of_travel_deg
    from planner.geometry.frame_table.told_ports import NotPlaced as NotPlaced
    from planner.geometry.frame_table.told_ports import find_port_poses as find_port_poses
    from planner.plan.cut_length import added_words as added_words
    from planner.plan.cut_length import length_words as length_words
    from planner.plan.cut_length import order_words as order_words
    from planner.plan.cut_length import words_beside_cut as words_beside_cut
    from planner.plan.cut_list import find_cut_list as find_cut_list
    from planner.plan.cut_stock import CutList as CutList
    from planner.plan.cut_stock import OpenedLength as OpenedLength
    from planner.plan.cut_stock import Piece as Piece
    from planner.plan.cut_stock import StockLength as StockLength
    from planner.plan.job_cuts import JobCut as JobCut
    from planner.plan.job_cuts import JobCuts as JobCuts
    from planner.plan.job_cuts import PlannedLine as PlannedLine
    from planner.plan.job_cuts import find_job_cuts as find_job_cuts
    from planner.plan.job_time import whole_minutes as whole_minutes
    from planner.plan.names import Names as Names
    from planner.plan.names import find_frame_names as find_frame_names
    from planner.plan.plan_builder import plan_job as plan_job
    from planner.plan.quote import Alternative as Alternative
    from planner.plan.quote import Quote as Quote
    from planner.plan.quote import make_quote as make_quote
    from planner.plan.quote_spread import find_total_range as find_total_range
    from planner.plan.routing_plan import RoutingPlan as RoutingPlan
    from planner.plan.routing_plan import Step as Step
    from planner.plan.slips.frame_slips import find_slips as find_slips
    from planner.table.answers import CaseAnswers as CaseAnswers
    from planner.table.answers import Decider as Decider
    from planner.table.answers import PartsAnswer as PartsAnswer
    from planner.table.answers import WayAnswer as WayAnswer
    from planner.table.decide import book_of as book_of
    from planner.table.decide import decide_case as decide_case
    from planner.table.decisions import join_answers as join_answers
    from planner.table.looks import look_of as look_of
    from planner.table.tally import Tally as Tally
    from planner.table.tally import count_case as count_case
    from planner.whole_bike.find_changes import old_ways_not_told as old_ways_not_told
    from planner.whole_bike.visit_builder import plan_visit as plan_visit
    from planner.whole_bike.visit_cuts import lines_to_cut as lines_to_cut
    from planner.whole_bike.visit_plan import LinePlan as LinePlan
    from planner.whole_bike.visit_plan import VisitPlan as VisitPlan
    from planner.whole_bike.visit_quote import make_visit_quote as make_visit_quote
    from planner.whole_bike.visit_work_order import line_blocks as line_blocks
else:

    def __getattr__(name: str) -> Any:
        """A name of the front door, loaded from where it lives."""
        return open_door(__name__, name)
