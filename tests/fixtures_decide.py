"""A visit up to its trials, made through the services. Invented people, makers and figures.

A right-hander, yards: pitching wedge 45 (measured 45) at about 128 yards, own 50 and own 56;
trial heads stamped 50, 54, 56 and 60 on one shaft.
"""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from uuid import uuid4

from fitshop.actor import Actor, ActorKind, Role, system_actor
from fitshop.models import Location, Shop, Staff, StaffLocation, StaffRole
from sessions.models import Block, Head, Shot, Trial, TrialHead, Visit
from sessions.services.bag import bag_club_record, other_clubs_record
from sessions.services.catalogue import (
    grip_enter,
    head_enter,
    shaft_enter,
    trial_head_enter,
    trial_shaft_enter,
)
from sessions.services.interviews import interview_answer
from sessions.services.players import player_register
from sessions.services.shots import shot_record
from sessions.services.trials import block_start, trial_finish, trial_start
from sessions.services.visits import visit_book

AT = datetime(2027, 5, 7, 9, 30, tzinfo=UTC)
YARD = 0.9144


class Room:
    """One open visit and what is at hand. Every write goes through a service."""

    def __init__(self, location: Location | None = None, at: datetime = AT) -> None:
        self.at = at
        self.location = location or Location.objects.create(name="Low Meadow", zone="Europe/Dublin")
        if not Shop.objects.exists():
            Shop.objects.create(name="Low Meadow Golf")
        self.by = Actor(
            kind=ActorKind.STAFF,
            name="Mara Quill",
            roles=frozenset({Role.FITTER, Role.MANAGER}),
            location_ids=frozenset({self.location.pk}),
        )
        self.system = system_actor("test")
        self.player = player_register(
            values={"given_name": "Imke", "family_name": "Brandvold", "hand": "right",
                    "kind": "man", "carry_unit": "yd"},
            by=self.by, at=at,
        )  # fmt: skip
        self.visit: Visit = visit_book(
            player=self.player, location=self.location, bay=None, fitter=None, starts_at=at,
            minutes=90, is_walk_in=True, by=self.by, at=at,
        )  # fmt: skip
        self.shaft = self._shaft()
        self.heads: dict[str, TrialHead] = {}

    def signed_in(self, client, username: str = "mara", role: str = "fitter") -> Staff:
        person = Staff.objects.create_user(username=username, password="grass and sand 7")
        StaffRole.objects.create(staff=person, role=role)
        StaffLocation.objects.create(staff=person, location=self.location)
        client.force_login(person)
        return person

    def _shaft(self):
        shaft = shaft_enter(
            values={"maker": "Ravensworth", "model": "Steel 125", "material": "steel",
                    "flex": "firm", "tip_kind": "taper", "tip_mm": Decimal("9.017"),
                    "butt_mm": Decimal("15.24"), "raw_length_mm": Decimal("939.8"),
                    "mass_g": Decimal(125)},
            by=self.by, at=self.at,
        )  # fmt: skip
        grip = grip_enter(
            values={"maker": "Ravensworth", "model": "Cord", "size": "standard",
                    "core_mm": Decimal("15.24"), "mass_g": Decimal(50),
                    "length_mm": Decimal(268), "cap_mm": Decimal(30)},
            by=self.by, at=self.at,
        )  # fmt: skip
        return trial_shaft_enter(
            values={"mark": "S1", "location": self.location, "shaft": shaft, "grip": grip,
                    "playing_length_mm": Decimal("895.35")},
            by=self.by, at=self.at,
        )  # fmt: skip

    def head(self, loft: str, bounce: str = "10", model: str = "Sedge", **more) -> TrialHead:
        head: Head = head_enter(
            values={"maker": "Orrin Vale", "model": model, "hand": "right",
                    "stamped_loft_deg": Decimal(loft), "bounce_deg": Decimal(bounce),
                    "lie_deg": Decimal(64), "mass_g": Decimal(305),
                    "making": "forged low-carbon steel", "finish": "satin",
                    "sole_width_mm": Decimal(21), "camber": "medium", "bore_mm": Decimal("9.017")}
            | more,
            by=self.by, at=self.at,
        )  # fmt: skip
        self.heads[f"{model} {loft}"] = trial_head_enter(
            values={"mark": f"{model}{loft}", "location": self.location, "head": head,
                    "measured_loft_deg": Decimal(loft)},
            by=self.by, at=self.at,
        )  # fmt: skip
        return self.heads[f"{model} {loft}"]

    def club(self, kind: str, label: str, loft: str | None, stamped: str | None = None, **more):
        return bag_club_record(
            visit=self.visit, entry_id=uuid4(), club_id=uuid4(),
            values={"kind": kind, "label": label,
                    "stamped_loft_deg": Decimal(stamped or loft or "0") or None,
                    "loft_deg": Decimal(loft) if loft else None, "making": "unknown"} | more,
            by=self.by, at=self.at,
        ).club  # fmt: skip

    def others(self, **counts: tuple[int, int]) -> None:
        other_clubs_record(visit=self.visit, counts=counts, by=self.by, at=self.at)

    def answer(self, question: str, value) -> None:
        interview_answer(visit=self.visit, answer_id=uuid4(), question=question, value=value,
                         by=self.by, at=self.at)  # fmt: skip

    def own_trial(self, club, purpose: str = "own", slot: int | None = None) -> Trial:
        return trial_start(visit=self.visit, trial_id=uuid4(), purpose=purpose, club=club,
                           slot=slot, by=self.by, at=self.at)  # fmt: skip

    def head_trial(self, head: TrialHead, slot: int | None = None, **more) -> Trial:
        return trial_start(visit=self.visit, trial_id=uuid4(), purpose="candidate",
                           trial_head=head, trial_shaft=self.shaft, slot=slot, head_tight=True,
                           by=self.by, at=self.at, **more)  # fmt: skip

    def block(self, trial: Trial, **more) -> Block:
        values = {"swing": "full", "hit_from": "fairway", "ground": "normal", "wetness": "dry",
                  "face": "square", "ball": "premium", "carry_got": "tracked",
                  "as_flown": "as_flown"} | more  # fmt: skip
        return block_start(trial=trial, block_id=uuid4(), values=values, by=self.by, at=self.at)

    def hit(
        self, block: Block, *carries_yd: float | None, side_yd: float = 0, **more
    ) -> list[Shot]:
        """One ball a carry; sideways alternates about `side_yd` by two yards."""
        return [
            shot_record(
                block=block, shot_id=uuid4(),
                values={"carry_m": None if carry is None else carry * YARD,
                        "side_m": (side_yd + (2 if index % 2 else -2)) * YARD} | more,
                by=self.by, at=self.at,
            )
            for index, carry in enumerate(carries_yd)
        ]  # fmt: skip

    def baseline(self, *carries_yd: float, loft: str = "45"):
        """The pitching wedge in the bag and hit; five balls of about 128 yards unless given."""
        club = self.club("pitching_wedge", "pitching wedge", loft)
        trial = self.own_trial(club, "baseline")
        self.hit(self.block(trial), *(carries_yd or (126, 128, 130, 127, 129)))
        return club

    def finish(self, trial: Trial) -> None:
        trial_finish(trial=trial, by=self.by, at=self.at)
