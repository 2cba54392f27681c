"""Players: found, registered, changed, merged, and what they agreed to."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from fitshop.actor import Actor
from fitshop.policy import SHOP_POLICY, ShopAction
from fitshop.refusals import FieldsRefused
from fitshop.selectors import the_shop
from fitshop.views.doors import staff_page
from sessions.forms.people import PlayerForm
from sessions.models import Consent, Player
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.consent_texts import CONSENT_TEXTS, consent_text
from sessions.selectors.clubs_owned import clubs_owned
from sessions.selectors.people import (
    consent_in_force,
    player_for,
    players_alike,
    players_for,
    players_found,
    players_page,
)
from sessions.selectors.specs import specs_for
from sessions.selectors.visits import visits_of
from sessions.services.players import (
    consent_record,
    consent_withdraw,
    player_change,
    player_merge,
    player_register,
)

SHOWN = 50
FOLDED_FIELDS = (
    "height_mm",
    "wrist_to_floor_mm",
    "finger_length_mm",
    "glove",
    "handicap",
    "birth_date",
    "home_place",
    "home_altitude_m",
)


@staff_page(FITTING_POLICY, FittingAction.PLAYERS_VIEW)
@require_safe
def players(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    """Fifty by name; `?after=` with a player's id goes on behind that one."""
    typed = request.GET.get("q", "").strip()
    after = _uuid_of(request.GET.get("after", ""))
    rows, has_more = players_page(actor, typed, after=after, at_most=SHOWN)
    more = urlencode({"q": typed, "after": rows[-1].pk}) if has_more else ""
    return render(
        request,
        "sessions/players.html",
        {"q": typed, "rows": rows, "more": more, "is_first": after is None},
    )


@staff_page(FITTING_POLICY, FittingAction.PLAYER_REGISTER)
def player_new(request: HttpRequest, *, actor: Actor) -> HttpResponse:
    form = _form(request, None)
    alike: list[Player] = []
    if request.method == "POST" and form.is_valid():
        values = form.values()
        player_id = form.cleaned_data["id"]
        if "anyway" not in request.POST:
            alike = players_alike(
                actor,
                given_name=values.given_name,
                family_name=values.family_name,
                phone=values.phone,
                email=values.email,
                but=player_id,
            )
        if not alike:
            try:
                player = player_register(
                    player_id=player_id, values=values, by=actor, at=timezone.now()
                )
            except FieldsRefused as refused:
                _beside_fields(form, refused)
            else:
                messages.success(request, f"{player} is registered.")
                return redirect("player", player_id=player.pk)
    return render(
        request,
        "sessions/player_form.html",
        {"form": form, "alike": alike, "player": None, "more_open": _is_more_open(form)},
        status=422 if form.errors or alike else 200,
    )


@staff_page(FITTING_POLICY, FittingAction.PLAYERS_VIEW)
@require_safe
def player(request: HttpRequest, player_id: UUID, *, actor: Actor) -> HttpResponse:
    row = _player_or_404(actor, player_id)
    if row.merged_into is not None:
        return redirect("player", player_id=row.merged_into_id)
    shop = the_shop()
    return render(
        request,
        "sessions/player.html",
        {
            "player": row,
            "consents": _consents(row),
            "clubs": clubs_owned(row),
            "visits": list(visits_of(actor, row)[:SHOWN]),
            "specs": specs_for(actor).filter(visit__player=row).select_related("visit"),
            "facts": _measured(row, shop.length_unit if shop else "in"),
            "may_see_record": SHOP_POLICY.is_allowed(actor, ShopAction.AUDIT_VIEW),
            "may_merge": FITTING_POLICY.is_allowed(actor, FittingAction.PLAYER_MERGE),
        },
    )


@staff_page(FITTING_POLICY, FittingAction.PLAYER_REGISTER)
def player_edit(request: HttpRequest, player_id: UUID, *, actor: Actor) -> HttpResponse:
    row = _player_or_404(actor, player_id)
    form = _form(request, row)
    if request.method == "POST" and form.is_valid():
        try:
            player_change(player=row, values=form.values(), by=actor, at=timezone.now())
        except FieldsRefused as refused:
            _beside_fields(form, refused)
        else:
            messages.success(request, "Saved.")
            return redirect("player", player_id=row.pk)
    return render(
        request,
        "sessions/player_form.html",
        {"form": form, "player": row, "more_open": True},
        status=422 if form.errors else 200,
    )


@staff_page(FITTING_POLICY, FittingAction.PLAYER_MERGE)
def player_merge_view(request: HttpRequest, player_id: UUID, *, actor: Actor) -> HttpResponse:
    """Find the other record, look at both side by side, and choose the one to keep."""
    row = _player_or_404(actor, player_id)
    if row.merged_into is not None:
        return redirect("player", player_id=row.merged_into_id)
    other = _other(request, actor, row)
    if request.method == "POST" and other is not None:
        keep, duplicate = (
            (other, row) if request.POST.get("keep") == str(other.pk) else (row, other)
        )
        kept = player_merge(keep=keep, duplicate=duplicate, by=actor, at=timezone.now())
        messages.success(request, "Both records are one now.")
        return redirect("player", player_id=kept.pk)
    typed = request.GET.get("q", "").strip()
    found = players_found(actor, typed) if typed else players_for(actor).none()
    return render(
        request,
        "sessions/player_merge.html",
        {
            "player": row,
            "other": other,
            "both": [row, other],
            "q": typed,
            "found": found.exclude(pk=row.pk)[:SHOWN] if typed else _alike(actor, row),
        },
    )


@staff_page(FITTING_POLICY, FittingAction.CONSENT_RECORD)
@require_POST
def player_consent(request: HttpRequest, player_id: UUID, *, actor: Actor) -> HttpResponse:
    row = _player_or_404(actor, player_id)
    about = request.POST.get("about", "")
    if about not in Consent.About.values:
        raise Http404
    try:
        consent_record(
            player=row,
            about=about,
            text_version=consent_text(about).version,
            given_by=request.POST.get("given_by", ""),
            by=actor,
            at=timezone.now(),
        )
    except FieldsRefused as refused:
        messages.error(request, " ".join(refused.errors.values()))
    else:
        messages.success(request, "The consent is written down.")
    return redirect("player", player_id=row.pk)


@staff_page(FITTING_POLICY, FittingAction.CONSENT_RECORD)
@require_POST
def player_consent_withdraw(
    request: HttpRequest, player_id: UUID, consent_id: UUID, *, actor: Actor
) -> HttpResponse:
    row = _player_or_404(actor, player_id)
    consent = row.consents.filter(pk=consent_id).first()
    if consent is None:
        raise Http404
    consent_withdraw(consent=consent, by=actor, at=timezone.now())
    messages.success(request, "Written down: the consent is taken back.")
    return redirect("player", player_id=row.pk)


def _uuid_of(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None


def _player_or_404(actor: Actor, player_id: UUID) -> Player:
    row = player_for(actor, player_id)
    if row is None:
        raise Http404
    return row


def _form(request: HttpRequest, row: Player | None) -> PlayerForm:
    shop = the_shop()
    length_unit = shop.length_unit if shop else "in"
    carry_unit = shop.carry_unit if shop else "yd"
    return PlayerForm(
        request.POST if request.method == "POST" else None,
        length_unit=length_unit,
        initial=PlayerForm.initial_of(row, carry_unit=carry_unit, length_unit=length_unit),
    )


def _is_more_open(form: PlayerForm) -> bool:
    """Whether something behind the fold was typed or is wrong."""
    return form.is_bound and any(form[name].errors or form[name].value() for name in FOLDED_FIELDS)


def _beside_fields(form: PlayerForm, refused: FieldsRefused) -> None:
    for name, sentence in refused.errors.items():
        form.add_error(name if name in form.fields else None, sentence)


def _measured(row: Player, length_unit: str) -> list[dict[str, str]]:
    """What was measured of the player, as it was typed, else in the shop's unit."""
    shown = PlayerForm.initial_of(row, carry_unit=row.carry_unit, length_unit=length_unit)
    names = ("height_mm", "wrist_to_floor_mm", "finger_length_mm", "glove", "handicap")
    return [
        {"label": str(PlayerForm.base_fields[name].label), "text": str(shown[name])}
        for name in names
        if shown[name] not in (None, "")
    ]


def _consents(row: Player) -> list[dict[str, Any]]:
    """Each thing to agree to: its words, the consent in force or None, and those taken back."""
    return [
        {
            "about": text.about,
            "label": Consent.About(text.about).label,
            "words": text.words,
            "in_force": consent_in_force(row, text.about),
            "last_withdrawn": row.consents.filter(
                about=text.about, withdrawn_at__isnull=False
            ).first(),
        }
        for text in CONSENT_TEXTS
    ]


def _other(request: HttpRequest, actor: Actor, row: Player) -> Player | None:
    """The second record of a merge, from the address or the form."""
    given = request.POST.get("with") or request.GET.get("with") or ""
    try:
        other = player_for(actor, UUID(given))
    except ValueError:
        return None
    return other if other and other.pk != row.pk and other.merged_into_id is None else None


def _alike(actor: Actor, row: Player) -> list[Player]:
    return players_alike(
        actor,
        given_name=row.given_name,
        family_name=row.family_name,
        phone=row.phone,
        email=row.email,
        but=row.pk,
    )
