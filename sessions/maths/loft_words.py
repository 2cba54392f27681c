"""What is said of each club of a loft plan: what it is, how far it steps, what it lacks."""

from decimal import Decimal

from sessions.maths.bending import bend_words, offset_change
from sessions.maths.loft_search import Path
from sessions.maths.loft_wish import Option, PlanWish, SlotWish, bounce_off, traits_missing
from sessions.maths.shown import show_degrees, show_percent


def why_words(option: Option, step_deg: Decimal, gap: float, asked: SlotWish) -> str:
    """Say what the club is, how far it steps, and where its sole is not what was wanted."""
    bend = bend_words(option.bend_deg)
    if option.head is not None:
        is_bent = "as stamped" if bend == "none" else f"bent {bend}"
        what = f"A new head stamped {show_degrees(option.head.stamped_loft_deg)}, {is_bent}"
    else:
        what = "Your own club stays" + ("" if bend == "none" else f", bent {bend}")
        if option.club is not None and not option.club.is_loft_measured:
            what += ", by its stamp, not measured"
    said = (
        f"{what}: {show_degrees(step_deg)} degrees more loft than the club before it, a gap of "
        f"{show_percent(gap)} % of the pitching wedge's carry."
    )
    if bend != "none":
        said += f" The bend leaves {offset_change(option.bend_deg)}."
    if option.bounce_deg is not None and asked.bounce_deg and bounce_off(asked, option.bounce_deg):
        low, high = (show_degrees(edge) for edge in asked.bounce_deg)
        said += f" Bounce {show_degrees(option.bounce_deg)} where {low} to {high} is wanted."
    missing = traits_missing(asked, option)
    if missing:
        said += f" No {' and no '.join(missing)}."
    return said


def why_wider(wish: PlanWish, path: Path) -> str:
    ends = show_degrees(path[-1].loft_deg)
    return (
        f"Wider steps than usual, up to {show_degrees(wish.step_limits_deg[1])} degrees, "
        f"so that {'one wedge' if len(path) == 1 else f'{len(path)} wedges'} "
        f"can reach a club of {ends} for sand."
    )
