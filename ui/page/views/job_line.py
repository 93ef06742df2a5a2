"""Show in one line which job is planned."""

from collections.abc import Mapping
from typing import Any

from catalog import Catalog
from ui.page.views.markup import safe, show_markup
from ui.shared.job_fields import choice_of, choice_words


def show_job_line(fields: Mapping[str, Any] | None, catalog: Catalog) -> None:
    """Title, frame, what comes off and goes on, from where to where.

    fields : in the words of a job file; None while something is still to be chosen
    """
    title, told = "Plan a job", "Something is still to be chosen."
    if fields is not None:
        off, on = (choice_words(choice_of(fields[name]), catalog) for name in ("old", "new"))
        frame = catalog.frames[fields["frame"]]
        start, end = (frame.anchors[fields[name]].label or fields[name] for name in ("from", "to"))
        title, told = fields["title"], f"{frame.name} · off: {off} · on: {on} · {start} → {end}"
    show_markup(f'<div class="lp-job"><h1>{safe(title)}</h1><p>{safe(told)}</p></div>')
