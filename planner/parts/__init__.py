"""The things the planner reasons about: frozen, trusted, with their units in their names."""

from planner.parts import methods, openings
from planner.parts.adapters import Adapter, AdapterKind, AskFirst, adapter_lift_mm
from planner.parts.brakes import Brake, BrakeMount, Fluid, FrameEnd, HubKind, MountKind
from planner.parts.cases import Case, case_of_job, job_of_pair
from planner.parts.facts import Fact, Placeholder
from planner.parts.figures import Figure, FigureRead, LineFigure
from planner.parts.fluids import FLUID_FACTS, FluidClass, FluidFacts
from planner.parts.frame_tables import BarKind, Cockpit, FrameTable, Outlet
from planner.parts.frame_words import (
    AnchorPart,
    AnchorServes,
    FrameFeature,
    GeometryError,
    LengthBy,
    MovesWith,
    PortLooks,
    PortPlace,
    RiderSide,
)
from planner.parts.frames import OUTSIDE, Anchor, Bar, FourBar, Frame, Guide, Point, Port, Run, SinglePivot, Zone
from planner.parts.jobs import (
    Job,
    JobEnd,
    NewLine,
    OldLine,
    OldMeasured,
    StayingLine,
    ends_of_brake,
    is_lever_at_from,
)
from planner.parts.lines import Fitting, FittingStyle, Line, LineEnd, LineFamily, LineKind, SetBy
from planner.parts.methods import *  # noqa: F403  # the module lists its names
from planner.parts.openings import *  # noqa: F403  # the module lists its names
from planner.parts.slip_limits import SlipLimits
from planner.parts.tube_words import SideWord, ToldPort, Tube, TubeEnd, TubePlace, TubeSide
from planner.parts.visits import Visit, VisitLine
from planner.parts.workshop import (
    AtHand,
    Caution,
    Measure,
    Measured,
    Minutes,
    PlaceErrors,
    Rescue,
    RescueCase,
    RescueKind,
    ShopLimits,
    SmallPart,
    WorkPart,
    Workshop,
    WorkStep,
)
from planner.read_what import ReadWhat

__all__ = [
    "FLUID_FACTS",
    "OUTSIDE",
    "Adapter",
    "AdapterKind",
    "Anchor",
    "AnchorPart",
    "AnchorServes",
    "AskFirst",
    "AtHand",
    "Bar",
    "BarKind",
    "Brake",
    "BrakeMount",
    "Case",
    "Caution",
    "Cockpit",
    "Fact",
    "Figure",
    "FigureRead",
    "Fitting",
    "FittingStyle",
    "Fluid",
    "FluidClass",
    "FluidFacts",
    "FourBar",
    "Frame",
    "FrameEnd",
    "FrameFeature",
    "FrameTable",
    "GeometryError",
    "Guide",
    "HubKind",
    "Job",
    "JobEnd",
    "LengthBy",
    "Line",
    "LineEnd",
    "LineFamily",
    "LineFigure",
    "LineKind",
    "Measure",
    "Measured",
    "Minutes",
    "MountKind",
    "MovesWith",
    "NewLine",
    "OldLine",
    "OldMeasured",
    "Outlet",
    "PlaceErrors",
    "Placeholder",
    "Point",
    "Port",
    "PortLooks",
    "PortPlace",
    "ReadWhat",
    "Rescue",
    "RescueCase",
    "RescueKind",
    "RiderSide",
    "Run",
    "SetBy",
    "ShopLimits",
    "SideWord",
    "SinglePivot",
    "SlipLimits",
    "SmallPart",
    "StayingLine",
    "ToldPort",
    "Tube",
    "TubeEnd",
    "TubePlace",
    "TubeSide",
    "Visit",
    "VisitLine",
    "WorkPart",
    "WorkStep",
    "Workshop",
    "Zone",
    "adapter_lift_mm",
    "case_of_job",
    "ends_of_brake",
    "is_lever_at_from",
    "job_of_pair",
]
__all__ += methods.__all__
__all__ += openings.__all__
