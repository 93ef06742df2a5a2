"""The photograph of a frame that is told: upright, small, rid of what a camera writes into it; kept on this machine."""

from base64 import b64encode
from collections.abc import Mapping
from io import BytesIO
from secrets import token_hex
from typing import Any

from catalog import CatalogError
from ui.page import kept, session

MARKS, PHOTO_ID = f"{session.NEW_FRAME}photo_marks", f"{session.NEW_FRAME}photo_id"
"""Keys of the points set and of the picture they are set on, kept with the draft of the frame."""

_HELD, _FORM = "photo", "photo"
_LARGEST_PX = 1600
_MOST_PX = 60_000_000
_QUALITY = 82


class PhotoRefused(CatalogError):  # noqa: N818  (named for what happened)
    """What was sent is no photograph that can be read; the message is one sentence."""


def take_photo(content: bytes) -> None:
    """Work on this photograph from now on; points set on another one are forgotten.

    Raises PhotoRefused where it is none.
    """
    picture = read_photo(content)
    id = token_hex(5)
    session.hold(_HELD, {**picture, "id": id})
    session.put_choices({PHOTO_ID: id, MARKS: []})
    store = kept.store_or_none()
    if store is not None:
        store.drafts.save(id, picture, form=_FORM, title="A photograph of a frame")


def photo() -> Mapping[str, Any] | None:
    """The photograph that is worked on, `url`, `w` and `h`; None where there is none."""
    wanted, held = session.chosen(PHOTO_ID), session.held(_HELD)
    if not wanted:
        return None
    if held is not None and held["id"] == wanted:
        return {name: held[name] for name in ("url", "w", "h")}
    store = kept.store_or_none()
    try:
        content = {} if store is None else store.drafts.get(wanted).content
    except CatalogError:
        return None
    if not content:
        return None
    session.hold(_HELD, {**content, "id": wanted})
    return content


def marks() -> dict[str, tuple[float, float]]:
    """The points set so far, in their order."""
    return {str(name): (float(x), float(y)) for name, x, y in session.chosen(MARKS) or ()}


def set_mark(name: str, x: float, y: float) -> None:
    """A point is here, wherever it was before."""
    others = [one for one in session.chosen(MARKS) or () if one[0] != name]
    session.put_choices({MARKS: [*others, [name, round(x, 1), round(y, 1)]]})


def take_last_back() -> None:
    """The point that was set last is not set any more."""
    session.put_choices({MARKS: list(session.chosen(MARKS) or ())[:-1]})


def read_photo(content: bytes) -> dict[str, Any]:
    """A photograph as it is kept: upright, small, nothing of the camera in it.

    Raises PhotoRefused where it is none.
    """
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        with Image.open(BytesIO(content), formats=("JPEG", "PNG")) as opened:
            if opened.width * opened.height > _MOST_PX:
                raise PhotoRefused(f"The picture has more than {_MOST_PX // 1_000_000} million pixels.")
            upright = ImageOps.exif_transpose(opened).convert("RGB")
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
        raise PhotoRefused("It is not a JPEG or PNG picture that can be read.") from error
    upright.thumbnail((_LARGEST_PX, _LARGEST_PX))
    written = BytesIO()
    upright.save(written, "JPEG", quality=_QUALITY)
    url = f"data:image/jpeg;base64,{b64encode(written.getvalue()).decode()}"
    return {"url": url, "w": upright.width, "h": upright.height}
