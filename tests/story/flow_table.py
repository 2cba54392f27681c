"""The flow table of the README as data, and what of it the story leaves to other tests."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
HEAD = "| stage | door | service | pure code | writes | audited as |"


@dataclass(frozen=True)
class Row:
    stage: str
    door: str
    service: str
    pure: tuple[str, ...]
    writes: frozenset[str]
    action: str


def flow_table() -> list[Row]:
    lines = (ROOT / "README.md").read_text().splitlines()
    rows = []
    for line in lines[lines.index(HEAD) + 2 :]:
        if not line.startswith("|"):
            break
        stage, door, service, pure, writes, action = (
            cell.strip() for cell in line.strip("|").split("|")
        )
        rows.append(
            Row(
                stage,
                door.strip("`"),
                service.strip("`"),
                tuple(re.findall(r"`([\w.]+)`", pure)),
                frozenset(re.findall(r"\w+", writes)),
                action.strip("`"),
            )
        )
    return rows


# What every row writes beside its own, as the sentences below the table say.
WRITTEN_WITH_EVERY_ROW = frozenset({"AuditEntry", "Command"})
# No service of golf: signing in writes when it was, the loop its beat and the rendered PDFs.
WRITTEN_BY_THE_HOUSE = frozenset({"Staff", "Heartbeat", "MessageAttachment"})

# Action: why the story does not walk it, and the test that covers its service.
NOT_WALKED: dict[str, tuple[str, str]] = {
    "fitting.player.changed": (
        "nothing about this player has to be put right",
        "tests/services/test_players.py::"
        "test_a_change_is_audited_before_and_after_and_found_by_the_new_name",
    ),
    "fitting.shot.mended": (
        "every ball is said right at once",
        "tests/api/test_taking_back.py::test_a_mended_ball_keeps_every_figure_it_had",
    ),
    "fitting.shot.counted_again": (
        "no ball is left out by mistake",
        "tests/api/test_taking_back.py::test_a_misread_that_is_taken_back_leaves_its_ball",
    ),
    "fitting.rating.taken_back": (
        "the player stands by what was said",
        "tests/api/test_taking_back.py::test_the_rating_before_counts_again",
    ),
    "fitting.trial.taken_back": (
        "every club that is handed over is hit",
        "tests/api/test_taking_back.py::test_the_club_before_is_in_the_hand_again",
    ),
    "fitting.player.merged": (
        "there is one record of this player; a fitter merges nobody",
        "tests/services/test_players.py::test_merging_moves_everything_and_overwrites_nothing",
    ),
    "fitting.consent.withdrawn": (
        "she agrees to the end, or no letter would leave",
        "tests/services/test_players.py::"
        "test_no_letter_without_consent_and_none_after_it_is_taken_back",
    ),
    "fitting.suggestion.overruled": (
        "the fitter begins where the interview says",
        "tests/web/test_first_clubs.py::"
        "test_a_suggestion_is_overruled_with_a_reason_and_stays_in_sight",
    ),
    "fitting.figures.answered": (
        "her blocks say themselves that their figures are as flown",
        "tests/web/test_plan_home.py::"
        "test_the_answer_can_be_given_afterwards_and_the_last_one_counts",
    ),
    "fitting.visit.moved": (
        "she comes at the hour that was booked",
        "tests/services/test_visits.py::test_a_visit_is_moved_within_its_own_hour",
    ),
    "fitting.visit.cancelled": (
        "a cancelled visit is fitted no more",
        "tests/services/test_visits.py::test_a_cancelled_visit_stays_cancelled",
    ),
    "fitting.visit.no_show": (
        "she comes",
        "tests/services/test_visits.py::"
        "test_a_no_show_is_said_only_after_the_time_and_may_come_after_all",
    ),
    "fitting.club.returned": (
        "her visit is closed once",
        "tests/services/test_leaving.py::"
        "test_a_reopened_visit_puts_back_what_left_with_its_close_and_nothing_else",
    ),
    "fitting.shot_file.undone": (
        "the file was the right one",
        "tests/services/test_shot_files.py::"
        "test_an_undone_import_counts_in_nothing_and_may_be_taken_over_again",
    ),
    "fitting.equipment.checked": (
        "the withdrawn head is looked at another day",
        "tests/services/test_equipment.py::"
        "test_a_check_keeps_what_it_does_not_name_and_may_put_back_into_use",
    ),
    **{
        f"fitting.{kind}.entered": (
            "parts and equipment are in the shop before the player comes",
            "tests/services/test_catalogue.py::test_every_kind_leaves_its_own_trace",
        )
        for kind in ("head", "shaft", "grip", "trial_head", "trial_shaft", "adapter", "device")
    },
    "orders.order.due_moved": (
        "the story's order keeps its day",
        "tests/services/test_due_days.py::test_a_day_moves_with_its_reason_and_the_desk_calls",
    ),
    "orders.order.called": (
        "the story's order keeps its day",
        "tests/services/test_due_days.py::test_a_day_moves_with_its_reason_and_the_desk_calls",
    ),
    "orders.resin.entered": (
        "the demo's resins are there; the story glues with one of them",
        "tests/services/test_cure.py::test_the_bench_and_the_manager_enter_resins_and_nobody_else",
    ),
    "orders.resin.changed": (
        "no sheet changes in the story",
        "tests/services/test_cure.py::"
        "test_a_resin_that_is_changed_later_moves_no_cure_that_goes_on",
    ),
    "orders.cure.read": (
        "the story's cure is over when it is looked at",
        "tests/services/test_cure.py::"
        "test_a_colder_reading_during_the_cure_lengthens_it_and_a_warmer_one_does_nothing",
    ),
    "orders.cure.corrected": (
        "nothing is mistyped in the story",
        "tests/services/test_cure.py::"
        "test_a_mistyped_temperature_is_put_right_while_the_cure_lasts_and_the_old_one_kept",
    ),
    "orders.gauge.entered": (
        "gauges are at the bench before the order comes",
        "tests/services/test_catalogue.py::test_a_gauge_is_entered_with_its_repeatability",
    ),
    "orders.gauge.checked": (
        "no gauge is found off in the story",
        "tests/web/test_recalls.py::"
        "test_a_gauge_found_off_lists_the_clubs_read_since_its_last_good_check",
    ),
    "orders.gauge.changed": (
        "no gauge is put away in the story",
        "tests/web/test_gauges.py::test_a_gauge_is_put_right_and_away_and_old_readings_stay",
    ),
    "orders.order.revised": (
        "nothing changes after the order",
        "tests/services/test_build_orders.py::"
        "test_a_revision_says_what_changed_and_keeps_the_number",
    ),
    "orders.order.cancelled": (
        "a cancelled order is not built",
        "tests/services/test_build_orders.py::test_cancelling_wants_a_reason",
    ),
    "orders.order.waiting": (
        "every part is on its shelf",
        "tests/services/test_parts_wait.py::test_an_order_waits_and_says_for_what_and_until_when",
    ),
    "orders.order.parts_arrived": (
        "every part is on its shelf",
        "tests/services/test_parts_wait.py::test_what_came_sends_it_back_to_where_it_was",
    ),
    "orders.rounds.reported": (
        "the story ends with the hand-over",
        "tests/services/test_rounds.py::test_rounds_are_written_down_with_who_and_when",
    ),
    "orders.reading.struck_out": (
        "nothing is mistyped at the bench",
        "tests/services/test_bench.py::test_a_mistyped_reading_is_struck_out_and_stays_to_be_seen",
    ),
    "orders.concession.signed": (
        "every figure is within its tolerance",
        "tests/services/test_bench.py::"
        "test_a_figure_out_of_tolerance_stops_the_check_until_it_is_accepted",
    ),
    "orders.set_concession.signed": (
        "it is a set of one club",
        "tests/services/test_neighbours.py::"
        "test_a_step_that_is_off_stops_the_check_until_it_is_accepted",
    ),
    "orders.concession.worded": (
        "every figure is within its tolerance",
        "tests/services/test_bench.py::"
        "test_what_the_player_reads_is_worded_until_the_hand_over_and_not_after",
    ),
    "orders.order.told": (
        "the letter tells her; nobody has to telephone",
        "tests/services/test_tellings.py::test_a_call_counts_only_when_the_player_was_reached",
    ),
    "orders.order.letter_sent": (
        "the letter goes out with the clubs' place on the shelf",
        "tests/services/test_tellings.py::test_a_letter_goes_out_all_the_same_if_somebody_chooses_to",
    ),
    "orders.order.tell_by_chosen": (
        "she is told by letter, as usual",
        "tests/services/test_tellings.py::test_a_letter_that_waits_is_stopped_when_a_call_is_chosen",
    ),
    "orders.reminder.queued": (
        "the grooves are new: the check falls due a year later",
        "tests/services/test_reminders.py::test_asked_every_hour_it_is_queued_once",
    ),
}


def walked() -> list[Row]:
    return [row for row in flow_table() if row.action not in NOT_WALKED]
