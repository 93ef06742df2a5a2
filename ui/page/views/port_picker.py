"""Pictures on the page, drawn large or small as the window allows; ports in them are clicked or reached by keyboard."""

from collections.abc import Callable

import streamlit as st

from planner import Picture
from ui.page import session

_CSS = """
.picture svg { display: block; width: 100%; height: auto; border-radius: 6px; }
.picture .narrow { display: none; }
.picture svg * { pointer-events: none; }
.pickable .port, .pickable .port * { pointer-events: all; cursor: pointer; }
.pickable .port:focus { outline: none; }
.pickable .port:focus > *, .pickable .port:hover > * { stroke: #0a5a9c; stroke-width: 1.1; }
.pickable .port:focus text, .pickable .port:hover text { stroke: none; }
.picture { container-type: inline-size; }
@container (max-width: 560px) {
  .picture .wide { display: none; }
  .picture .narrow { display: block; }
}
"""

_JS = """
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
  for (const port of picture.querySelectorAll('.port')) {
    port.setAttribute('tabindex', '0');
    port.setAttribute('role', 'button');
    port.setAttribute('aria-label', port.querySelector('title').textContent);
    port.setAttribute('aria-pressed', String(port.dataset.name === data.picked));
    port.addEventListener('click', () => picture.pick(port));
    port.addEventListener('keydown', (event) => {
      if (event.key === 'Enter' || event.key === ' ') { event.preventDefault(); picture.pick(port); }
    });
    if (port.dataset.name === wanted && port.getClientRects().length) port.focus();
  }
}
"""

_PICTURE_HTML = '<div class="picture"></div>'


@st.cache_resource(show_spinner=False)
def _component() -> Callable[..., object]:
    """The picture component, registered once for the running page."""
    return st.components.v2.component("lineplan_picture", html=_PICTURE_HTML, css=_CSS, js=_JS)


def show_picture(picture: Picture, *, key: str, narrow: Picture | None = None, most_px: int | None = None) -> None:
    """A picture to look at; the narrow one stands in where there is little room."""
    _component()(data=_shown(picture, narrow) | {"most_px": most_px}, key=key)


def pick_port(
    picture: Picture, *, narrow: Picture, picked_port: str, key: str, when_picked: Callable[[str], None]
) -> None:
    """A picture whose ports can be picked; tells the id of each one that is."""

    def tell() -> None:
        port_id = session.component_value(key, "port")
        if port_id:
            when_picked(port_id)

    asked = {"picked": picked_port, "is_pickable": True}
    _component()(data=_shown(picture, narrow) | asked, key=key, on_port_change=tell)


def _shown(wide: Picture, narrow: Picture | None) -> dict[str, object]:
    return {"wide": wide.svg, "narrow": (narrow or wide).svg, "is_pickable": False}
