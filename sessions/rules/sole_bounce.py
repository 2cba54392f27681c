"""Bounce and sole for each job of a wedge, one judgement for each way the answers may fall.

Of one job exactly one of them speaks. Common practice throughout.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sessions.rules.judgements import JudgementBook
from sessions.rules.sole_heard import Attack, Band, Job, SoleHeard, SoleLimits, SoleSuggestion

SoleBook = JudgementBook[SoleHeard, SoleLimits, SoleSuggestion]
SUGGESTED = Iterable[SoleSuggestion]

TURF: SoleBook = JudgementBook("TRY-B", "Bounce and sole: full shots from turf")
SAND: SoleBook = JudgementBook("TRY-G", "Bounce and sole: sand")
OPENED: SoleBook = JudgementBook("TRY-O", "Bounce and sole: short shots and the opened face")
BOUNCE = {Job.FULL_SHOTS: TURF, Job.SAND: SAND, Job.OPENED_FACE: OPENED}

SOFTENED, RELIEF = "softened leading edge", "heel and trailing-edge relief"
WIDE, NARROW = "wide sole", "narrower sole"
USUAL_WIDTH = "sole of usual width"
ATTACK_LIMITS = ("interview.steep_deg", "interview.shallow_deg")


@TURF.judgement(
    "TRY-B01",
    about="Steep on firm ground: mid bounce with a softened leading edge, not high.",
    thresholds=("interview.steep_deg",),
)
def steep_on_firm(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.attack is Attack.STEEP and "firm" in heard.ground:
        yield SoleSuggestion(Job.FULL_SHOTS, Band.MID, SOFTENED, heard.turf_why)


@TURF.judgement(
    "TRY-B02",
    about="Steep on ground that is never firm: high bounce.",
    thresholds=("interview.steep_deg",),
)
def steep_elsewhere(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.attack is Attack.STEEP and heard.ground and "firm" not in heard.ground:
        yield SoleSuggestion(Job.FULL_SHOTS, Band.HIGH, "", heard.turf_why)


@TURF.judgement(
    "TRY-B03",
    about="Shallow on ground that is firm in every season: low bounce.",
    thresholds=("interview.shallow_deg",),
)
def shallow_on_firm(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.attack is Attack.SHALLOW and heard.ground == {"firm"}:
        yield SoleSuggestion(Job.FULL_SHOTS, Band.LOW, "", heard.turf_why)


@TURF.judgement(
    "TRY-B04",
    about="Neither steep nor shallow, on ground that is soft in every season: high bounce.",
    thresholds=ATTACK_LIMITS,
)
def medium_on_soft(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.attack is Attack.MEDIUM and heard.ground == {"soft"}:
        yield SoleSuggestion(Job.FULL_SHOTS, Band.HIGH, "", heard.turf_why)


@TURF.judgement(
    "TRY-B05",
    about="Neither steep nor shallow, on ground that is not soft in every season: mid bounce.",
    thresholds=ATTACK_LIMITS,
)
def medium_elsewhere(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.attack is Attack.MEDIUM and heard.ground and heard.ground != {"soft"}:
        yield SoleSuggestion(Job.FULL_SHOTS, Band.MID, "", heard.turf_why)


@TURF.judgement(
    "TRY-B06",
    about="Shallow on ground that is not firm in every season: mid bounce.",
    thresholds=("interview.shallow_deg",),
)
def shallow_elsewhere(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.attack is Attack.SHALLOW and heard.ground and heard.ground != {"firm"}:
        yield SoleSuggestion(Job.FULL_SHOTS, Band.MID, "", heard.turf_why)


@SAND.judgement("TRY-G01", about="Soft bunkers and firm ones: mid bounce, whatever the swing.")
def soft_and_firm_sand(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.is_soft_sand and heard.is_firm_sand:
        yield SoleSuggestion(Job.SAND, Band.MID, "", heard.sand_why)


@SAND.judgement("TRY-G02", about="Soft or fluffy sand only: high bounce and a wide sole.")
def soft_sand(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.is_soft_sand and not heard.is_firm_sand:
        yield SoleSuggestion(Job.SAND, Band.HIGH, WIDE, heard.sand_why)


@SAND.judgement(
    "TRY-G03",
    about="Firm, wet or thin sand only, no season of soft ground, and not a steep swing: low "
    "bounce and a narrower sole. Where the attack is not known, the why says so.",
    thresholds=("interview.steep_deg",),
)
def firm_sand(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    is_soft_ground = "soft" in heard.ground
    if heard.is_only_firm_sand and heard.attack is not Attack.STEEP and not is_soft_ground:
        unknown = "" if heard.attack else " The attack is not known: a steep one wants mid bounce."
        yield SoleSuggestion(Job.SAND, Band.LOW, NARROW, heard.sand_why + unknown)


@SAND.judgement(
    "TRY-G04",
    about="Firm, wet or thin sand only, and a steep swing: mid bounce, a softened leading edge.",
    thresholds=("interview.steep_deg",),
)
def firm_sand_steep(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.is_only_firm_sand and heard.attack is Attack.STEEP:
        yield SoleSuggestion(Job.SAND, Band.MID, SOFTENED, heard.sand_why)


@SAND.judgement(
    "TRY-G06",
    about="Firm, wet or thin sand only, but ground that is soft in a season, and not a steep "
    "swing: mid bounce, since low bounce digs there.",
    thresholds=("interview.steep_deg",),
)
def firm_sand_soft_ground(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.is_only_firm_sand and heard.attack is not Attack.STEEP and "soft" in heard.ground:
        why = f"{heard.sand_why} The ground is soft in a season, and low bounce digs there."
        yield SoleSuggestion(Job.SAND, Band.MID, "", why)


@SAND.judgement("TRY-G05", about="Coarse sand that is neither soft nor firm: mid bounce.")
def other_sand(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.sand and not heard.is_soft_sand and not heard.is_firm_sand:
        yield SoleSuggestion(Job.SAND, Band.MID, "", heard.sand_why)


@OPENED.judgement(
    "TRY-O01",
    about="The face is opened often: low bounce with relief at heel and trailing edge.",
)
def opened_often(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.opened == "often":
        why = "Opened often: an open face adds bounce, and relief keeps the edge down."
        yield SoleSuggestion(Job.OPENED_FACE, Band.LOW, RELIEF, why)


@OPENED.judgement(
    "TRY-O02",
    about="The face is opened now and then: mid bounce with relief at heel and trailing edge.",
)
def opened_sometimes(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    if heard.opened == "sometimes":
        yield SoleSuggestion(Job.OPENED_FACE, Band.MID, RELIEF, "Opened now and then.")


@OPENED.judgement(
    "TRY-O03",
    about="The face is never opened: the sole that is suggested for full shots from turf.",
)
def never_opened(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    full = heard.full_shots
    if heard.opened == "never" and full is not None and not _is_high_on_firm_sand(heard):
        why = f"Never opened, so as for full shots. {full.why}"
        yield replace(full, job=Job.OPENED_FACE, why=why)


@OPENED.judgement(
    "TRY-O04",
    about="The face is never opened, the turf asks for high bounce, but the sand is firm, wet or "
    "thin only: mid bounce, since a touch club is hit out of it too.",
)
def never_opened_on_firm_sand(heard: SoleHeard, limits: SoleLimits) -> SUGGESTED:
    full = heard.full_shots
    if heard.opened == "never" and full is not None and _is_high_on_firm_sand(heard):
        why = f"Never opened. {full.why} But {heard.sand_why} High bounce skips off firm sand."
        yield replace(full, job=Job.OPENED_FACE, band=Band.MID, why=why)


def _is_high_on_firm_sand(heard: SoleHeard) -> bool:
    full = heard.full_shots
    return heard.is_only_firm_sand and full is not None and full.band is Band.HIGH
