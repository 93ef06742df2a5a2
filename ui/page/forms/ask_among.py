"""Ask for one of many: a short list is offered whole, of a long one what has the words that are looked for.

A browser is slow with a list of a thousand, and reads it anew at every click: a long list is searched on the server.
"""

from collections.abc import Hashable, Mapping
from typing import Any

from ui.page import session

MOST_OFFERED = 100
"""So many are offered at once; with more there is a field to search in."""

_SEARCH = "choice_place_find_"
"""How keys of what is looked for begin: it belongs to the window, and to no job."""


def ask_among(
    place: Any, label: str, names: Mapping[Any, str], *, key: str, placeholder: str, search: str
) -> Any | None:
    """The one that is chosen; None while none is.

    names : what each of them is called
    search : label of the field to search in, which is shown where there are many
    """
    offered = list(names) if len(names) <= MOST_OFFERED else _offer_found(place, names, key=key, search=search)
    return place.selectbox(
        label,
        offered,
        index=None,
        placeholder=placeholder,
        key=key,
        format_func=lambda one: names[_as_key(one)],
    )


def _offer_found(place: Any, names: Mapping[Any, str], *, key: str, search: str) -> list[Any]:
    """The first of those that have the words; what is chosen already is always among them."""
    typed = place.text_input(search, key=f"{_SEARCH}{key}", type="search", placeholder="part of a name or an id")
    words = (typed or "").lower().split()
    found = [one for one, name in names.items() if all(word in f"{name} {one}".lower() for word in words)]
    chosen = _as_key(session.chosen(key))
    if len(found) > MOST_OFFERED:
        place.caption(f"{len(found)} of them; the first {MOST_OFFERED} are offered. Search for part of a name.")
    elif not found:
        place.caption(f"None of the {len(names)} has these words.")
    before = [chosen] if chosen in names else []
    return [*before, *(one for one in found[:MOST_OFFERED] if one != chosen)]


def _as_key(one: Any) -> Hashable:
    """What was chosen, as it is named: out of a draft a pair comes back as a list."""
    return tuple(one) if isinstance(one, list) else one
