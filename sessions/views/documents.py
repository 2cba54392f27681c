"""Documents for the player, made when they are asked for."""

from __future__ import annotations

from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from fitshop.actor import Actor
from fitshop.views.doors import staff_page
from sessions.documents import spec_sheet
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.selectors.spec_sheet import sheet_values
from sessions.selectors.specs import spec_for


@staff_page(FITTING_POLICY, FittingAction.SPEC_VIEW)
@require_safe
def spec_sheet_pdf(
    request: HttpRequest, visit_id: UUID, spec_id: UUID, *, actor: Actor
) -> HttpResponse:
    row = spec_for(actor, spec_id)
    if row is None or row.visit_id != visit_id:
        raise Http404
    answer = HttpResponse(spec_sheet.pdf(sheet_values(row)), content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="spec-sheet-version-{row.version}.pdf"'
    return answer
