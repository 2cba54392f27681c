"""The irons' own wedge as an answer for a slot, where the catalogue has one that reaches its loft.

It is an answer like any other, hit or not; what nobody hit can't be compared, and that is said.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from fitshop.selectors import SettingsInForce, settings_in_force
from sessions.models import BagEntry, Club, Head, Trial, TrialHead, Visit
from sessions.models.words import Availability
from sessions.rules.facts import limits_from
from sessions.rules.plan_wish import plan_limits_from
from sessions.rules.wording import bounce_words, loft_words
from sessions.selectors.decisions import SlotToDecide
from sessions.selectors.evidence import last_bag_entries
from sessions.selectors.plans import candidate_head

IRONS = (Club.Kind.IRON, Club.Kind.PITCHING_WEDGE)


@dataclass(frozen=True)
class SetWedge:
    """A set's own wedge that nobody hit for a slot. `marks` are trial heads of it on the rack.

    `is_of_these_irons` is False where only the maker is known, or nothing: then it is an `if`.
    """

    head: Head
    bend_deg: Decimal
    is_of_these_irons: bool
    marks: tuple[str, ...]

    @property
    def name(self) -> str:
        return str(self.head)

    @property
    def words(self) -> str:
        """`Would play 50° (stamped 52, bent 2 strong), bounce 7° (stamped 9, bent 2 strong)`."""
        stamped = self.head.stamped_loft_deg
        target = stamped + self.bend_deg
        said = (
            f"Would play {loft_words(target, stamped)}, "
            f"bounce {bounce_words(self.head.bounce_deg, target, stamped)}"
        )
        return said if self.is_of_these_irons else f"{said}; if the irons are of that set"


def set_wedge_for(
    visit: Visit, each: SlotToDecide, settings: SettingsInForce | None = None
) -> SetWedge | None:
    """The set's own wedge for a slot that nobody hit there; None where none reaches or one was.

    The one that needs the least bend, of the irons' set where that is known. Irons of another
    maker have no wedge here.
    """
    loft = each.loft_deg
    if loft is None:
        return None
    in_force = settings or settings_in_force()
    limits, plan_limits = limits_from(in_force.values), plan_limits_from(in_force.values)
    entries = last_bag_entries(visit)
    reaching = [
        (not is_sure, abs(loft - head.stamped_loft_deg), str(head.pk), head)
        for head in Head.objects.filter(hand=visit.player.hand, is_matched_set=True).exclude(
            availability=Availability.DISCONTINUED
        )
        if (is_sure := _is_of_the_irons(head, entries.values())) is not None
        and (reach := candidate_head(head, limits, plan_limits))
        and -reach.strong_limit_deg <= loft - head.stamped_loft_deg <= reach.weak_limit_deg
    ]
    if not reaching or _has_one(visit, each):
        return None
    is_unsure, _, _, head = min(reaching, key=lambda found: found[:3])
    marks = TrialHead.objects.filter(
        head=head, location_id=visit.location_id, withdrawn_at=None
    ).values_list("mark", flat=True)
    return SetWedge(head, loft - head.stamped_loft_deg, not is_unsure, tuple(marks))


def _is_of_the_irons(head: Head, entries: Iterable[BagEntry]) -> bool | None:
    """True of this set, False where it may be, None where the irons are another maker's."""
    irons = {
        (entry.club.maker.casefold(), entry.club.model.casefold())
        for entry in entries
        if entry.club.kind in IRONS and entry.club.maker
    }
    if (head.maker.casefold(), head.model.casefold()) in irons:
        return True
    if irons and (head.maker.casefold(), "") not in irons:
        return None
    return False


def _has_one(visit: Visit, each: SlotToDecide) -> bool:
    """Whether a set's own wedge stands in the slot already: handed over, or played now."""
    own = each.own_club
    if own is not None and own.head is not None and own.head.is_matched_set:
        return True
    tried = [pk for club in each.evidence.candidates for pk in club.trial_ids]
    return Trial.objects.filter(
        visit=visit, pk__in=tried, trial_head__head__is_matched_set=True
    ).exists()
