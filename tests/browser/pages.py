"""Where every page of the demo shop stands: an address for each name, with things in it."""

from __future__ import annotations

from io import StringIO
from typing import Any


def demo_pages(begun: str) -> dict[str, str]:
    """Load the demo shop where it is not yet, and answer address by the name of the page.

    `begun` is a visit that is open, with a bag: its capture pages are those that record.
    """
    from django.core.management import call_command
    from django.urls import reverse

    from fitshop.models import OutgoingMessage, Staff
    from orders.models import BuildOrder, Gauge, Resin
    from sessions.models import FinalSpec, Player, TrialHead, Visit

    call_command("load_demo", stdout=StringIO())
    booked = Visit.objects.filter(state="booked", player__kind="junior").first()
    order, spec = BuildOrder.objects.first(), FinalSpec.objects.filter(state="signed").first()
    # The demo's own fitting: other tests may have left visits with more in them, but less done.
    fullest = None if spec is None else spec.visit
    head = TrialHead.objects.filter(withdrawn_at__isnull=True).first()
    letter = OutgoingMessage.objects.first()
    assert all((fullest, order, spec, head)), "the demo shop lacks something"
    booked = booked or Visit.objects.filter(state="booked").first()
    assert booked

    def at(name: str, *arguments: Any) -> str:
        return reverse(name, args=arguments)

    ordered = order.revisions.get(is_current=True)
    pages = {
        "today": at("today"),
        "search": at("search") + "?q=a",
        "set_up": at("set_up"),
        "staff": at("staff"),
        "staff_person": at("staff_person", Staff.objects.get(username="fitter").pk),
        "record": at("record"),
        "tablets": at("tablets"),
        "own_pin": at("own_pin"),
        "messages": at("messages"),
        "reports": at("reports"),
        "players": at("players"),
        "player_new": at("player_new"),
        "player": at("player", fullest.player_id),
        "player_edit": at("player_edit", fullest.player_id),
        "player_merge": at("player_merge", fullest.player_id) + "?q=a",
        "visit_new": at("visit_new") + f"?player={booked.player_id}",
        "visit_new, whom": at("visit_new") + "?q=a",
        "visit_new, a child walks in": at("visit_new")
        + f"?walk_in=1&player={Player.objects.filter(kind='junior').first().pk}",  # type: ignore[union-attr]
        "visit": at("visit", booked.pk),
        "visit, its record": at("visit", fullest.pk) + "?stay=1",
        "visit_move": at("visit_move", booked.pk),
        "equipment_check": at("equipment_check", "head", head.pk),
        "rule_book": at("rule_book"),
        "bench": at("bench"),
        "gauges": at("gauges"),
        "recalls": at("recalls"),
        "gauge_new": at("gauge_new"),
        "gauge_edit": at("gauge_edit", Gauge.objects.all()[0].pk),
        "resins": at("resins") + "?batch=H 117",
        "resin_new": at("resin_new"),
        "resin_edit": at("resin_edit", Resin.objects.all()[0].pk),
        "order_new": at("order_new", spec.visit_id),
        "order": at("order", order.number),
        "bench_club": at("bench_club", order.number, ordered.clubs.all()[0].slot),
        "first_clubs": at("first_clubs", fullest.pk),
    }
    for shown in ("trial", "heads", "shafts", "grips"):
        pages[f"parts, {shown}"] = at("parts") + f"?show={shown}"
    for step in ("interview", "bag", "baseline", "trials", "compare"):
        pages[f"room, {step}"] = at("room", fullest.pk, step)
        pages[f"room, {step}, open"] = at("room", begun, step)
    for name in ("plan", "decision", "spec", "finish", "shot_files"):
        pages[name] = at(name, fullest.pk)
    for name in ("first_clubs", "plan", "decision", "spec"):
        pages[f"{name}, begun"] = at(name, begun)
    if letter is not None:
        pages["message"] = at("message", letter.pk)
    pages["404"] = "/nothing/here"
    return pages
