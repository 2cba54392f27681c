"""The final spec: drafted from the decisions, changed, checked, accepted, signed."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import datetime
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused, StateRefused
from fitshop.selectors import audit_of, settings_in_force
from fitshop.services.audit import audit_record
from sessions.flow import SpecState, can_move, refusal
from sessions.models import Acceptance, FinalSpec, SpecClub, SpecFinding, Visit
from sessions.models.specs import READ_BACK
from sessions.policy import FITTING_POLICY, FittingAction
from sessions.rules.facts import limits_from
from sessions.rules.findings import Finding, is_still_accepted
from sessions.rules.spec import rule_set_name, spec_findings, weights_from
from sessions.selectors.evidence import last_bag_entries, visit_evidence
from sessions.selectors.rule_book import rule_settings_version
from sessions.selectors.spec_facts import leaving, other_clubs, spec_clubs, spec_facts
from sessions.selectors.spec_sheet import sheet_as_it_stands
from sessions.selectors.specs import acceptances_of, accepted_of, as_finding
from sessions.services.spec_drafts import clubs_from_decisions, foretell, settle_source
from sessions.services.summaries import summaries_withdraw

# What a person may set on a club. Stamped and as received are facts: they are not typed here.
CHANGEABLE = (
    "name", "role", "target_loft_deg", "target_lie_deg", "target_length_mm", "length_method",
    "target_swing_weight_points", "target_mass_g", "shaft", "shaft_is_pulled", "tip_trim_mm",
    "grip", "grip_extra_wraps", "grip_lower_extra_wraps", "grip_logo", "ferrule", "stamping",
    "notes",
)  # fmt: skip

OPEN_STATES = (SpecState.DRAFT, SpecState.CHECKED)


class SpecHasErrors(StateRefused):
    """It can't be signed. `findings` are those that stop it or were not accepted."""

    def __init__(self, findings: Sequence[Finding]) -> None:
        stops = sum(1 for finding in findings if finding.stops)
        looks = len(findings) - stops
        said = [
            f"{stops} {'thing stops' if stops == 1 else 'things stop'} the order" if stops else "",
            f"{looks} {'wants' if looks == 1 else 'want'} a look" if looks else "",
        ]
        super().__init__(
            f"Not signed: {' and '.join(text for text in said if text)}. Each stands with its club."
        )
        self.findings = tuple(findings)


class DraftIsOpen(StateRefused):
    """There is one that nobody has signed yet: it is not withdrawn unasked."""

    def __init__(self, spec: FinalSpec) -> None:
        super().__init__(
            f"Version {spec.version} is drafted already and not signed: it stands below. "
            "To withdraw it for a new one, say so under Draft again from the decisions."
        )
        self.spec = spec


class SpecMoved(StateRefused):
    """Somebody else changed it meanwhile. What was typed is not stored."""


@transaction.atomic
def spec_draft(
    *, visit: Visit, by: Actor, at: datetime, instead_of: int | None = None
) -> FinalSpec:
    """Draft a new version from the decisions. An open draft is withdrawn for it only where its
    version was named: `instead_of`.

    What was typed into the version before stays for clubs that were not decided anew.
    Raises Refused, StateRefused, DraftIsOpen. Writes FinalSpec, SpecClub, AuditEntry.
    """
    room = Visit.objects.select_for_update(of=("self",)).get(pk=visit.pk)
    FITTING_POLICY.require(by, FittingAction.SPEC_DRAFT, location_id=room.location_id)
    if not room.decisions.filter(is_current=True).exists():
        raise StateRefused("Nothing is decided yet. Decide each slot first; the spec follows.")

    before = room.specs.first()
    if before is not None and before.state in OPEN_STATES and before.version != instead_of:
        raise DraftIsOpen(before)
    settings = settings_in_force()
    spec = FinalSpec(
        visit=room,
        version=(room.specs.aggregate(last=Max("version"))["last"] or 0) + 1,
        settings_version=settings.version,
        drafted_at=at,
        drafted_by=by.name,
    )
    clubs = clubs_from_decisions(room, spec, visit_evidence(room, settings).line, before)
    spec.other_clubs_count = other_clubs(room, clubs)
    spec.leaving_words = ", ".join(leaving(room))[:120]

    if before is not None and before.state in OPEN_STATES:
        _moved(before, SpecState.WITHDRAWN)
    spec.save(force_insert=True)
    SpecClub.objects.bulk_create(clubs)
    audit_record(
        action="fitting.spec.drafted",
        subject=spec,
        after={"visit": room.pk, "version": spec.version, "slots": [c.slot for c in clubs]},
        by=by,
        at=at,
    )
    return spec


@transaction.atomic
def spec_club_change(
    *, spec_club: SpecClub, values: Mapping[str, Any], edition: int, by: Actor, at: datetime
) -> SpecClub:
    """Change a club of an open spec; a checked one is a draft again, carries are foretold anew.

    `values`: some of CHANGEABLE in the columns' units, and `as_typed` by field. `edition` is the
    one the person saw. Raises Refused, SpecMoved, FieldsRefused. Writes SpecClub, FinalSpec,
    AuditEntry.
    """
    spec = _open_spec(spec_club.spec_id, by, FittingAction.SPEC_DRAFT)
    _refuse_stale(spec, edition)
    row = spec_clubs(spec).get(pk=spec_club.pk)
    changed = {name: values[name] for name in CHANGEABLE if name in values}
    before = {name: _plain(getattr(row, name)) for name in changed}

    for name, value in changed.items():
        setattr(row, name, value)
    row.as_typed = {**row.as_typed, **dict(values.get("as_typed") or {})}
    settle_source(row)
    foretell(row, visit_evidence(spec.visit).line, last_bag_entries(spec.visit))
    try:
        row.full_clean(exclude=["spec", "id"])
    except ValidationError as error:
        raise FieldsRefused(
            {name: " ".join(texts) for name, texts in error.message_dict.items()}
        ) from error
    after = {name: _plain(getattr(row, name)) for name in changed}
    if after == before:
        return row

    row.save()
    if spec.state == SpecState.CHECKED:
        _moved(spec, SpecState.DRAFT)
    spec.edition += 1
    spec.save(update_fields=["edition"])
    audit_record(
        action="fitting.spec.changed",
        subject=spec,
        before={"slot": row.slot, **before},
        after={"slot": row.slot, **after},
        by=by,
        at=at,
    )
    return row


@transaction.atomic
def spec_check(*, spec: FinalSpec, by: Actor, at: datetime) -> tuple[Finding, ...]:
    """Run every rule and keep what they found, under the rule set and settings of now.

    Raises Refused. Writes SpecFinding, FinalSpec, AuditEntry.
    """
    row = _open_spec(spec.pk, by, FittingAction.SPEC_DRAFT)
    findings = _judged(row, at)
    audit_record(
        action="fitting.spec.checked",
        subject=row,
        after={
            "edition": row.edition,
            "rule_set": row.rule_set,
            "settings": row.settings_version,
            "found": [finding.id for finding in findings],
        },
        by=by,
        at=at,
    )
    return findings


@transaction.atomic
def warning_accept(
    *,
    spec: FinalSpec,
    rule: str,
    fields: Sequence[str],
    reason: str,
    by: Actor,
    at: datetime,
) -> Acceptance:
    """Accept one finding that wants a look, and say why; it holds while its numbers and clubs do.

    Raises Refused, StateRefused, FieldsRefused. Writes Acceptance, AuditEntry.
    """
    row = _open_spec(spec.pk, by, FittingAction.SPEC_SIGN)
    why = " ".join(reason.split())
    found = next(
        (f for f in row.findings.filter(rule=rule) if list(f.fields) == list(fields)), None
    )
    if found is None:
        raise StateRefused("This was not found in the last check. Check the spec again.")
    finding = as_finding(found)
    if finding.stops:
        raise StateRefused("What stops the order can't be accepted: change the club instead.")
    if not why:
        raise FieldsRefused({"reason": "Say why it is right: choose a reason or type one."})
    if len(why) > 300:
        raise FieldsRefused({"reason": "At most 300 characters, please."})

    accepted = Acceptance.objects.create(
        spec=row,
        rule=finding.id,
        fields=list(finding.fields),
        numbers=[list(pair) for pair in finding.numbers],
        things=[list(pair) for pair in finding.things],
        sentence=finding.sentence,
        reason=why,
        accepted_at=at,
        accepted_by=by.name,
    )
    audit_record(
        action="fitting.warning.accepted",
        subject=row,
        after={
            "rule": rule,
            "fields": list(fields),
            "numbers": dict(finding.numbers),
            "reason": why,
            "said": finding.sentence,
        },
        by=by,
        at=at,
    )
    return accepted


@transaction.atomic
def spec_sign(
    *, spec: FinalSpec, edition: int, read_back: Collection[str], by: Actor, at: datetime
) -> FinalSpec:
    """Sign it: judged once more, refused while anything stops or is not accepted.

    `read_back`: what the player heard and confirmed, all of READ_BACK. What the player's sheet
    says is frozen here. The visit's signed spec before it is superseded, and its summary stopped
    where it has not left. Raises Refused, StateRefused (signed by somebody else meanwhile),
    SpecMoved, SpecHasErrors, FieldsRefused (not read back). Writes FinalSpec, SpecFinding,
    OutgoingMessage, AuditEntry.
    """
    row = _open_spec(spec.pk, by, FittingAction.SPEC_SIGN)
    _refuse_stale(row, edition)
    findings = _judged(row, at)
    accepted = acceptances_of(row)
    open_ones = [
        finding
        for finding in findings
        if finding.stops
        or (finding.wants_a_look and not any(is_still_accepted(a, finding) for a in accepted))
    ]
    if open_ones:
        raise SpecHasErrors(open_ones)
    _refuse_unheard(read_back)

    replaced = row.visit.specs.filter(state=SpecState.SIGNED).first()
    if replaced is not None:
        _moved(replaced, SpecState.SUPERSEDED)
        summaries_withdraw(row.visit, by=by, at=at)
    row.signed_at, row.signed_by = at, by.name
    row.read_back, row.read_back_at, row.read_back_by = list(READ_BACK), at, by.name
    row.sheet = sheet_as_it_stands(row)
    _moved(row, SpecState.SIGNED)
    audit_record(
        action="fitting.spec.signed",
        subject=row,
        after={
            "version": row.version,
            "edition": row.edition,
            "rule_set": row.rule_set,
            "settings": row.settings_version,
            "replaces": replaced.version if replaced else None,
            "read_back": row.read_back,
            "accepted": [
                {"rule": one.finding.id, "by": one.by, "reason": one.reason}
                for one in accepted_of(row)
            ],
        },
        by=by,
        at=at,
    )
    return row


def _open_spec(spec_id: Any, by: Actor, action: str) -> FinalSpec:
    """The spec under lock, if it may still be worked on."""
    row = (
        FinalSpec.objects.select_for_update(of=("self",))
        .select_related("visit__player")
        .get(pk=spec_id)
    )
    FITTING_POLICY.require(by, action, location_id=row.visit.location_id)
    if row.state == SpecState.SIGNED:
        raise StateRefused(
            f"{row.signed_by} signed version {row.version} "
            f"{_when(row.signed_at)}. Draft a new version to change it."
        )
    FITTING_POLICY.require(by, action, location_id=row.visit.location_id, state=row.state)
    return row


def _refuse_stale(spec: FinalSpec, edition: int) -> None:
    if spec.edition == edition:
        return
    last = (
        audit_of("fitting.finalspec", str(spec.pk))
        .filter(action="fitting.spec.changed")
        .order_by("-at")
        .first()
    )
    who = f"{last.actor_name} changed it {_when(last.at)}" if last else "Somebody changed it"
    raise SpecMoved(
        f"{who}, after you opened it. Nothing of yours is stored yet: "
        "look at both, and save again what should stand."
    )


def _refuse_unheard(read_back: Collection[str]) -> None:
    """What can't be undone at the bench is confirmed by the player first."""
    missing = [what for what in READ_BACK if what not in read_back]
    if missing:
        raise FieldsRefused(
            {what: f"Read the {what} to the player, then tick it." for what in missing},
            code="spec.not_read_back",
        )


def _judged(spec: FinalSpec, at: datetime) -> tuple[Finding, ...]:
    """Run the rules, replace what was found before, and move a draft to checked."""
    settings = settings_in_force()
    facts = spec_facts(spec, visit_evidence(spec.visit, settings))
    findings = spec_findings(facts, limits_from(settings.values), weights_from(settings.values))
    spec.findings.all().delete()
    SpecFinding.objects.bulk_create(
        SpecFinding(
            spec=spec,
            rule=finding.id,
            severity=finding.severity.value,
            fields=list(finding.fields),
            sentence=finding.sentence,
            hint=finding.hint,
            source=finding.source,
            numbers=[list(pair) for pair in finding.numbers],
            things=[list(pair) for pair in finding.things],
            found_at=at,
        )
        for finding in findings
    )
    spec.other_clubs_count = facts.other_clubs
    spec.leaving_words = ", ".join(facts.leaving)[:120]
    spec.rule_set = rule_set_name(rule_settings_version(settings))
    spec.settings_version = settings.version
    spec.checked_at = at
    if spec.state == SpecState.DRAFT:
        _moved(spec, SpecState.CHECKED)
    else:
        spec.save()
    return findings


def _moved(spec: FinalSpec, to: SpecState) -> None:
    now = SpecState(spec.state)
    if not can_move(now, to):
        raise StateRefused(refusal(now, to))
    spec.state = to
    spec.save()


def _when(moment: datetime | None) -> str:
    if moment is None:
        return "just now"
    local = timezone.localtime(moment)
    return f"on {local.day} {local:%b} at {local:%H:%M}"


def _plain(value: Any) -> Any:
    """A value for the audit: rows by their name, figures as they are."""
    if hasattr(value, "pk"):
        return str(value)
    return str(value.normalize()) if hasattr(value, "normalize") else value
