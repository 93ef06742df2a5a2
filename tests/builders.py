"""Parts with safe defaults, so that a test says only what it is about."""

from decimal import Decimal
from typing import Any

from planner.parts import (
    OUTSIDE,
    Anchor,
    Frame,
    Guide,
    Job,
    Line,
    LineEnd,
    LineKind,
    NewLine,
    OldLine,
    Port,
    RoundOpening,
    Run,
    ShopLimits,
    SleeveTube,
    SpokeLink,
    ThreadedCoupler,
    Workshop,
    Zone,
)


def make_line(**changes: Any) -> Line:
    """A 5.0 mm hose."""
    fields: dict[str, Any] = {
        "id": "hose",
        "name": "Hose",
        "kind": LineKind.HYDRAULIC_HOSE,
        "outer_diameter_mm": 5.0,
        "outer_tolerance_mm": 0.05,
        "bore_diameter_mm": 2.1,
        "minimum_bend_radius_mm": 35.0,
    }
    return Line(**{**fields, **changes})


def make_port(port_id: str, *, diameter_mm: float | None = 8.0, **changes: Any) -> Port:
    """A round hole from outside into the tube."""
    opening = None if diameter_mm is None else RoundOpening(diameter_mm=diameter_mm, tolerance_mm=0.1)
    fields: dict[str, Any] = {
        "id": port_id,
        "label": port_id,
        "joins": (OUTSIDE, "tube"),
        "position_mm": (0.0, 0.0, 0.0),
        "heading": (-1.0, 0.0, 0.0),
        "opening": opening,
        "wall_thickness_mm": 1.0,
    }
    return Port(**{**fields, **changes})


def make_coupler(**changes: Any) -> ThreadedCoupler:
    """A stud of 2.6 mm with a thin collar."""
    fields: dict[str, Any] = {
        "id": "stud",
        "name": "Stud",
        "stud_diameter_mm": 2.6,
        "stud_length_mm": 9.0,
        "collar_diameter_mm": 4.6,
        "collar_length_mm": 3.0,
        "holds_n": 60.0,
        "setup_min": 6.0,
    }
    return ThreadedCoupler(**{**fields, **changes})


def make_sleeve(**changes: Any) -> SleeveTube:
    """A soft tube of 4 x 6 mm."""
    fields: dict[str, Any] = {
        "id": "sleeve",
        "name": "Sleeve",
        "bore_diameter_mm": 4.0,
        "outer_diameter_mm": 6.0,
        "grip_length_mm": 25.0,
        "holds_n": 8.0,
        "setup_min": 4.0,
    }
    return SleeveTube(**{**fields, **changes})


def make_spoke(**changes: Any) -> SpokeLink:
    """A piece of 2.0 mm spoke."""
    fields: dict[str, Any] = {
        "id": "spoke",
        "name": "Spoke",
        "rod_diameter_mm": 2.0,
        "reach_mm": 20.0,
        "holds_n": 0.0,
        "setup_min": 5.0,
    }
    return SpokeLink(**{**fields, **changes})


def make_limits(**changes: Any) -> ShopLimits:
    """Margins of an invented workshop."""
    fields: dict[str, Any] = {
        "running_clearance_mm": 0.2,
        "stud_squeeze_min_mm": 0.2,
        "stud_squeeze_max_mm": 0.8,
        "trim_allowance_mm": 10.0,
        "length_step_mm": 5.0,
        "free_span_mm": 250.0,
        "slack_variation_mm": 30.0,
        "pull_margin_ratio": 2.0,
        "ease_margin_ratio": 1.2,
        "friction_ratio": 0.3,
        "entry_drag_n": 1.5,
        "mass_g_per_m": 25.0,
        "hand_force_loss_ratio": 0.3,
        "measured_length_ratio": 0.03,
        "currency": "EUR",
        "labour_per_hour": Decimal("60.00"),
        "tax_ratio": Decimal("0.20"),
        "money_step": Decimal("0.05"),
        "quote_valid_days": 30,
        "match_clamp_mm": 0.3,
        "match_bore_mm": 0.1,
        "match_lift_mm": 0.5,
        "sleeve_modulus_mpa": 3.0,
        "sleeve_friction_ratio": 0.1,
        "hose_cut_tolerances": ((1000.0, 5.0), (2000.0, 10.0)),
        "hose_cut_tolerance_over_ratio": 0.02,
    }
    return ShopLimits(**{**fields, **changes})


def make_workshop(*methods: Any, **changes: Any) -> Workshop:
    """A workshop with the given methods and no steps."""
    fields: dict[str, Any] = {
        "limits": make_limits(),
        "methods": methods or (make_coupler(), make_sleeve(), make_spoke()),
        "small_parts": {},
        "lines": {},
        "fittings": {},
        "steps": (),
        "cautions": {},
    }
    return Workshop(**{**fields, **changes})


def make_frame(*ports: Port, runs: tuple[Run, ...], zones: tuple[Zone, ...] | None = None) -> Frame:
    """A frame with one tube, and anchors at both ends."""
    tube = Zone(id="tube", path_mm=((0.0, 0.0, 0.0), (-500.0, 0.0, 0.0)), bore_diameter_mm=40.0)
    anchors = (
        Anchor(id="start", position_mm=(300.0, 0.0, 0.0), heading=(-1.0, 0.0, 0.0)),
        Anchor(id="end", position_mm=(-900.0, 0.0, 0.0), heading=(1.0, 0.0, 0.0)),
    )
    return Frame(
        id="frame",
        name="Frame",
        zones={zone.id: zone for zone in (zones or (tube,))},
        ports={port.id: port for port in ports},
        anchors={anchor.id: anchor for anchor in anchors},
        runs={run.id: run for run in runs},
    )


def make_run(run_id: str, first: str, second: str, *, zone_id: str = "tube", guide: Guide | None = None) -> Run:
    """A run between two places."""
    return Run(id=run_id, zone_id=zone_id, between=(first, second), guide=guide)


def make_lane_frame(*lanes: tuple[float | None, float | None]) -> Frame:
    """A frame with parallel ways through one tube each; a lane is the diameters of its entry and its exit hole.

    Lane n has the ports in-n and out-n and a tube of its own, so lanes never mix.
    """
    ports: list[Port] = []
    runs: list[Run] = []
    zones: list[Zone] = []
    for n, (entry_mm, exit_mm) in enumerate(lanes):
        tube, y = f"tube-{n}", 30.0 * n
        zones.append(Zone(id=tube, path_mm=((0.0, y, 0.0), (-500.0, y, 0.0)), bore_diameter_mm=40.0))
        ports.append(make_port(f"in-{n}", diameter_mm=entry_mm, joins=(OUTSIDE, tube), position_mm=(0.0, y, 0.0)))
        ports.append(make_port(f"out-{n}", diameter_mm=exit_mm, joins=(tube, OUTSIDE), position_mm=(-500.0, y, 0.0)))
        runs.append(make_run(f"to-{n}", "start", f"in-{n}", zone_id=OUTSIDE))
        runs.append(make_run(f"through-{n}", f"in-{n}", f"out-{n}", zone_id=tube))
        runs.append(make_run(f"from-{n}", f"out-{n}", "end", zone_id=OUTSIDE))
    return make_frame(*ports, runs=tuple(runs), zones=tuple(zones))


def make_job(frame: Frame, **changes: Any) -> Job:
    """Hose against hose, both ends bare, from start to end."""
    fields: dict[str, Any] = {
        "id": "job",
        "title": "Job",
        "frame": frame,
        "from_anchor_id": "start",
        "to_anchor_id": "end",
        "old": OldLine(line=make_line(id="old"), from_end=LineEnd(), to_end=LineEnd()),
        "new": NewLine(line=make_line(id="new"), from_end=LineEnd(), to_end=LineEnd()),
    }
    return Job(**{**fields, **changes})
