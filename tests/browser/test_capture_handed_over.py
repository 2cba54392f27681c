"""A hand-over with a slip in it: told before it closes, and brought back where it is refused."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, Route, expect

from sessions.maths.errors import UnitRefused
from sessions.maths.units import (
    CLUB_MASS_LIMITS_G,
    parse_lie,
    parse_loft,
    parse_mass,
    parse_swing_weight,
)
from tests.browser.test_capture import all_sent, room, state_of, trial_club_in_hand, typed

pytestmark = pytest.mark.browser

REFUSED = "The scale's figure was not understood."


def choosing(page: Page, head: str) -> Locator:
    """The next club, chosen and checked, with its readings open."""
    page.get_by_role("button", name="Next club").click()
    page.get_by_role("group", name="Head").get_by_role("button", name=re.compile(head)).click()
    page.get_by_label("Head tight: checked").check()
    page.get_by_role("button", name="It was bent, read or weighed").click()
    return page.get_by_role("region", name="Next club")


def field(page: Page, label: str) -> Locator:
    return page.locator(".next-club .field").filter(has=page.get_by_label(label))


def refuse_once(page: Page, errors: dict[str, str]) -> None:
    """The shop refuses the next hand-over: a tablet that checks less than the server does."""

    def refuse(route: Route) -> None:
        commands = json.loads(route.request.post_data or "{}")["commands"]
        assert [one["kind"] for one in commands] == ["trial.start"]
        receipts = [
            {"id": one["id"], "outcome": "refused", "status": 422, "sequence": None,
             "version": None, "sha256": one["sha256"], "errors": errors,
             "sentence": " ".join(errors.values())}
            for one in commands
        ]  # fmt: skip
        route.fulfill(json={"receipts": receipts})

    page.route("**/commands", refuse, times=1)


def test_a_slip_on_the_scale_is_told_beside_its_field_and_nothing_is_handed_over(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    next_club = choosing(fitter, "Elm 3")
    fitter.get_by_label("Swing weight, adapter and all").fill("X9")
    fitter.get_by_label("Whole club on the scale").fill("90")
    next_club.get_by_role("button", name="Hand it over").click()

    expect(field(fitter, "Swing weight").get_by_role("alert")).to_have_text(
        "Type a swing weight as a letter A to G and points, for example D2.5."
    )
    expect(field(fitter, "Whole club").get_by_role("alert")).to_have_text(
        "A mass of 90 is not believable: 250 to 650."
    )
    expect(fitter.get_by_label("Swing weight, adapter and all")).to_be_focused()
    expect(next_club).to_contain_text("Look again at the swing weight and the mass.")
    all_sent(fitter)
    assert len(state_of(fitter, visit)["trials"]) == 1

    fitter.get_by_label("Swing weight, adapter and all").fill("d2,5")
    fitter.get_by_label("Whole club on the scale").fill("461.2")
    expect(next_club.get_by_role("alert")).to_have_count(0)
    next_club.get_by_role("button", name="Hand it over").click()
    hand = fitter.get_by_role("region", name="Club in hand")
    expect(hand).to_contain_text("Dunmarrow Curlew")
    expect(hand).to_contain_text("D2.5, 461.2 g")


@pytest.mark.parametrize("size", [(1024, 768), (390, 844)])
def test_a_hand_over_that_the_server_refused_comes_back_with_all_that_was_typed(
    fitter: Page, visit: dict[str, str], size: tuple[int, int]
) -> None:
    fitter.set_viewport_size({"width": size[0], "height": size[1]})
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    typed(fitter, "84")
    all_sent(fitter)
    next_club = choosing(fitter, "Elm 3")
    fitter.get_by_role("group", name="What did you choose to change?").get_by_role(
        "button", name="Sole"
    ).click()
    fitter.get_by_label("Swing weight, adapter and all").fill("D2.5")
    refuse_once(fitter, {"swing_weight": REFUSED})
    next_club.get_by_role("button", name="Hand it over").click()

    expect(next_club).to_contain_text("Not handed over. Put right what is marked.")
    expect(next_club).to_contain_text(re.compile(r"Until then balls would count for .*Marram\."))
    expect(fitter.get_by_text(REFUSED)).to_have_count(1)
    expect(next_club.locator(".not-handed")).to_be_in_viewport()
    expect(fitter.get_by_role("group", name="Carry: one tap records")).to_have_count(0)
    weight = fitter.get_by_label("Swing weight, adapter and all")
    expect(weight).to_have_value("D2.5")
    expect(fitter.get_by_role("button", name="Sole")).to_have_attribute("aria-pressed", "true")
    # The same again would be refused again.
    next_club.get_by_role("button", name="Hand it over").click()
    expect(weight).to_be_focused()
    # In another room it is told above, once.
    fitter.evaluate("history.pushState(null, '', location.pathname.replace('trials', 'bag'))")
    fitter.evaluate("dispatchEvent(new PopStateEvent('popstate'))")
    attention = fitter.get_by_role("alert", name="Needs attention")
    expect(attention).to_contain_text("A club in the hand was not stored.")
    expect(fitter.get_by_text(REFUSED)).to_have_count(1)
    fitter.go_back()

    fitter.get_by_label("Swing weight, adapter and all").fill("D3")
    next_club.get_by_role("button", name="Hand it over").click()
    expect(fitter.get_by_text("Not handed over.")).to_have_count(0)
    all_sent(fitter)
    first, second = state_of(fitter, visit)["trials"]
    assert (first["state"], second["state"]) == ("finished", "open")
    assert (second["swing_weight_words"], second["changed"]) == ("D3", ["sole"])


def test_a_refused_hand_over_can_be_given_up_for_the_club_before(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    all_sent(fitter)
    next_club = choosing(fitter, "Elm 3")
    refuse_once(fitter, {"adapter_id": "A-1 was to be inspected. Take another."})
    next_club.get_by_role("button", name="Hand it over").click()
    expect(next_club).to_contain_text("Not handed over. A-1 was to be inspected. Take another.")
    next_club.get_by_role("button", name="Keep the club before").click()
    expect(next_club).to_have_count(0)
    expect(fitter.get_by_role("region", name="Record a ball")).to_be_visible()
    expect(fitter.get_by_role("alert")).to_have_count(0)


def test_an_own_club_is_weighed_without_an_adapter(fitter: Page, visit: dict[str, str]) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    fitter.get_by_role("button", name="Next club").click()
    fitter.get_by_role("button", name="Player's own").click()
    fitter.get_by_role("button", name="Old pitching wedge").click()
    fitter.get_by_role("button", name="It was bent, read or weighed").click()
    expect(fitter.get_by_label("Swing weight", exact=True)).to_be_visible()
    expect(fitter.get_by_text("adapter and all")).to_have_count(0)


PARSERS: dict[str, Callable[[str], Any]] = {
    "loft": parse_loft,
    "lie": parse_lie,
    "swing_weight": parse_swing_weight,
    "mass": lambda text: parse_mass(text, name="mass", limits=CLUB_MASS_LIMITS_G),
}
TYPED = (
    "54", "54.5", "54,5", ".5", "54.5 deg", "54°", "54 degrees", "14.99", "15", "75", "75.01", "76",
    "-54", "+54", "5 4", "54½", "54..5", "50", "49.9", "abc", "D2", "d2,5", "D 2.5", "D2.5.", "X9",
    "2D", "D", "D9.9", "D10", "D9.95", "A0", "G9.9", "H1", "D-1", "D2½", "249", "250", "650",
    "650.1", "461.2 g", "461 grams", "16 oz", "8 oz", "0.46 kg", "461g", "461.2.1", "−461", "1,000",
    "54 " + "0" * 40,
)  # fmt: skip


def is_read(key: str, text: str) -> bool:
    try:
        PARSERS[key](text)
    except UnitRefused:
        return False
    return True


def test_the_tablet_calls_wrong_what_the_server_does_not_read(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    wrong = fitter.evaluate(
        """async ([keys, typed]) => {
          const base = document.querySelector('script[type=module]').src.replace(/[^/]*$/, '');
          const { wrongIn } = await import(base + 'steps/readings.js');
          return keys.map((key) => typed.filter((text) => wrongIn(key, text)));
        }""",
        [list(PARSERS), list(TYPED)],
    )
    expected = [[text for text in TYPED if not is_read(key, text)] for key in PARSERS]
    assert wrong == expected


def test_before_the_hand_over_is_counted_what_the_server_counts_after_it(
    fitter: Page, visit: dict[str, str]
) -> None:
    """Each head of the shelf, as it is and bent, against a club 0.1 and 0.5 degrees off."""
    room(fitter, visit, "bag")
    fitter.get_by_role("button", name="Add a club").click()
    for label, value in (
        ("What the player calls it", "old 56"), ("Loft, stamped", "56"), ("Loft, measured", "56"),
        ("Bounce, stamped", "10"), ("Lie, measured", "64"), ("Length, in or mm", "35 1/4"),
    ):  # fmt: skip
        fitter.get_by_label(label, exact=True).fill(value)
    fitter.get_by_role("button", name="Record this club").click()
    all_sent(fitter)
    fitter.get_by_role("link", name="Trials").click()
    trial_club_in_hand(fitter, "Oak 5")
    all_sent(fitter)
    pairs = fitter.evaluate(
        """async (id) => {
          const base = document.querySelector('script[type=module]').src.replace(/[^/]*$/, '');
          const { VisitStore } = await import(base + 'state.js');
          const { beside, heldOf } = await import(base + 'steps/held.js');
          const store = new VisitStore(id);
          const pause = () => new Promise((go) => setTimeout(go, 20));
          const until = async (is) => { while (!is()) await pause(); };
          await store.load();
          const { heads, shafts, adapters } = store.view.equipment;
          const slot = store.view.trials.at(-1).slot;
          const pairs = [];
          for (const head of heads.filter((one) => one.hand === 'right' && !one.withdrawn)) {
            for (const [loft, lie] of [['', ''], ['55.9', '63.6'], ['55,5', '63.5'], ['57', '']]) {
              const chosen = { trial_head_id: head.id, trial_shaft_id: shafts[0].id, loft, lie };
              const own = store.view.played_now.find((one) => one.slot === slot);
              const before = beside(heldOf(store.view, chosen), own, store.view.apart_from_deg);
              const trial = crypto.randomUUID();
              store.record('trial.start', { id: trial, purpose: 'candidate', ...chosen,
                adapter_id: adapters[0].id, slot: slot === null ? '' : String(slot), role: '',
                swing_weight: '', mass: '', changed: [], head_tight: true });
              await until(() => store.outbox.queue.length === 0);
              await store.load();
              await until(() => store.server.trials.some((one) => one.id === trial));
              pairs.push([before, store.server.trials.at(-1).beside_now]);
            }
          }
          return pairs;
        }""",
        visit["visit"],
    )
    assert len(pairs) >= 8
    for before, after in pairs:
        assert after["unknown"] == before["unknown"]
        if before["isSeveral"]:
            assert after["found"] == f"{before['count']} things differ"
            assert after["each"] == before["each"]
        else:
            names = [one.split(" ")[0] for one in before["each"]]
            assert after["found"] == (names[0] if names else "nothing known to differ")
    counts = {before["count"] for before, _ in pairs}
    assert len(counts) > 1
