"""Deciding a slot: what is built or kept, against what, with the numbers frozen as they stood."""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from typing import Any

from django.conf import settings as django_settings
from django.db import transaction

from fitshop.actor import Actor
from fitshop.refusals import FieldsRefused
from fitshop.selectors import settings_in_force
from fitshop.services.audit import audit_record
from sessions.maths.dispersion import Spread
from sessions.maths.unit_factors import DistanceUnit
from sessions.models import Club, Decision, Head, PlanSlot, Trial, Visit
from sessions.models.words import Outcome, SlotRole
from sessions.policy import FittingAction
from sessions.rules.against_choice import evidence_against
from sessions.rules.club_evidence import ClubEvidence
from sessions.rules.evidence import SlotEvidence, VisitEvidence
from sessions.rules.judgements import Off, Said
from sessions.rules.verdict_words import verdict_boxes
from sessions.rules.verdicts import Pair
from sessions.rules.wanted import (
    NOT_HIT,
    NOT_ITS_JOB,
    WantedAnswer,
    WantedShown,
    WantedThing,
    wanted_of,
    wishes_in,
)
from sessions.selectors.decisions import (
    answers_to,
    jobs_in,
    planned_slot,
    slots_to_decide,
    wanted_in,
)
from sessions.selectors.evidence import visit_evidence
from sessions.services.capture import visit_locked

AS_SHOWN = "As the numbers show."


@transaction.atomic
def decision_record(
    *,
    visit: Visit,
    slot: int,
    role: str,
    outcome: str,
    chosen_trial: Trial | None,
    against_trial: Trial | None,
    kept_club: Club | None,
    leaves_bag: Club | None,
    leaves_bag_words: str,
    keep_fix: Sequence[Mapping[str, str]],
    reason: str,
    to_try: Head | None = None,
    by: Actor,
    at: datetime,
) -> Decision:
    """Decide a slot; a later decision replaces it and the earlier one is kept.

    A reason is asked where the numbers speak against the choice, and where a club is to be built
    though nothing measured speaks for it. `to_try` is the set's own wedge that the player comes
    back for; nothing is built or ordered by it.

    Raises Refused, StateRefused, FieldsRefused. Writes Decision, AuditEntry.
    """
    visit = visit_locked(visit, by=by, action=FittingAction.DECIDE)
    settings = settings_in_force()
    evidence = visit_evidence(visit, settings)
    errors = _errors(visit, evidence, slot, role, outcome, chosen_trial, against_trial, kept_club,
                     leaves_bag)  # fmt: skip
    errors |= _to_try_errors(visit, outcome, to_try)
    wanted = wanted_in(visit)
    said = _said(wanted, keep_fix, errors)
    if errors:
        raise FieldsRefused(errors)

    planned = planned_slot(visit, slot)
    chosen = _club_chosen(evidence, outcome, chosen_trial, kept_club)
    against = evidence.club_of(against_trial.pk) if against_trial is not None else None
    pairs = _pairs(evidence, slot, chosen, against)
    speaks_against = _speaks_against(visit, chosen, pairs, planned, evidence.off)
    reason = _reason(outcome, reason, speaks_against, chosen, pairs, to_try)
    jobs = jobs_in(visit, slots_to_decide(visit, evidence))
    here = wishes_in(slot, wanted, jobs, evidence.off)
    answered = _answered(wanted, here, said, chosen, evidence.slot(slot), _unit(visit))

    Decision.objects.filter(visit=visit, slot=slot, is_current=True).update(is_current=False)
    decision = Decision.objects.create(
        visit=visit,
        slot=slot,
        role=role,
        outcome=outcome,
        chosen_trial=chosen_trial if outcome == Outcome.BUILD else None,
        against_trial=against_trial,
        kept_club=kept_club if outcome == Outcome.KEEP else None,
        leaves_bag=leaves_bag,
        leaves_bag_words=leaves_bag_words.strip()[:60],
        keep_fix=answered,
        reason=reason,
        against_evidence=bool(speaks_against),
        numbers=_frozen(visit, slot, evidence, pairs, planned, speaks_against)
        | ({} if to_try is None else {"to_try": str(to_try), "to_try_id": str(to_try.pk)}),
        code_version=code_version(),
        settings_version=settings.version,
        decided_at=at,
        decided_by=by.name,
    )
    audit_record(
        action="fitting.decision.recorded",
        subject=decision,
        after={"slot": slot, "outcome": outcome, "reason": reason,
               "against_evidence": decision.against_evidence},
        by=by,
        at=at,
    )  # fmt: skip
    return decision


@cache
def code_version() -> str:
    """The version of this code: as installed, else as its own pyproject.toml says."""
    try:
        return version("fitshop")
    except PackageNotFoundError:
        project = tomllib.loads((django_settings.BASE_DIR / "pyproject.toml").read_text("utf-8"))
        return str(project["project"]["version"])


def _errors(
    visit: Visit,
    evidence: VisitEvidence,
    slot: int,
    role: str,
    outcome: str,
    chosen: Trial | None,
    against: Trial | None,
    kept: Club | None,
    leaves: Club | None,
) -> dict[str, str]:
    errors: dict[str, str] = {}
    if not 1 <= slot <= 14:
        errors["slot"] = "A slot is numbered from 1."
    if role not in SlotRole.values:
        errors["role"] = "Choose full-shot club or touch club."
    if outcome not in Outcome.values:
        errors["outcome"] = "Choose what is to happen in this slot."
    if outcome == Outcome.BUILD and (chosen is None or chosen.trial_head_id is None):
        errors["outcome"] = "Say which of the clubs tried is to be built."
    if outcome == Outcome.KEEP and (kept is None or kept.player_id != visit.player_id):
        errors["outcome"] = "Say which of the player's own clubs is kept."
    for field, trial in (("outcome", chosen), ("against", against)):
        if trial is None:
            continue
        if trial.visit_id != visit.pk:
            errors[field] = "This club was tried in another visit."
        elif (club := evidence.club_of(trial.pk)) is not None and club.is_hidden:
            errors[field] = "Reveal the comparison first: this club is still behind a number."
    if chosen is not None and against is not None and chosen.pk == against.pk:
        errors["against"] = "A club can't be chosen against itself."
    if kept is not None and against is not None and against.club_id == kept.pk:
        errors["against"] = "A club can't be kept against itself."
    if leaves is not None and leaves.player_id != visit.player_id:
        errors["leaves_bag"] = "This club belongs to another player."
    return errors


def _said(
    wanted: Iterable[WantedThing], given: Sequence[Mapping[str, str]], errors: dict[str, str]
) -> dict[tuple[str, str], str]:
    """The fitter's own answers by kind and thing; an answer that isn't one is refused."""
    said = {(each.get("kind", ""), each.get("what", "")): each.get("answer", "") for each in given}
    for want in wanted:
        answer = said.get((want.kind, want.what), "")
        if answer and answer not in dict(answers_to(want)):
            errors["keep_fix"] = f"“{want.label}” takes one of the answers beside it."
    return said


def _answered(
    wanted: Iterable[WantedThing],
    here: Collection[WantedThing],
    said: Mapping[tuple[str, str], str],
    chosen: ClubEvidence | None,
    there: SlotEvidence,
    unit: DistanceUnit,
) -> list[dict[str, Any]]:
    """What was to be kept and fixed, each with its answer: the fitter's, else as the shots show.

    What the shots show stands beside it either way, with the numbers behind it. `here` are those
    that are asked in this slot.
    """
    rows = []
    for want in wanted:
        shown = _shown(want, chosen, there, unit) if want in here else NOT_ASKED
        rows.append(
            {
                "kind": want.kind,
                "what": want.what,
                "label": want.label,
                "answer": said.get((want.kind, want.what)) or shown.answer.value,
                "shown": shown.answer.value,
                "because": list(shown.because),
                "rule": shown.rule_id,
            }
        )
    return rows


NOT_ASKED = WantedShown(WantedAnswer.NOT_SHOWN, (NOT_ITS_JOB,), "DEC-A01")


def _shown(
    want: WantedThing, chosen: ClubEvidence | None, there: SlotEvidence, unit: DistanceUnit
) -> WantedShown:
    if chosen is None:
        return WantedShown(WantedAnswer.NOT_SHOWN, (NOT_HIT,))
    return wanted_of(chosen, there, want.kind, want.what, unit)


def _to_try_errors(visit: Visit, outcome: str, to_try: Head | None) -> dict[str, str]:
    if to_try is None:
        return {}
    if outcome != Outcome.COME_BACK:
        return {"outcome": "A wedge that is still to be tried is neither built nor kept."}
    if not to_try.is_matched_set or to_try.hand != visit.player.hand:
        return {"outcome": f"{to_try} is not a set's own wedge for this player's hand."}
    return {}


def _club_chosen(
    evidence: VisitEvidence, outcome: str, chosen: Trial | None, kept: Club | None
) -> ClubEvidence | None:
    if outcome == Outcome.BUILD and chosen is not None:
        return evidence.club_of(chosen.pk)
    if outcome == Outcome.KEEP and kept is not None:
        return next((club for club in evidence.clubs if club.club_id == kept.pk), None)
    return None


def _pairs(
    evidence: VisitEvidence, slot: int, chosen: ClubEvidence | None, against: ClubEvidence | None
) -> tuple[Pair, ...]:
    """The slot's own pairs as they stand on the page, and the pair that was decided between."""
    there = evidence.slot(slot).pairs
    if chosen is None or against is None or chosen.key == against.key:
        return there
    names = {chosen.key, against.key}
    if any({pair.candidate.key, pair.against.key} == names for pair in there):
        return there
    return (*there, *evidence.between(slot, chosen, against))


def _speaks_against(
    visit: Visit,
    chosen: ClubEvidence | None,
    pairs: Sequence[Pair],
    planned: PlanSlot | None,
    off: Off,
) -> tuple[Said, ...]:
    """Where a real difference speaks for another club than the chosen one."""
    if chosen is None:
        return ()
    carry = None if planned is None else planned.predicted_carry_m
    others = {
        other.key: other
        for pair in pairs
        for other in (pair.candidate, pair.against)
        if other.key != chosen.key
    }
    unit = _unit(visit)
    return tuple(
        sentence
        for other in others.values()
        for sentence in evidence_against(chosen, other, pairs, carry, unit, off)
    )


def _reason(
    outcome: str,
    reason: str,
    speaks_against: Sequence[str],
    chosen: ClubEvidence | None,
    pairs: Sequence[Pair],
    to_try: Head | None,
) -> str:
    said = reason.strip()[:300]
    # What stands there where nobody gave a reason is none.
    if said and said != AS_SHOWN:
        return said
    if to_try is not None:
        return f"To try the set's own wedge: {to_try}."
    if speaks_against:
        raise FieldsRefused({"reason": f"{speaks_against[0]} Say why you choose otherwise."})
    if outcome == Outcome.BUILD and not _speaks_for(chosen, pairs):
        raise FieldsRefused(
            {"reason": "No measured difference speaks for building it. Say what does."}
        )
    return AS_SHOWN


def _speaks_for(chosen: ClubEvidence | None, pairs: Sequence[Pair]) -> bool:
    return chosen is not None and any(
        each.found.verdict == "real difference"
        for pair in pairs
        if chosen.key in (pair.candidate.key, pair.against.key)
        for each in pair.judged
    )


def _unit(visit: Visit) -> DistanceUnit:
    return "m" if visit.player.carry_unit == "m" else "yd"


def _frozen(
    visit: Visit,
    slot: int,
    evidence: VisitEvidence,
    pairs: Sequence[Pair],
    planned: PlanSlot | None,
    speaks_against: Sequence[Said],
) -> dict[str, Any]:
    """Everything the decision was taken on, as plain values in metres."""
    unit = _unit(visit)
    there = evidence.slot(slot)
    return {
        "unit": unit,
        "planned": None
        if planned is None
        else {
            "target_loft_deg": str(planned.target_loft_deg),
            "predicted_carry_m": planned.predicted_carry_m,
            "predicted_sd_m": planned.predicted_sd_m,
        },
        "margins": asdict(evidence.margins),
        "clubs": [_frozen_club(club, unit) for club in there.played],
        "verdicts": [_frozen_pair(pair, unit) for pair in pairs],
        "speaks_against": list(speaks_against),
        "speaks_against_rules": [said.rule_id for said in speaks_against],
    }


def _frozen_club(club: ClubEvidence, unit: DistanceUnit) -> dict[str, Any]:
    return {
        "trial_ids": [str(pk) for pk in club.trial_ids],
        "name": club.name,
        "is_own": club.is_own,
        "loft_words": club.loft_words,
        "bounce_words": club.bounce_words,
        "grooves": club.grooves,
        "shots": club.shots,
        "strikes": club.strikes,
        "turf": club.turf,
        "is_tested_on_turf": club.is_tested_on_turf,
        "situations": [
            {
                "words": each.situation.words(unit),
                "balls": each.figures.shots,
                "misreads": each.figures.misreads,
                "carry": _frozen_spread(each.figures.carry),
                "side": _frozen_spread(each.figures.side),
                "strikes": dict(each.figures.strikes),
                "turf": dict(each.turf),
            }
            for each in club.situations
        ],
    }


def _frozen_spread(spread: Spread | None) -> dict[str, Any] | None:
    return None if spread is None else asdict(spread)


def _frozen_pair(pair: Pair, unit: DistanceUnit) -> dict[str, Any]:
    return {
        "candidate": pair.candidate.name,
        "against": pair.against.name,
        "situation": pair.one.situation.words(unit),
        "unfair": list(pair.unfair),
        "cautions": list(pair.cautions),
        "said": [asdict(box) for box in verdict_boxes(pair, unit)],
        "carry": None if pair.carry is None else asdict(pair.carry),
        "side": None if pair.side is None else asdict(pair.side),
        "measures": {each.key: asdict(each.found) for each in pair.judged},
    }
