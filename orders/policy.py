"""Who may do what in the workshop, and in which state of the order."""

from fitshop.actor import Role
from fitshop.policy import Policy, row
from orders.flow import OrderState

FITTER, BUILDER, DESK, MANAGER = Role.FITTER, Role.BUILDER, Role.DESK, Role.MANAGER


class OrderAction:
    """The workshop's actions. Values are never reused."""

    BENCH_VIEW = "orders.bench.view"
    ORDER_VIEW = "orders.order.view"
    ORDER_CREATE = "orders.order.create"
    ORDER_RELEASE = "orders.order.release"
    ORDER_REVISE = "orders.order.revise"
    ORDER_CANCEL = "orders.order.cancel"
    ORDER_WAIT = "orders.order.wait"
    PARTS_ARRIVED = "orders.order.parts_arrived"
    TICKET_PRINT = "orders.ticket.print"
    BENCH_WORK = "orders.bench.work"
    RECALL_VIEW = "orders.recall.view"
    GAUGE_ENTER = "orders.gauge.enter"
    DUE_MOVE = "orders.order.due_move"
    CALL_DONE = "orders.order.call_done"
    RESIN_ENTER = "orders.resin.enter"
    CHECK_SIGN = "orders.check.sign"
    CONCESSION_SIGN = "orders.concession.sign"
    CONCESSION_WORDS = "orders.concession.words"
    ORDER_READY = "orders.order.ready"
    HAND_OVER = "orders.order.hand_over"
    TELL_BY = "orders.order.tell_by"
    ROUNDS_REPORT = "orders.rounds.report"
    REMINDERS_QUEUE = "orders.reminders.queue"
    REPORTS_VIEW = "orders.reports.view"


S = OrderState
BEFORE_READY = [S.DRAFT, S.RELEASED, S.WAITING_FOR_PARTS, S.IN_BUILD, S.TO_CHECK, S.REWORK]
AT_THE_BENCH = [S.RELEASED, S.WAITING_FOR_PARTS, S.IN_BUILD, S.TO_CHECK, S.REWORK]

ORDER_POLICY = Policy.of(
    row(OrderAction.BENCH_VIEW, FITTER, BUILDER, DESK, MANAGER, doing="see the bench"),
    row(OrderAction.ORDER_VIEW, FITTER, BUILDER, DESK, MANAGER, doing="see build orders"),
    row(OrderAction.ORDER_CREATE, FITTER, DESK, MANAGER, doing="order a build", for_system=True),
    row(
        OrderAction.ORDER_RELEASE,
        FITTER,
        DESK,
        MANAGER,
        doing="release an order",
        states=[S.DRAFT],
        states_sentence="Only a draft can be released.",
        for_system=True,
    ),
    row(
        OrderAction.ORDER_REVISE,
        FITTER,
        MANAGER,
        doing="revise an order",
        states=BEFORE_READY,
        states_sentence="It is too late to revise this order.",
    ),
    row(
        OrderAction.ORDER_CANCEL,
        DESK,
        MANAGER,
        doing="cancel an order",
        states=[*BEFORE_READY, S.READY],
        states_sentence="What was handed over or cancelled can't be cancelled.",
    ),
    row(
        OrderAction.ORDER_WAIT,
        BUILDER,
        DESK,
        MANAGER,
        doing="have an order wait for a part",
        states=[S.RELEASED, S.WAITING_FOR_PARTS, S.IN_BUILD, S.REWORK],
        states_sentence="Only what is being built waits for a part.",
    ),
    row(
        OrderAction.PARTS_ARRIVED,
        BUILDER,
        DESK,
        MANAGER,
        doing="say that a part has come",
        states=[S.WAITING_FOR_PARTS],
        states_sentence="This order waits for no part.",
    ),
    row(OrderAction.TICKET_PRINT, FITTER, BUILDER, DESK, MANAGER, doing="print tickets"),
    row(
        OrderAction.BENCH_WORK,
        BUILDER,
        MANAGER,
        doing="work at the bench",
        states=AT_THE_BENCH,
        states_sentence="This order is not at the bench: release it first.",
        for_system=True,
    ),
    row(OrderAction.RESIN_ENTER, BUILDER, MANAGER, doing="enter resins", for_system=True),
    row(OrderAction.RECALL_VIEW, BUILDER, DESK, MANAGER, doing="list what a recall touches"),
    row(OrderAction.GAUGE_ENTER, BUILDER, MANAGER, doing="enter gauges", for_system=True),
    row(
        OrderAction.CHECK_SIGN,
        BUILDER,
        MANAGER,
        doing="sign a check",
        states=[S.TO_CHECK],
        states_sentence="Only what is built can be checked.",
        for_system=True,
    ),
    row(
        OrderAction.CONCESSION_SIGN,
        FITTER,
        MANAGER,
        doing="accept a figure out of tolerance",
        states=AT_THE_BENCH,
        states_sentence="This order is not at the bench.",
    ),
    row(
        OrderAction.CONCESSION_WORDS,
        FITTER,
        MANAGER,
        doing="word what the player reads of an accepted figure",
        states=[*AT_THE_BENCH, S.READY],
        states_sentence="What was handed over is written down as it was sent.",
    ),
    row(
        OrderAction.ORDER_READY,
        BUILDER,
        DESK,
        MANAGER,
        doing="put an order on the shelf",
        states=[S.TO_CHECK],
        states_sentence="Only a checked order goes on the shelf.",
        for_system=True,
    ),
    row(
        OrderAction.HAND_OVER,
        DESK,
        FITTER,
        MANAGER,
        doing="hand clubs over",
        states=[S.READY],
        states_sentence="Only what is ready can be handed over.",
        for_system=True,
    ),
    row(
        OrderAction.DUE_MOVE,
        FITTER,
        BUILDER,
        DESK,
        MANAGER,
        doing="move the promised day",
        states=BEFORE_READY,
        states_sentence="It is built: its day can't be moved any more.",
    ),
    row(
        OrderAction.CALL_DONE,
        FITTER,
        DESK,
        MANAGER,
        doing="write down a call",
        states=[*BEFORE_READY, S.READY],
        states_sentence="The clubs have left: nobody has to be called.",
    ),
    row(
        OrderAction.TELL_BY,
        FITTER,
        DESK,
        MANAGER,
        doing="choose how the player is told",
        states=[*BEFORE_READY, S.READY],
        states_sentence="The clubs have left: nobody has to be told.",
    ),
    row(
        OrderAction.ROUNDS_REPORT,
        FITTER,
        DESK,
        MANAGER,
        doing="write down rounds played",
        states=[S.HANDED_OVER],
        states_sentence="Rounds are counted from the hand-over.",
    ),
    row(OrderAction.REMINDERS_QUEUE, MANAGER, doing="queue reminders", for_system=True),
    row(OrderAction.REPORTS_VIEW, MANAGER, doing="read the workshop's reports"),
)
