"""Small SVG pieces in millimetres of paper: what goes in comes out the same, byte for byte.

Every function takes paper coordinates (x to the right, y down, in mm) and gives markup. A side view, whose z points up,
is turned by `PaperView` before anything is drawn: texts are never mirrored, and line widths do not change with the
scale.
Neither markers nor patterns are used: converters to PDF lose them.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planner.documents.words.printable import in_xml

PaperPoint = tuple[float, float]

PAPER = "#fcfbf8"
WHITE = "#ffffff"
INK = "#1d2126"
SOFT_INK = "#58616a"
FAINT = "#9aa3ab"
TUBE = "#e4e8eb"
METAL = "#cfd5da"
NEW_LINE = "#0a5a9c"
OTHER_LINE = "#7a6a2f"
WARN = "#b34700"
STOP = "#a3201a"
GOOD = "#1d6f3a"
FONT = "DejaVu Sans, Verdana, Arial, sans-serif"


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperView:
    """How a plane of the real thing lies on the paper.

    left_mm, top_mm : the real point (smallest x, largest height) that lands on `origin_mm` [mm]
    scale_ratio : millimetres of paper for one millimetre of the thing
    origin_mm : where that point lands on the paper [mm]
    """

    left_mm: float
    top_mm: float
    scale_ratio: float
    origin_mm: PaperPoint = (0.0, 0.0)

    def at(self, x_mm: float, height_mm: float) -> PaperPoint:
        """The paper point of a real point whose height is counted upwards."""
        return (
            self.origin_mm[0] + (x_mm - self.left_mm) * self.scale_ratio,
            self.origin_mm[1] + (self.top_mm - height_mm) * self.scale_ratio,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A finished drawing.

    svg : its markup
    width_mm, height_mm : of its paper, at which it is true to scale
    """

    svg: str
    width_mm: float
    height_mm: float

    def svg_on_white(self) -> str:
        """The markup for paper that is white itself: the tint that is kind to a screen would be printed."""
        return self.svg.replace(PAPER, WHITE)


def figure(value: float) -> str:
    """A number as it stands in the markup: two decimals at most, never a minus nought.

    value : any finite number [mm, degrees or no unit]
    """
    written = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def polyline(
    points: Sequence[PaperPoint],
    *,
    stroke: str = INK,
    width_mm: float = 0.3,
    dash_mm: Sequence[float] = (),
    fill: str = "none",
    is_closed: bool = False,
    has_round_ends: bool = True,
) -> str:
    """A line through points; closed and filled where wanted.

    stroke, fill : colours; "none" leaves the line or the area out
    width_mm : of the line on the paper
    dash_mm : lengths of dashes and gaps; empty for a solid line
    is_closed : whether the last point is joined to the first
    has_round_ends : round or square-cut ends

    Source: W3C, "Scalable Vector Graphics (SVG) 2", 2018, chapter 9 (paths); from memory.
    """
    way = "M" + " L".join(f"{figure(x)} {figure(y)}" for x, y in points) + (" Z" if is_closed else "")
    look = f' stroke="{stroke}" stroke-width="{figure(width_mm)}" stroke-linejoin="round"' if stroke != "none" else ""
    look += ' stroke-linecap="round"' if has_round_ends and not dash_mm and stroke != "none" else ""
    look += f' stroke-dasharray="{" ".join(figure(part) for part in dash_mm)}"' if dash_mm else ""
    return f'<path d="{way}" fill="{fill}"{look}/>'


def circle(
    centre: PaperPoint,
    *,
    diameter_mm: float,
    fill: str = "none",
    stroke: str = INK,
    width_mm: float = 0.3,
    opacity: float = 1.0,
) -> str:
    """A circle by its diameter, as a caliper measures it.

    fill, stroke : colours; "none" leaves the area or the line out
    width_mm : of the line on the paper
    opacity : of the area, 0 to 1

    Source: W3C, "Scalable Vector Graphics (SVG) 2", 2018, chapter 10 (basic shapes); from memory.
    """
    place = f'cx="{figure(centre[0])}" cy="{figure(centre[1])}" r="{figure(diameter_mm / 2)}"'
    edge = f' stroke="{stroke}" stroke-width="{figure(width_mm)}"' if stroke != "none" else ""
    return f'<circle {place} fill="{fill}"{edge}{_opacity(opacity)}/>'


def box(
    corner: PaperPoint,
    *,
    width_mm: float,
    height_mm: float,
    fill: str,
    stroke: str = "none",
    pen_mm: float = 0.25,
    corner_radius_mm: float = 0.0,
    opacity: float = 1.0,
) -> str:
    """An upright rectangle.

    corner : its upper left corner
    fill, stroke : colours; "none" leaves the area or the line out
    pen_mm : of the line
    corner_radius_mm : of all four corners
    opacity : of the area, 0 to 1

    Source: W3C, "Scalable Vector Graphics (SVG) 2", 2018, chapter 10 (basic shapes); from memory.
    """
    place = f'x="{figure(corner[0])}" y="{figure(corner[1])}" width="{figure(width_mm)}" height="{figure(height_mm)}"'
    place += f' rx="{figure(corner_radius_mm)}"' if corner_radius_mm else ""
    edge = f' stroke="{stroke}" stroke-width="{figure(pen_mm)}"' if stroke != "none" else ""
    return f'<rect {place} fill="{fill}"{edge}{_opacity(opacity)}/>'


def _opacity(ratio: float) -> str:
    return f' fill-opacity="{figure(ratio)}"' if ratio < 1 else ""


def text(
    at: PaperPoint,
    words: str,
    *,
    height_mm: float = 3.0,
    anchor: str = "start",
    fill: str = INK,
    is_bold: bool = False,
) -> str:
    """One row of words, escaped.

    at : the left, middle or right end of the base line
    anchor : "start", "middle" or "end": which part of the row `at` is
    is_bold : whether the row stands out

    Source: W3C, "Scalable Vector Graphics (SVG) 2", 2018, chapter 11 (text); from memory.
    """
    place = f'x="{figure(at[0])}" y="{figure(at[1])}" font-size="{figure(height_mm)}"'
    place += f' text-anchor="{anchor}"' if anchor != "start" else ""
    weight = ' font-weight="bold"' if is_bold else ""
    return f'<text {place} fill="{fill}"{weight}>{in_xml(words)}</text>'


def group(parts: Iterable[str], *, role: str = "", name: str = "", title: str = "") -> str:
    """Pieces that belong together.

    role, name : by which the page finds them again; left out when empty
    title : read aloud and shown when pointed at; left out when empty

    Source: W3C, "Scalable Vector Graphics (SVG) 2", 2018, chapter 5 (document structure); from memory.
    """
    marks = f' class="{in_xml(role)}"' if role else ""
    marks += f' data-name="{in_xml(name)}"' if name else ""
    told = f"<title>{in_xml(title)}</title>" if title else ""
    return f"<g{marks}>{told}{''.join(parts)}</g>"


def sheet(parts: Iterable[str], *, width_mm: float, height_mm: float, title: str) -> Picture:
    """A whole picture on its own paper: true to scale when printed, readable on a light and on a dark page.

    parts : markup, drawn in this order
    title : what the picture shows

    Source: W3C, "Scalable Vector Graphics (SVG) 2", 2018, chapter 8 (coordinate systems and units); from memory.
    """
    size = f'width="{figure(width_mm)}mm" height="{figure(height_mm)}mm"'
    window = f'viewBox="0 0 {figure(width_mm)} {figure(height_mm)}"'
    paper = box((0, 0), width_mm=width_mm, height_mm=height_mm, fill=PAPER)
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} {window} role="img" font-family="{FONT}">'
    svg = f"{head}<title>{in_xml(title)}</title>{paper}{''.join(parts)}</svg>"
    return Picture(svg=svg, width_mm=width_mm, height_mm=height_mm)
