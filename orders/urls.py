"""The workshop's addresses."""

from django.urls import path

from orders.views import bench, cures, gauges, orders, panels, papers, recalls

urlpatterns = [
    path("bench", bench.bench, name="bench"),
    path("recalls", recalls.recalls, name="recalls"),
    path("gauges", gauges.gauges, name="gauges"),
    path("gauges/new", gauges.gauge_new, name="gauge_new"),
    path("gauges/<uuid:gauge_id>", gauges.gauge_edit, name="gauge_edit"),
    path("resins", cures.resins, name="resins"),
    path("resins/new", cures.resin_new, name="resin_new"),
    path("resins/<uuid:resin_id>", cures.resin_edit, name="resin_edit"),
    # In capitals, since a code of capitals and digits is the smallest.
    path("T/<int:number>/<str:letter>", orders.sheet, name="sheet"),
    path("orders/new/<uuid:visit_id>", orders.order_new, name="order_new"),
    path("orders/<int:number>", orders.order, name="order"),
    path("orders/<int:number>/ticket.pdf", papers.ticket_pdf, name="ticket"),
    path("orders/<int:number>/as-built.pdf", papers.as_built_pdf, name="as_built"),
    path("orders/<int:number>/release", orders.order_release_view, name="order_release"),
    path("orders/<int:number>/revise", orders.order_revise_view, name="order_revise"),
    path("orders/<int:number>/cancel", orders.order_cancel_view, name="order_cancel"),
    path("orders/<int:number>/wait", orders.order_wait, name="order_wait"),
    path("orders/<int:number>/arrived", orders.order_arrived, name="order_arrived"),
    path("orders/<int:number>/check", orders.order_check, name="order_check"),
    path("orders/<int:number>/steps/accept", orders.order_step_accept, name="order_step_accept"),
    path("orders/<int:number>/due", orders.order_due, name="order_due"),
    path("orders/<int:number>/called", orders.order_called, name="order_called"),
    path("orders/<int:number>/ready", orders.order_ready_view, name="order_ready"),
    path("orders/<int:number>/told", orders.order_told, name="order_told"),
    path("orders/<int:number>/letter", orders.order_letter, name="order_letter"),
    path("orders/<int:number>/tell-by", orders.order_tell_by, name="order_tell_by"),
    path("orders/<int:number>/hand-over", orders.order_hand_over_view, name="order_hand_over"),
    path("orders/<int:number>/rounds", orders.order_rounds, name="order_rounds"),
    path("orders/<int:number>/clubs/<int:slot>", bench.bench_club, name="bench_club"),
    path(
        "orders/<int:number>/clubs/<int:slot>/steps/<slug:step>",
        bench.bench_step,
        name="bench_step",
    ),
    path(
        "orders/<int:number>/clubs/<int:slot>/cure/temperature",
        bench.cure_temperature,
        name="cure_temperature",
    ),
    path(
        "orders/<int:number>/clubs/<int:slot>/cure/correct",
        bench.cure_correction,
        name="cure_correction",
    ),
    path(
        "orders/<int:number>/clubs/<int:slot>/readings", bench.bench_reading, name="bench_reading"
    ),
    path(
        "orders/<int:number>/clubs/<int:slot>/readings/<uuid:reading_id>/strike-out",
        bench.reading_strike_out_view,
        name="reading_strike_out",
    ),
    path("orders/<int:number>/clubs/<int:slot>/accept", bench.concession, name="concession"),
    path(
        "orders/<int:number>/clubs/<int:slot>/accepted/<uuid:concession_id>",
        bench.concession_words,
        name="concession_words",
    ),
    path("workshop/today", panels.workshop_today_panel, name="workshop_today_panel"),
    path("workshop/search", panels.workshop_search_panel, name="workshop_search_panel"),
    path(
        "workshop/players/<uuid:player_id>",
        panels.workshop_player_panel,
        name="workshop_player_panel",
    ),
    path(
        "workshop/players/<uuid:player_id>/clubs",
        panels.workshop_clubs_panel,
        name="workshop_clubs_panel",
    ),
    path("workshop/visits/<uuid:visit_id>", panels.workshop_spec_panel, name="workshop_spec_panel"),
    path("workshop/reports", panels.workshop_reports_panel, name="workshop_reports_panel"),
]
