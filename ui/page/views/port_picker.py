"""Pictures on the page, drawn large or small as the window allows; ports in them are clicked or reached by keyboard."""

from collections.abc import Callable

import streamlit as st

from planner import Picture
from ui.page import session

IN_THE_DARK = {
    "#fcfbf8": "#191e23",
    "#1d2126": "#e9edf0",
    "#58616a": "#b7c0c8",
    "#9aa3ab": "#7c8791",
    "#e4e8eb": "#343d45",
    "#cfd5da": "#4a555e",
    "#0a5a9c": "#7cc0f5",
    "#7a6a2f": "#d9c36a",
    "#b34700": "#ffb27a",
    "#a3201a": "#ff9c94",
    "#1d6f3a": "#7fdc9d",
    "#6b3a8c": "#cfa6ea",
    "#7a4a1f": "#e2ab7c",
    "#3f83bd": "#5aa6e0",
    "#ffffff": "#191e23",
}
"""What each colour of a drawing becomes on a dark screen; what is saved or printed stays as it is."""

_SWAPS = "\n".join(
    f'.picture svg [{part}="{light}"] {{ {part}: light-dark({light}, {dark}); }}'
    for light, dark in IN_THE_DARK.items()
    for part in ("fill", "stroke")
)

_CSS = """
.picture svg { display: block; width: 100%; height: auto; border-radius: 6px; }
.picture .narrow { display: none; }
.picture svg * { pointer-events: none; }
.pickable .port, .pickable .port * { pointer-events: all; cursor: pointer; }
.pickable .port:focus { outline: none; }
.pickable .port:focus > *, .pickable .port:hover > * { stroke: light-dark(#0a5a9c, #7cc0f5); stroke-width: 1.1; }
.pickable .port:is(:focus, :hover) > .drawn { stroke: none; stroke-width: 0; }
.pickable .port:focus text, .pickable .port:hover text { stroke: none; }
.picture { container-type: inline-size; }
@container (max-width: 480px) {
  .picture .wide { display: none; }
  .picture .narrow { display: block; }
}
"""

_JS = """
const WITHIN_PX = 26;
export default function ({ data, parentElement, setTriggerValue }) {
  const picture = parentElement.querySelector('.picture');
  picture.pick = (port) => setTriggerValue('port', port.dataset.name);
  picture.style.maxWidth = data.most_px ? data.most_px + 'px' : '';
  const drawn = `<div class="wide">${data.wide}</div><div class="narrow">${data.narrow}</div>`;
  if (picture.drawn === drawn) return;
  const focused = picture.querySelector('.port:focus');
  const wanted = focused && focused.dataset.name;
  picture.drawn = drawn;
  picture.innerHTML = drawn;
  picture.classList.toggle('pickable', data.is_pickable);
  if (!data.is_pickable) return;
  for (const svg of picture.querySelectorAll('svg')) {
    svg.setAttribute('role', 'group');
    svg.addEventListener('click', (event) => {
      const nearest = nearestPort(svg, event.clientX, event.clientY);
      if (nearest) picture.pick(nearest);
    });
  }
  for (const port of picture.querySelectorAll('.port')) {
    port.setAttribute('tabindex', '0');
    port.setAttribute('role', 'button');
    port.setAttribute('aria-label', port.querySelector('title').textContent);
    port.setAttribute('aria-pressed', String(port.dataset.name === data.picked));
    port.addEventListener('keydown', (event) => {
      if (event.key === 'Enter' || event.key === ' ') { event.preventDefault(); picture.pick(port); }
    });
    if (port.dataset.name === wanted && port.getClientRects().length) port.focus();
  }
}
function nearestPort(svg, x, y) {
  let nearest = null, least = WITHIN_PX;
  for (const port of svg.querySelectorAll('.port')) {
    const seen = port.getBoundingClientRect();
    const away = Math.hypot(x - seen.x - seen.width / 2, y - seen.y - seen.height / 2);
    if (away < least) { least = away; nearest = port; }
  }
  return nearest;
}
"""

_PICTURE_HTML = '<div class="picture"></div>'


@st.cache_resource(show_spinner=False)
def _component() -> Callable[..., object]:
    """The picture component, registered once for the running page."""
    return st.components.v2.component("lineplan_picture", html=_PICTURE_HTML, css=_CSS + _SWAPS, js=_JS)


def show_picture(picture: Picture, *, key: str, narrow: Picture | None = None, most_px: int | None = None) -> None:
    """A picture to look at; the narrow one stands in where there is little room."""
    _component()(data=_shown(picture, narrow) | {"most_px": most_px}, key=key)


def pick_port(
    picture: Picture,
    *,
    narrow: Picture,
    picked_port: str,
    key: str,
    when_picked: Callable[[str], None],
    most_px: int | None = None,
) -> None:
    """A picture whose ports can be picked; tells the id of each one that is."""

    def tell() -> None:
        port_id = session.component_value(key, "port")
        if port_id:
            when_picked(port_id)

    asked = {"picked": picked_port, "is_pickable": True, "most_px": most_px}
    _component()(data=_shown(picture, narrow) | asked, key=key, on_port_change=tell)


def _shown(wide: Picture, narrow: Picture | None) -> dict[str, object]:
    return {"wide": wide.svg, "narrow": (narrow or wide).svg, "is_pickable": False}
