"""Who may do what in the fitting room, and in which state of the visit or spec."""

from fitshop.actor import Role
from fitshop.policy import Policy, row
from sessions.flow import SpecState, VisitState

FITTER, BUILDER, DESK, MANAGER = Role.FITTER, Role.BUILDER, Role.DESK, Role.MANAGER


class FittingAction:
    """The fitting room's actions. Values are never reused."""

    PLAYERS_VIEW = "fitting.players.view"
    PLAYER_REGISTER = "fitting.player.register"
    PLAYER_MERGE = "fitting.player.merge"
    CONSENT_RECORD = "fitting.consent.record"
    VISIT_VIEW = "fitting.visit.view"
    VISIT_BOOK = "fitting.visit.book"
    VISIT_MOVE = "fitting.visit.move"
    VISIT_OPEN = "fitting.visit.open"
    VISIT_CLOSE = "fitting.visit.close"
    CAPTURE = "fitting.visit.capture"
    CATALOGUE_ENTER = "fitting.catalogue.enter"
    EQUIPMENT_VIEW = "fitting.equipment.view"
    EQUIPMENT_WITHDRAW = "fitting.equipment.withdraw"
    EQUIPMENT_CHECK = "fitting.equipment.check"
    SHOT_FILE_IMPORT = "fitting.shot_file.import"
    PLAN_CHOOSE = "fitting.plan.choose"
    COMPARE = "fitting.comparison.run"
    DECIDE = "fitting.decision.record"
    SPEC_VIEW = "fitting.spec.view"
    SPEC_DRAFT = "fitting.spec.draft"
    SPEC_SIGN = "fitting.spec.sign"
    SUMMARY_QUEUE = "fitting.summary.queue"
    RULE_BOOK_VIEW = "fitting.rule_book.view"


NOT_OPEN = "The visit is not open. Open it first; what you typed is kept."
NOT_DRAFT = "This spec is signed or replaced. Draft a new version to change it."

FITTING_POLICY = Policy.of(
    row(FittingAction.PLAYERS_VIEW, FITTER, DESK, MANAGER, doing="see players"),
    row(
        FittingAction.PLAYER_REGISTER,
        FITTER,
        DESK,
        MANAGER,
        doing="register players",
        for_system=True,
    ),
    row(FittingAction.PLAYER_MERGE, DESK, MANAGER, doing="merge players"),
    row(
        FittingAction.CONSENT_RECORD,
        FITTER,
        DESK,
        MANAGER,
        doing="record a consent",
        for_system=True,
    ),
    row(FittingAction.VISIT_VIEW, FITTER, BUILDER, DESK, MANAGER, doing="see visits"),
    row(FittingAction.VISIT_BOOK, FITTER, DESK, MANAGER, doing="book visits", for_system=True),
    row(
        FittingAction.VISIT_MOVE,
        FITTER,
        DESK,
        MANAGER,
        doing="move visits",
        states=[VisitState.BOOKED],
        states_sentence="Only a booked visit can be moved.",
    ),
    row(FittingAction.VISIT_OPEN, FITTER, MANAGER, doing="open visits", for_system=True),
    row(
        FittingAction.VISIT_CLOSE,
        FITTER,
        MANAGER,
        doing="close visits",
        states=[VisitState.OPEN],
        states_sentence=NOT_OPEN,
        for_system=True,
    ),
    row(
        FittingAction.CAPTURE,
        FITTER,
        MANAGER,
        doing="record a fitting",
        states=[VisitState.OPEN],
        states_sentence=NOT_OPEN,
        for_system=True,
    ),
    row(
        FittingAction.CATALOGUE_ENTER,
        BUILDER,
        MANAGER,
        doing="enter parts and equipment",
        for_system=True,
    ),
    row(FittingAction.EQUIPMENT_VIEW, FITTER, BUILDER, MANAGER, doing="see trial equipment"),
    row(
        FittingAction.EQUIPMENT_WITHDRAW,
        FITTER,
        BUILDER,
        MANAGER,
        doing="withdraw equipment",
        for_system=True,
    ),
    row(
        FittingAction.EQUIPMENT_CHECK,
        FITTER,
        BUILDER,
        MANAGER,
        doing="check equipment",
        for_system=True,
    ),
    row(
        FittingAction.SHOT_FILE_IMPORT,
        FITTER,
        MANAGER,
        doing="take over a file",
        states=[VisitState.OPEN],
        states_sentence=NOT_OPEN,
        for_system=True,
    ),
    row(
        FittingAction.PLAN_CHOOSE,
        FITTER,
        MANAGER,
        doing="choose a loft plan",
        states=[VisitState.OPEN],
        states_sentence=NOT_OPEN,
        for_system=True,
    ),
    row(
        FittingAction.COMPARE,
        FITTER,
        MANAGER,
        doing="run a comparison",
        states=[VisitState.OPEN],
        states_sentence=NOT_OPEN,
        for_system=True,
    ),
    row(
        FittingAction.DECIDE,
        FITTER,
        MANAGER,
        doing="record a decision",
        states=[VisitState.OPEN],
        states_sentence=NOT_OPEN,
        for_system=True,
    ),
    row(FittingAction.SPEC_VIEW, FITTER, BUILDER, DESK, MANAGER, doing="see specs"),
    row(
        FittingAction.SPEC_DRAFT,
        FITTER,
        MANAGER,
        doing="write specs",
        states=[SpecState.DRAFT, SpecState.CHECKED],
        states_sentence=NOT_DRAFT,
        for_system=True,
    ),
    row(
        FittingAction.SPEC_SIGN,
        FITTER,
        MANAGER,
        doing="sign specs",
        states=[SpecState.DRAFT, SpecState.CHECKED],
        states_sentence=NOT_DRAFT,
        for_system=True,
    ),
    row(
        FittingAction.SUMMARY_QUEUE, FITTER, DESK, MANAGER, doing="send a summary", for_system=True
    ),
    row(FittingAction.RULE_BOOK_VIEW, FITTER, BUILDER, DESK, MANAGER, doing="read the rule book"),
)
