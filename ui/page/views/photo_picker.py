"""A photograph on which points are set, by pointer or keyboard; it stays on this machine."""

from collections.abc import Callable, Mapping

import streamlit as st

from ui.page import session

_CSS = """
.photo { position: relative; outline-offset: 2px; touch-action: pan-y pinch-zoom; cursor: crosshair; }
.photo:focus-visible { outline: 3px solid light-dark(#0a5a9c, #7cc0f5); }
.photo img { display: block; width: 100%; height: auto; border-radius: 6px; }
.photo svg { position: absolute; inset: 0; width: 100%; height: 100%; }
.photo circle, .photo .cross { fill: none; stroke: #ffffff; vector-effect: non-scaling-stroke; stroke-width: 4; }
.photo circle + circle, .photo .cross + .cross { stroke: #b3007a; stroke-width: 2; }
.photo text { font: bold 1px sans-serif; fill: #ffffff; stroke: #1d2126; stroke-width: 0.2px; paint-order: stroke; }
.said { font-size: 0.9rem; margin: 0.3rem 0 0; color: light-dark(#1d2126, #eef1f3); }
"""

_HTML = '<div class="photo" tabindex="0" role="application"></div><p class="said" aria-live="polite"></p>'

_JS = """
const LEAST_TYPE_PX = 12;
export default function ({ data, parentElement, setTriggerValue }) {
  const photo = parentElement.querySelector('.photo'), said = parentElement.querySelector('.said');
  photo.setAttribute('aria-label', data.label);
  photo.wanted = data;
  photo.tell = setTriggerValue;
  if (!photo.cross) photo.cross = { x: data.w / 2, y: data.h / 2 };
  if (photo.url !== data.url) {
    photo.url = data.url;
    photo.innerHTML = '<img alt=""><svg preserveAspectRatio="none"></svg>';
    photo.querySelector('img').src = data.url;
    photo.cross = { x: data.w / 2, y: data.h / 2 };
  }
  const svg = photo.querySelector('svg');
  svg.setAttribute('viewBox', `0 0 ${data.w} ${data.h}`);
  const draw = () => {
    const now = photo.wanted, r = now.w / 110, c = photo.cross, ways = [];
    const make = (name, facts, words) => {
      const one = document.createElementNS('http://www.w3.org/2000/svg', name);
      for (const [key, value] of Object.entries(facts)) one.setAttribute(key, value);
      if (words) one.textContent = words;
      return one;
    };
    const seen = svg.getBoundingClientRect().width || now.w;
    const type = Math.max(r * 2.2, LEAST_TYPE_PX * now.w / seen);
    const letters = `font-size:${type}px;stroke-width:${type / 6}px`;
    for (const mark of now.marks)
      ways.push(make('circle', { cx: mark.x, cy: mark.y, r }), make('circle', { cx: mark.x, cy: mark.y, r }),
        make('text', { x: mark.x + r * 1.4, y: mark.y - r, style: letters }, mark.n));
    if (photo.usesKeys) {
      const d = `M${c.x - 2 * r} ${c.y}h${4 * r}M${c.x} ${c.y - 2 * r}v${4 * r}`;
      ways.push(make('path', { d, class: 'cross' }), make('path', { d, class: 'cross' }));
    }
    svg.replaceChildren(...ways);
  };
  draw();
  photo.sized?.disconnect();
  photo.sized = new ResizeObserver(draw);
  photo.sized.observe(photo);
  const set = (x, y) => {
    const now = photo.wanted;
    const at = { x: Math.min(Math.max(x, 0), now.w), y: Math.min(Math.max(y, 0), now.h) };
    photo.cross = at;
    said.textContent = `${now.next}: ${at.x.toFixed(1)}, ${at.y.toFixed(1)}`;
    photo.tell('point', { ...at, name: now.name });
  };
  photo.onclick = (event) => {
    const seen = svg.getBoundingClientRect(), now = photo.wanted;
    set((event.clientX - seen.x) / seen.width * now.w, (event.clientY - seen.y) / seen.height * now.h);
  };
  photo.onkeydown = (event) => {
    const step = event.shiftKey ? 10 : 1;
    const ways = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] };
    if (ways[event.key]) {
      photo.usesKeys = true;
      photo.cross = { x: photo.cross.x + ways[event.key][0], y: photo.cross.y + ways[event.key][1] };
      said.textContent = `${photo.cross.x.toFixed(0)}, ${photo.cross.y.toFixed(0)}`;
      draw();
    } else if (event.key === 'Enter') { set(photo.cross.x, photo.cross.y); }
    else if (event.key === 'Backspace') { photo.tell('back', Date.now()); }
    else return;
    event.preventDefault();
  };
}
"""


@st.cache_resource(show_spinner=False)
def _component() -> Callable[..., object]:
    return st.components.v2.component("lineplan_photo", html=_HTML, css=_CSS, js=_JS)


def pick_points(
    picture: Mapping[str, object],
    *,
    marks: Mapping[str, tuple[float, float]],
    name: str,
    next_words: str,
    key: str,
    when_set: Callable[[str, float, float], None],
    when_back: Callable[[], None],
) -> None:
    """The photograph with its points; tells each one that is set, and each wish to take the last back.

    picture : its address as data, its width and height in pixels
    marks : where the points are that were set, in their order
    name, next_words : the point that is set next, and what to call it
    """

    def tell() -> None:
        told = session.component_value(key, "point")
        if told:
            when_set(str(told["name"]), float(told["x"]), float(told["y"]))

    def back() -> None:
        if session.component_value(key, "back"):
            when_back()

    label = (
        f"Photograph. Next point: {next_words}. Click it, or move the cross with the arrow keys (Shift: ten pixels), "
        "Enter sets the point, Backspace takes the last one back."
    )
    shown = [{"n": str(n), "x": x, "y": y} for n, (x, y) in enumerate(marks.values(), start=1)]
    _component()(
        data={**picture, "marks": shown, "name": name, "next": next_words, "label": label},
        key=key,
        on_point_change=tell,
        on_back_change=back,
    )
