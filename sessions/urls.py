"""The fitting room's addresses."""

from django.urls import path

from sessions.api.commands import VisitCommands
from sessions.api.state import VisitState
from sessions.views import (
    decision,
    documents,
    finish,
    first_clubs,
    parts,
    plan,
    players,
    room,
    rule_book,
    shot_files,
    spec,
    today_panels,
    verdicts,
    visits,
)

urlpatterns = [
    path("players", players.players, name="players"),
    path("players/new", players.player_new, name="player_new"),
    path("players/<uuid:player_id>", players.player, name="player"),
    path("players/<uuid:player_id>/edit", players.player_edit, name="player_edit"),
    path("players/<uuid:player_id>/merge", players.player_merge_view, name="player_merge"),
    path("players/<uuid:player_id>/consents", players.player_consent, name="player_consent"),
    path(
        "players/<uuid:player_id>/consents/<uuid:consent_id>/withdraw",
        players.player_consent_withdraw,
        name="player_consent_withdraw",
    ),
    path("visits/new", visits.visit_new, name="visit_new"),
    path("visits/<uuid:visit_id>", visits.visit, name="visit"),
    path("visits/<uuid:visit_id>/move", visits.visit_move_view, name="visit_move"),
    path("visits/<uuid:visit_id>/open", visits.visit_open_view, name="visit_open"),
    path("visits/<uuid:visit_id>/cancel", visits.visit_cancel_view, name="visit_cancel"),
    path("visits/<uuid:visit_id>/no-show", visits.visit_no_show_view, name="visit_no_show"),
    path("visits/<uuid:visit_id>/room/<slug:step>", room.room, name="room"),
    path("api/v1/visits/<uuid:visit_id>/state", VisitState.as_view(), name="visit_state"),
    path("api/v1/visits/<uuid:visit_id>/commands", VisitCommands.as_view(), name="visit_commands"),
    path("panels/fitting/today", today_panels.fitting_today_panel, name="fitting_today_panel"),
    path("panels/fitting/search", today_panels.fitting_search_panel, name="fitting_search_panel"),
    path("parts", parts.parts, name="parts"),
    path(
        "parts/<str:kind>/<uuid:item_id>/withdraw",
        parts.equipment_withdraw_view,
        name="equipment_withdraw",
    ),
    path(
        "parts/<str:kind>/<uuid:item_id>/check",
        parts.equipment_check_view,
        name="equipment_check",
    ),
    path("visits/<uuid:visit_id>/plan", plan.plan, name="plan"),
    path("visits/<uuid:visit_id>/first-clubs", first_clubs.first_clubs, name="first_clubs"),
    path("visits/<uuid:visit_id>/files", shot_files.shot_files, name="shot_files"),
    path("visits/<uuid:visit_id>/files/<uuid:file_id>", shot_files.shot_file, name="shot_file"),
    path("visits/<uuid:visit_id>/verdicts", verdicts.verdicts, name="verdicts"),
    path("visits/<uuid:visit_id>/decision", decision.decision, name="decision"),
    path("visits/<uuid:visit_id>/spec", spec.spec, name="spec"),
    path("visits/<uuid:visit_id>/spec/draft", spec.spec_draft_view, name="spec_draft"),
    path("visits/<uuid:visit_id>/spec/clubs/<uuid:club_id>", spec.spec_club, name="spec_club"),
    path(
        "visits/<uuid:visit_id>/spec/<uuid:spec_id>/check", spec.spec_check_view, name="spec_check"
    ),
    path("visits/<uuid:visit_id>/spec/<uuid:spec_id>/accept", spec.spec_accept, name="spec_accept"),
    path("visits/<uuid:visit_id>/spec/<uuid:spec_id>/sign", spec.spec_sign_view, name="spec_sign"),
    path(
        "visits/<uuid:visit_id>/spec/<uuid:spec_id>/sheet.pdf",
        documents.spec_sheet_pdf,
        name="spec_sheet",
    ),
    path("visits/<uuid:visit_id>/finish", finish.finish, name="finish"),
    path("visits/<uuid:visit_id>/close", finish.visit_close_view, name="visit_close"),
    path("visits/<uuid:visit_id>/summary", finish.summary_send, name="summary_send"),
    path("rule-book", rule_book.rule_book, name="rule_book"),
]
