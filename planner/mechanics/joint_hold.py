"""What pull a joint holds, and what that lets the hands do: push, ease or pull.

What is not known to hold is pushed only; the pull allowed is what the joint holds over the shop's margin. A measured
figure goes before the estimate of a sleeve's grip, which errs high: a sleeve thins and creeps under pull.
"""

from planner.errors import ImpossibleDimensionError
from planner.mechanics.press_fit import sleeve_hold_n
from planner.parts import Line, Method, PullWord, SleeveTube, SpokeLink
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class JointHold:
    """The pull a joint holds.

    holds_n : 0 for a joint that holds nothing; None when nobody knows [N]
    basis : "given" by the catalog, "stretched rubber" estimated, "by its nature" for a rod that only lies in the bores,
        "" when not known
    """

    holds_n: float | None
    basis: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PullAdvice:
    """An estimate of what the joint stands.

    advice : push only, ease gently, or may be pulled
    ease_up_to_n : pull at the old line not to exceed; None where it must not be pulled at all [N]
    margin_ratio : how many times the drag the joint holds; None when either is not known or there is no drag
    """

    advice: PullWord
    ease_up_to_n: float | None
    margin_ratio: float | None


def joint_hold(
    *,
    method: Method,
    old_line: Line | None,
    new_line: Line,
    sleeve_modulus_mpa: float | None = None,
    sleeve_friction_ratio: float | None = None,
) -> JointHold:
    """What pull the joint of two lines holds.

    Returns for a sleeve without a figure of its own, the weaker side's grip by `sleeve_hold_n`.

    method : how they are joined. Its own figure goes before any estimate
    old_line : the line in the frame; None for an empty frame
    sleeve_modulus_mpa : young's modulus of the sleeve's rubber at small strain; None when not known. [MPa]
    sleeve_friction_ratio : friction of the sleeve on the lines; None when not known

    Raises ImpossibleDimensionError when a sleeve's sizes are impossible.

    Common practice, no source, for the spoke; the sleeve as in `sleeve_hold_n`.
    """
    if isinstance(method, SpokeLink):
        return JointHold(holds_n=0.0, basis="by its nature")
    if method.holds_n is not None:
        return JointHold(holds_n=method.holds_n, basis="given")
    if not isinstance(method, SleeveTube) or old_line is None:
        return JointHold(holds_n=None, basis="")
    if sleeve_modulus_mpa is None or sleeve_friction_ratio is None:
        return JointHold(holds_n=None, basis="")
    thinner_mm = min(old_line.outer_diameter_mm, new_line.outer_diameter_mm)
    holds_n = sleeve_hold_n(
        sleeve_bore_diameter_mm=method.bore_diameter_mm,
        sleeve_outer_diameter_mm=method.outer_diameter_mm,
        line_outer_diameter_mm=thinner_mm,
        grip_length_mm=method.grip_length_mm,
        modulus_mpa=sleeve_modulus_mpa,
        friction_ratio=sleeve_friction_ratio,
    )
    return JointHold(holds_n=holds_n, basis="stretched rubber")


def decide_pull(
    *, holds_n: float | None, drag_n: float | None, pull_margin_ratio: float, ease_margin_ratio: float
) -> PullAdvice:
    """Whether a joint may be pulled through the frame, only eased, or must be pushed alone.

    Pushing the new line and easing the old one is always the gentler way; this only says how far the hand at the old
    line may go. The pull it allows keeps the same margin below what the joint holds, so it never lies below the drag.

    holds_n : pull the joint holds; None when nobody knows: what is not known to hold is not pulled
    drag_n : estimated pull to draw the line through; None when not estimated
    pull_margin_ratio : a joint that holds at least this many times the drag may be pulled; 1 or more
    ease_margin_ratio : and eased where it holds at least this many times the drag; from 1 up to pull_margin_ratio

    >>> decide_pull(holds_n=60, drag_n=10, pull_margin_ratio=3, ease_margin_ratio=1.5)
    PullAdvice(advice=<PullWord.MAY_PULL: 'may_pull'>, ease_up_to_n=20.0, margin_ratio=6.0)

    Raises ImpossibleDimensionError when a force is negative or the margins are not 1 <= ease <= pull.

    Common practice, no source: push the new line in and only ease the old one out.
    """
    _refuse_bad_margins(pull_margin_ratio=pull_margin_ratio, ease_margin_ratio=ease_margin_ratio)
    for name, force_n in (("holds_n", holds_n), ("drag_n", drag_n)):
        if force_n is not None and not force_n >= 0:
            raise ImpossibleDimensionError(name=name, value=force_n, unit="N", rule="must not be negative")
    if holds_n is None or drag_n is None:
        return PullAdvice(advice=PullWord.PUSH_ONLY, ease_up_to_n=None, margin_ratio=None)
    margin_ratio = holds_n / drag_n if drag_n > 0 else None
    if holds_n > 0 and holds_n >= pull_margin_ratio * drag_n:
        return PullAdvice(advice=PullWord.MAY_PULL, ease_up_to_n=holds_n / pull_margin_ratio, margin_ratio=margin_ratio)
    if holds_n > 0 and holds_n >= ease_margin_ratio * drag_n:
        return PullAdvice(
            advice=PullWord.EASE_GENTLY, ease_up_to_n=holds_n / ease_margin_ratio, margin_ratio=margin_ratio
        )
    return PullAdvice(advice=PullWord.PUSH_ONLY, ease_up_to_n=None, margin_ratio=margin_ratio)


def _refuse_bad_margins(*, pull_margin_ratio: float, ease_margin_ratio: float) -> None:
    if not ease_margin_ratio >= 1:
        raise ImpossibleDimensionError(
            name="ease_margin_ratio", value=ease_margin_ratio, unit="", rule="must be at least 1"
        )
    if not pull_margin_ratio >= ease_margin_ratio:
        raise ImpossibleDimensionError(
            name="pull_margin_ratio",
            value=pull_margin_ratio,
            unit="",
            rule=f"must be at least the easing margin, {ease_margin_ratio:g}",
        )
