"""The shop's many figures in groups, so that one looks at a few of them at a time."""

from collections.abc import Mapping, Sequence

import streamlit as st

from catalog import annotation_of, fields_in
from ui.page import session
from ui.page.forms.entry_form import Complaints

GROUP = "entry_part_of_shop"
MORE = "Everything else"
_GROUPS: Mapping[str, str] = {
    "Name, money and days": "name address currency labour_per_hour tax money_step quote_valid_days time_zone",
    "Holes and fits": "opening_tolerance guide_tolerance line_tolerance running_clearance stud_squeeze_min "
    "stud_squeeze_max sleeve_stretch_max match_clamp match_bore match_lift tab_base_front tab_base_rear",
    "Lengths and cuts": "trim length_step free_span slack_variation measured_length_difference coupler_cut_away "
    "sleeve_cut_away spoke_cut_away touched_cut_away undone_end cut_over hose_cut_tolerances "
    "hose_cut_tolerance_over length_tolerance_outside length_tolerance_inside outlet_move",
    "Pulling and pushing": "pull_margin ease_margin friction entry_drag mass_per_metre hand_force_loss "
    "sleeve_modulus sleeve_friction",
    "Frames as they are told": "geometry_error geometry_errors slips",
}
"""Which figures stand together, under what title."""


def groups_of(names: Sequence[str]) -> dict[str, tuple[str, ...]]:
    """Names of figures under the title of their group; one that belongs to none stands among everything else."""
    found = {title: tuple(name for name in group.split() if name in names) for title, group in _GROUPS.items()}
    grouped = {name for group in found.values() for name in group}
    return {**found, MORE: tuple(name for name in names if name not in grouped)}


def ask_group(complaints: Complaints) -> tuple[str, ...]:
    """The figures of the group that is chosen; a group in which something is wrong says so."""
    groups = groups_of(tuple(one.help.name for one in fields_in(annotation_of("shop"), {})))
    session.start_choice_among(GROUP, [*groups], next(iter(groups)))
    wrong = {path[0] for path in complaints if path}
    title = st.selectbox(
        "Part of it",
        [*groups],
        key=GROUP,
        format_func=lambda one: f"{one}{' (not right)' if wrong & set(groups[one]) else ''}",
    )
    return groups[title]
