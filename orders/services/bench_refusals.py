"""What the bench refuses, and why: steps out of order, bends too far, a cure that goes on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime, tzinfo
from decimal import Decimal
from typing import Any

from fitshop.refusals import FieldsRefused, StateRefused
from orders.flow import ClubState
from orders.models import BuildOrder, Gauge, OrderClub
from orders.models.bench import Measure, Stage, Step
from orders.models.metal import FactKind
from orders.rules.bench_steps import AFTER_THE_CURE
from orders.rules.dry_weight import weight_headline
from orders.rules.head_mass import answer_words, off_words
from orders.rules.lengths import BY_THE_RULES, METHODS, MISSING_WORDS, Missing, length_as
from orders.selectors.cures import cure_of, epoxy_step
from orders.selectors.figures import (
    MEASURES,
    bend_now,
    figures_of,
    is_glued,
    is_glued_since_rework,
    settings_of,
    standing_steps,
    work_of,
)
from orders.selectors.holds import Weighing, head_off_of, weighing_of
from orders.selectors.lengths import stance_of
from orders.selectors.metal import (
    BENDS,
    bend_facts,
    facts_of,
    is_glued_now,
    is_read_since_bend,
)
from orders.services.neighbours import refuse_glue_beside
from sessions.maths.shown import show_swing_weight
from sessions.rules.wording import figure, listed

# From the measured bare head on, until it is glued.
WORK_ON_THE_HEAD = (Step.BARE_HEAD, Step.STAMPED, Step.BENT_BARE, Step.HOSEL, Step.EPOXY)


def refuse_while_curing(club: OrderClub, *, at: datetime, zone: tzinfo) -> None:
    """Bending, final readings and hand-over wait for the epoxy. Raises StateRefused."""
    if club.state == ClubState.CURING and (step := epoxy_step(club)) is not None:
        cure = cure_of(step)
        if cure.end.is_too_cold:
            raise StateRefused(
                f"Too cold to cure: {figure(cure.temperatures[-1].celsius)} °C, "
                f"{figure(cure.limits.least_c)} at least. Warm it, then read it again.",
                code="cure.too_cold",
            )
    if club.cure_until is None or at >= club.cure_until:
        return
    ends, now = club.cure_until.astimezone(zone), at.astimezone(zone)
    shown = "%H:%M" if ends.date() == now.date() else "%a %H:%M"
    raise StateRefused(f"Cure ends {ends:{shown}}; it is {now:{shown}}.", code="cure.not_over")


def refuse_step(
    club: OrderClub,
    step: str,
    values: Mapping[str, Any],
    *,
    again: bool = False,
    at: datetime,
    zone: tzinfo,
) -> None:
    """A step that isn't needed, comes too early, or wants what isn't there.

    `again`: a bend that nothing asks for any more may be made once more all the same.
    Raises StateRefused, FieldsRefused.
    """
    settings = settings_of(club.revision).values
    work = work_of(club, settings)
    done = standing_steps(club, settings)
    if not again and step in work.not_needed and not club.steps.filter(step=step).exists():
        raise StateRefused(
            f"{Step(step).label}: not needed, {work.not_needed[step]}.", code="bench.not_needed"
        )
    if club.state in (ClubState.READY, ClubState.COLLECTED):
        raise StateRefused("This club is built and checked.")
    if step in work.steps and (missing := work.missing_before(step, done)):
        raise StateRefused(f"First: {Step(missing[0]).label}.", code="bench.step_before")
    if step in AFTER_THE_CURE:
        refuse_while_curing(club, at=at, zone=zone)
    if step in BENDS:
        _refuse_bend(club)
    if step in WORK_ON_THE_HEAD:
        refuse_head_off(club)
    if club.reworked_at is None:
        _refuse_against_the_metal(club, step)
    match Step(step):
        case Step.PICKED if values.get("hand") != club.hand:
            raise FieldsRefused(
                {
                    "hand": f"This club is for the {club.hand.upper()} hand. "
                    "Look at the head, say its hand aloud, and choose it."
                }
            )
        case Step.BARE_HEAD:
            _refuse_unread(club)
        case Step.READ_BENT if not is_read_since_bend(club):
            raise StateRefused(
                "Loft and lie must be read after the bend first.", code="bench.bend_unread"
            )
        case Step.MEASURED:
            _refuse_unmeasured(club)
        case Step.DRY_WEIGHT:
            _refuse_too_much_added(club, values)
            _refuse_wrong_weight(club, values)
        case Step.EPOXY:
            refuse_unweighed(club)
            refuse_glue_beside(club)


def _refuse_against_the_metal(club: OrderClub, step: str) -> None:
    """A revision asked for what this head or shaft can't become any more.

    Somebody decides by the next revision: back to what the metal is, or another part. A rework,
    which takes a club apart, is not judged here. Raises StateRefused.
    """
    facts = facts_of(club)
    if step == Step.STAMPED:
        others = {
            fact.stamping
            for fact in facts
            if fact.kind == FactKind.STAMPED and fact.stamping.strip() != club.stamping.strip()
        }
        if others:
            raise StateRefused(
                f"This head is stamped {listed(sorted(others))} already. Ask the fitter: keep that "
                "stamping, or order the club on another head.",
                code="bench.stamped_already",
            )
    cuts = [fact for fact in facts if fact.kind == FactKind.BUTT_CUT]
    if step == Step.BUTT_CUT and cuts:
        cut_for = min(fact.club.target_length_mm for fact in cuts)
        if is_glued_now(club) and cut_for != club.target_length_mm:
            raise StateRefused(
                "The shaft is glued in at the length that was ordered before. Ask the fitter: keep "
                "that length, or order another shaft.",
                code="bench.cut_and_glued",
            )
        if cut_for < club.target_length_mm:
            raise StateRefused(
                "The shaft is cut shorter than this length wants. Ask the fitter: keep the length "
                "it was cut for, or order another shaft.",
                code="bench.cut_too_short",
            )


def _refuse_bend(club: OrderClub) -> None:
    bend = bend_now(club, settings_of(club.revision).values)
    if bend.loft_deg is None or bend.lie_deg is None:
        raise StateRefused("Measure loft and lie as received first: bend from that.")
    if bend.refusals:
        raise StateRefused(
            " ".join(bend.refusals)
            + " Don't bend it: take another head, or have the order revised.",
            code="bench.bend_too_far",
        )


def _refuse_unread(club: OrderClub) -> None:
    missing = [
        word
        for word, value in (
            ("loft", club.as_received_loft_deg),
            ("lie", club.as_received_lie_deg),
            ("head mass", club.as_received_mass_g),
        )
        # With its shaft in a head can't be weighed.
        if value is None and (word != "head mass" or is_glued(club))
    ]
    if missing:
        raise StateRefused(f"As received, {listed(missing)} must be measured first.")


def _refuse_unmeasured(club: OrderClub) -> None:
    missing = [
        each.measure.label
        for each in figures_of(club, settings_of(club.revision).values)
        if each.verdict.mean is None
    ]
    if missing:
        raise StateRefused(f"Not measured yet: {listed(missing)}.")


def _refuse_too_much_added(club: OrderClub, values: Mapping[str, Any]) -> None:
    added, most = (
        values.get("added_g"),
        Decimal(str(settings_of(club.revision)["build.most_added_g"])),
    )
    if added is not None and added != "" and Decimal(str(added)) > most:
        raise FieldsRefused(
            {
                "added_g": f"At most {figure(most)} g goes into a hosel. Change a part, or have "
                "the swing weight revised: length comes before swing weight."
            }
        )


def _refuse_wrong_weight(club: OrderClub, values: Mapping[str, Any]) -> None:
    """The grams that went in, against those that the dry reading asks for."""
    if club.target_swing_weight_points is None:
        return
    weighing = _weighed(club)
    found, typed = weighing.worked_out, values.get("added_g")
    if typed is None or typed == "":
        if found.to_add_g == 0:
            return
        raise FieldsRefused(
            {"added_g": "Type the grams that went in; 0 for none."}, code="bench.weight_untyped"
        )
    glued = found.glued_with(Decimal(str(typed)))
    if found.is_reachable and not found.is_in(glued):
        raise FieldsRefused(
            {
                "added_g": f"That makes {show_swing_weight(glued)} when glued. "
                f"{weight_headline(found)}."
            },
            code="bench.weight_is_off",
        )


def refuse_head_off(club: OrderClub) -> None:
    """No work on a head off its stated mass, unless somebody accepted it. Raises StateRefused."""
    off = head_off_of(club, settings_of(club.revision).values)
    if off is None or not off.hold.is_open:
        return
    words = f"The head is {off_words(off.off_g, off.tolerance_g)}."
    if off.hold.wants_second_reading:
        raise StateRefused(
            f"{words} Too near the limit for one reading: weigh it once more, the mean decides.",
            code="bench.head_mass_read_twice",
        )
    raise StateRefused(
        f"{words} {answer_words(off.answer)}, or ask a fitter or manager to accept it.",
        code="bench.head_mass_off",
    )


def refuse_unweighed(club: OrderClub) -> None:
    """Nothing is glued over a swing weight that is unread, or can't be reached and isn't accepted.

    Raises StateRefused.
    """
    if club.target_swing_weight_points is None:
        return
    weighing = _weighed(club)
    if weighing.is_off:
        raise StateRefused(
            f"{show_swing_weight(weighing.glued_points)} when glued, with what is in the hosel. "
            f"{weight_headline(weighing.worked_out)}: change it and type the grams again.",
            code="bench.weight_is_off",
        )
    hold = weighing.hold
    if hold is None or not hold.is_open:
        return
    if hold.wants_second_reading:
        raise StateRefused(
            f"{weight_headline(weighing.worked_out)}: too near the limit for one reading. "
            "Read the dry swing weight once more; the mean decides.",
            code="bench.dry_read_twice",
        )
    raise StateRefused(
        f"{weight_headline(weighing.worked_out)}. Change a part, or ask a fitter or manager to "
        "accept it, before it is glued.",
        code="bench.weight_unreachable",
    )


def _weighed(club: OrderClub) -> Weighing:
    weighing = weighing_of(club, settings_of(club.revision).values)
    if weighing is None:
        raise StateRefused(
            "Read the dry swing weight first: ferrule, grip and tape on, no epoxy.",
            code="bench.dry_unread",
        )
    return weighing


def _refuse_dry_reading(missing: Sequence[str], is_glued_now: bool) -> None:
    """The dry scale is read when everything lies dry together, and not once it is glued."""
    if missing:
        raise StateRefused(f"First: {Step(missing[0]).label}.", code="bench.step_before")
    if is_glued_now:
        raise StateRefused(
            "The head is glued: the dry swing weight can't be read any more.",
            code="bench.glued_already",
        )


def refuse_reading(
    order: BuildOrder,
    club: OrderClub,
    stage: Stage,
    measure: Measure,
    gauge: Gauge | None,
    at: datetime,
) -> None:
    """A figure that isn't read then, or not by that gauge. Raises StateRefused, FieldsRefused."""
    if measure not in MEASURES[stage]:
        raise FieldsRefused({"measure": f"A {measure.label} is not read {stage.label}."})
    if gauge is not None and gauge.measure != measure:
        raise FieldsRefused({"gauge": f"{gauge.name} doesn't read {measure.label}."})
    if club.state in (ClubState.READY, ClubState.COLLECTED):
        raise StateRefused("This club is built and checked.")
    settings = settings_of(club.revision).values
    done = standing_steps(club, settings).keys()
    if measure == Measure.SOLE_POINT:
        # Where the sole touches is the head's own: a shaft and a bend leave it, as far as it shows.
        return
    if stage == Stage.AS_RECEIVED and club.steps.filter(step=Step.EPOXY).exists():
        raise StateRefused(
            "The head is glued: it can't be read as received any more.", code="bench.glued"
        )
    if stage == Stage.AS_RECEIVED:
        if bend_facts(club):
            raise StateRefused(
                "The head is bent already: it can't be read as received any more.",
                code="bench.bent_already",
            )
        return
    if stage == Stage.BENT:
        _refuse_bare_reading(club)
        return
    if stage == Stage.DRY:
        work = work_of(club, settings)
        if Step.DRY_WEIGHT not in work.steps:
            raise StateRefused(
                f"{Step.DRY_WEIGHT.label}: not needed, {work.not_needed[Step.DRY_WEIGHT]}.",
                code="bench.not_needed",
            )
        missing = work.missing_before(Step.DRY_WEIGHT, done)
        _refuse_dry_reading(missing, is_glued_since_rework(club))
        return
    if missing := work_of(club, settings).missing_before(Step.MEASURED, done):
        raise StateRefused(f"First: {Step(missing[0]).label}.")
    refuse_while_curing(club, at=at, zone=order.location.zone_info)


def refuse_length(club: OrderClub, method: str, field: str) -> None:
    """A length that can't be held against this club's target. Raises FieldsRefused."""
    if method not in METHODS:
        raise FieldsRefused(
            {field: "Choose how it is measured: by the 60° stop, or along the shaft."},
            code="bench.length_method_unknown",
        )
    found = length_as(
        club.target_length_mm,
        read_by=method,
        wanted=club.length_method,
        stance=stance_of(club),
    )
    if not isinstance(found, Missing):
        return
    other = "the 60° stop" if club.length_method == BY_THE_RULES else "a ruler along the shaft"
    ways = [f"Read it by {other}"]
    if found is Missing.SOLE_POINT:
        ways.append("gauge the sole point (as received)")
    raise FieldsRefused(
        {
            field: "A length read so can't be held against this target: "
            f"{MISSING_WORDS[found]}. {', or '.join(ways)}."
        },
        code=f"bench.length_wants_{found.name.lower()}",
    )


def _refuse_bare_reading(club: OrderClub) -> None:
    """The bare head is read between its bend and the epoxy."""
    if not any(fact.step == Step.BENT_BARE for fact in bend_facts(club)):
        raise StateRefused("The bare head isn't bent yet.", code="bench.not_bent")
    if is_glued_now(club):
        raise StateRefused("The head is glued: read it as built.", code="bench.glued_already")
