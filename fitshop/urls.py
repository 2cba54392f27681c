"""Every address of the shop. The other buildings are named as text: the arrow holds."""

from django.urls import include, path

from fitshop.views import (
    health,
    kept_doors,
    messages,
    record,
    reports,
    set_up,
    staff,
    tablets,
    today,
)

urlpatterns = [
    path("livez", health.livez, name="livez"),
    path("readyz", health.readyz, name="readyz"),
    path("", today.today, name="today"),
    path("search", today.search, name="search"),
    path("kept/let-go", kept_doors.kept_form_let_go, name="kept_form_let_go"),
    path("set-up/first", set_up.first_start, name="first_start"),
    path("set-up", set_up.set_up, name="set_up"),
    path("set-up/staff", staff.staff, name="staff"),
    path("set-up/staff/<uuid:person_id>", staff.staff_person, name="staff_person"),
    path("set-up/staff/<uuid:person_id>/<slug:deed>", staff.staff_help, name="staff_help"),
    path("set-up/record", record.record, name="record"),
    path("set-up/tablets", tablets.tablets, name="tablets"),
    path(
        "set-up/tablets/<uuid:tablet_id>/withdraw",
        tablets.tablet_withdraw_view,
        name="tablet_withdraw",
    ),
    path("own/pin", tablets.own_pin, name="own_pin"),
    path("sign-in/pin", tablets.pin_sign_in, name="pin_sign_in"),
    path("messages", messages.messages, name="messages"),
    path("messages/<uuid:message_id>", messages.message, name="message"),
    path("messages/<uuid:message_id>/decide", messages.message_decide_view, name="message_decide"),
    path("reports", reports.reports, name="reports"),
    path("account/", include("fitshop.account_urls")),
    path("", include("sessions.urls")),
    path("", include("orders.urls")),
]
