"""An order from a signed spec, for the tests of the workshop. Invented people and makers."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from fitshop.actor import Role
from orders.models import BuildOrder, Gauge, OrderClub, Resin
from orders.selectors.figures import settings_of, work_of
from orders.services.bench import reading_record, step_finish
from orders.services.build_orders import order_create, order_release
from orders.services.checks import check_sign, concession_sign
from orders.services.resins import resin_enter
from sessions.models import Decision, FinalSpec, SpecClub
from tests.spec_room import AT, Room, a_grip, a_head, a_shaft, staff_actor

# The bench's clock: the epoxy is mixed two hours after the order.
MIXED = AT + timedelta(hours=2)
CURED = MIXED + timedelta(hours=25)


class Workshop(Room):
    """A room whose spec has so many new clubs and is signed."""

    def __init__(self, *, clubs: int = 1, **more) -> None:
        self.new_clubs = clubs
        super().__init__(**more)
        self.builder = staff_actor(self.location, "Odo Lark", Role.BUILDER)
        self.second = staff_actor(self.location, "Ines Ravn", Role.BUILDER)
        self.desk = staff_actor(self.location, "Pia Holm", Role.DESK)
        self.manager = staff_actor(self.location, "Mara Quill", Role.MANAGER)
        self.spec = self.signed_spec(1)

    def _decide(self) -> None:
        Decision.objects.create(
            visit=self.visit, slot=1, role="full_shot", outcome="keep", kept_club=self.fifty,
            reason="already right", code_version="test", decided_at=AT, decided_by="Mara Quill",
        )  # fmt: skip

    def signed_spec(self, version: int, **changes) -> FinalSpec:
        FinalSpec.objects.filter(visit=self.visit, state="signed").update(state="superseded")
        spec = FinalSpec.objects.create(
            visit=self.visit, version=version, state="signed", rule_set="test", drafted_at=AT,
            drafted_by="Mara Quill", signed_at=AT, signed_by="Mara Quill",
        )  # fmt: skip
        heads = [self.head, *self._more_heads()]
        for number in range(self.new_clubs):
            self._spec_club(spec, number, heads[number], changes if number == 0 else {})
        return spec

    def _more_heads(self):
        if not hasattr(self, "heads_made"):
            self.heads_made = [
                a_head("50", "8", bore_to_ground_mm=Decimal("32")),
                a_head("60", "7", bore_to_ground_mm=Decimal("30"), mass_g=Decimal(303)),
                a_head("46", "6", bore_to_ground_mm=Decimal("33"), mass_g=Decimal(297)),
            ]
        return self.heads_made

    def _spec_club(self, spec, number, head, changes) -> SpecClub:
        names = ("Sand", "Gap", "Lob", "Pitching")
        values = {
            "slot": number + 1, "name": names[number], "role": "touch", "source": "new",
            "hand": self.player.hand, "head": head, "stamped_loft_deg": head.stamped_loft_deg,
            "stamped_bounce_deg": head.bounce_deg, "stock_lie_deg": head.lie_deg,
            "target_loft_deg": head.stamped_loft_deg - 1,
            "target_lie_deg": Decimal(63), "target_length_mm": Decimal("895.35"),
            "target_swing_weight_points": Decimal(4), "shaft": self.shaft, "grip": self.grip,
            "grip_extra_wraps": 2, "ferrule": "black", "stamping": "I B",
        } | changes  # fmt: skip
        return SpecClub.objects.create(spec=spec, **values)

    def ordered(self) -> BuildOrder:
        return order_create(spec=self.spec, by=self.fitter, at=AT)

    def released(self) -> BuildOrder:
        return order_release(order=self.ordered(), by=self.fitter, at=AT)

    def club(self, order: BuildOrder, slot: int = 1) -> OrderClub:
        return OrderClub.objects.get(revision__order=order, revision__is_current=True, slot=slot)

    def gauge(self, measure: str = "loft", repeatability: str = "0.2", method: str = "") -> Gauge:
        return Gauge.objects.create(
            name=f"Bench {measure}{method and ', '}{method}", measure=measure,
            location=self.location, repeatability=Decimal(repeatability), length_method=method,
        )  # fmt: skip

    def read(self, club, stage, measure, value, at=MIXED, **more):
        return reading_record(
            club=club, stage=stage, measure=measure, value=Decimal(value), by=self.builder, at=at,
            **more,
        )  # fmt: skip

    def resin(self, name="Harrow Slow", **figures) -> Resin:
        """A slow resin: 24 hours from 20 degrees, 6 at least by its sheet."""
        values = {
            "name": name, "speed": "slow", "hours": Decimal(24), "least_hours": Decimal(6),
            "full_speed_c": Decimal(20), "double_at_c": Decimal(15), "least_c": Decimal(10),
        } | figures  # fmt: skip
        known = Resin.objects.filter(name=name).first()
        return known or resin_enter(values=values, by=self.builder, at=AT)

    def tin(self, **values):
        """What is typed of an epoxy beside its temperature."""
        return {"resin": self.resin(), "batch": "H 117", "expires_on": date(2028, 6, 30)} | values

    def step(self, club, step, at=MIXED, by=None, **values):
        if step == "epoxy":
            values = self.tin(**values)
        return step_finish(club=club, step=step, values=values, by=by or self.builder, at=at)

    def glued(
        self, club, loft="56", lie="64", mass="304", temperature="21", at=MIXED, **epoxy
    ) -> None:
        """Everything up to the epoxy, and the glue."""
        self.ready_for("epoxy", club, loft=loft, lie=lie, mass=mass, at=at)
        self.step(club, "epoxy", at=at, temperature_c=Decimal(temperature), **epoxy)

    def ready_for(self, stop, club, loft="56", lie="64", mass="304", at=MIXED) -> None:
        """Everything that comes before the step."""
        self.step(club, "picked", at=at, hand=club.hand)
        self.read(club, "as_received", "loft", loft, at=at)
        self.read(club, "as_received", "lie", lie, at=at)
        self.read(club, "as_received", "head_mass", mass, at=at)
        club.refresh_from_db()
        if abs(Decimal(mass) - club.head_mass_g) > 3:
            concession_sign(
                club=club, stage="as_received", measure="head_mass", reason="the last one",
                by=self.fitter, at=at,
            )  # fmt: skip
        work = work_of(club, settings_of(club.revision).values)
        for step in work.steps[1 : work.steps.index(stop)]:
            if step == "read_bent":
                self.read(club, "bent", "loft", str(club.target_loft_deg), at=at)
                self.read(club, "bent", "lie", str(club.target_lie_deg), at=at)
            more = {}
            if step == "dry_weight":
                more = {"added_g": Decimal(self.read_dry(club, at))}
            self.step(club, step, at=at, **more)

    def read_dry(self, club, at=MIXED) -> str:
        """Its target less a point: half a point with the epoxy. The grams that bring it in."""
        if club.target_swing_weight_points is None:
            return "0"
        self.read(club, "dry", "swing_weight", club.target_swing_weight_points - 1, at=at)
        return "0"

    def measured(self, club, loft="55", lie="63", length="895.35", points="4") -> None:
        """From the cured club to the bag."""
        self.step(club, "cured", at=CURED)
        if "bent_built" in work_of(club, settings_of(club.revision).values).steps:
            self.step(club, "bent_built", at=CURED)
        self.step(club, "gripped", at=CURED)
        self.read(club, "as_built", "loft", loft, at=CURED)
        self.read(club, "as_built", "lie", lie, at=CURED)
        self.read(club, "as_built", "length", length, at=CURED)
        self.read(club, "as_built", "swing_weight", points, at=CURED)
        for step in ("measured", "cleaned"):
            self.step(club, step, at=CURED)

    def built(self, **figures) -> BuildOrder:
        """An order of one club, built and waiting for its check."""
        order = self.released()
        self.glued(self.club(order))
        self.measured(self.club(order), **figures)
        order.refresh_from_db()
        return order

    def passed(self, **figures) -> BuildOrder:
        order = self.built(**figures)
        check_sign(order=order, result="passed", by=self.second, at=CURED)
        return order


__all__ = ["AT", "CURED", "MIXED", "Workshop", "a_grip", "a_head", "a_shaft"]
