"""What a fitter records on the tablet, tap by tap, and what the shop has of it afterwards."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Shop

pytestmark = pytest.mark.browser


def room(page: Page, visit: dict[str, str], step: str) -> None:
    page.goto(f"/visits/{visit['visit']}/room/{step}")
    expect(page.get_by_text(visit["name"])).to_be_visible()


def all_sent(page: Page) -> None:
    expect(page.locator(".sent")).to_contain_text("All sent")


def state_of(page: Page, visit: dict[str, str]) -> dict[str, Any]:
    return page.request.get(f"/api/v1/visits/{visit['visit']}/state").json()


def own_club_in_hand(page: Page) -> None:
    page.get_by_role("button", name="Old pitching wedge").click()
    page.get_by_role("button", name="Hand it over").click()


def typed(page: Page, figure: str) -> None:
    """A carry on the pad, as for the first ball of a club."""
    keys = page.get_by_role("group", name="Carry, typed")
    for digit in figure:
        keys.get_by_role("button", name=digit, exact=True).click()
    page.get_by_role("button", name=f"Record {figure}").click()
    # A person takes longer than a double tap does.
    page.wait_for_timeout(400)


def tap(page: Page, carry: int) -> None:
    page.get_by_role("group", name="Carry: one tap records").get_by_role(
        "button", name=str(carry), exact=True
    ).click()


def test_an_answer_is_kept_with_who_said_it_and_the_progress_is_said(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "interview")
    expect(fitter.get_by_text(re.compile(r"^0 of \d+ answered$"))).to_be_visible()
    fitter.get_by_role("button", name="I see it").click()
    keep = fitter.get_by_role(
        "region", name="Which shots with your wedges do you like as they are?"
    )
    keep.get_by_role("button", name="Chip").click()
    keep.get_by_role("button", name="Sand").click()
    reason = fitter.get_by_role("region", name="What brings you here?")
    reason.get_by_role("button", name="Ask later").click()

    expect(fitter.get_by_text(re.compile(r"^1 of \d+ answered, 1 to ask later$"))).to_be_visible()
    all_sent(fitter)
    answers = state_of(fitter, visit)["interview"]["answers"]
    assert answers["keep"]["value"] == ["chip", "sand"]
    assert answers["keep"]["said_by"] == "fitter"
    assert answers["reason"]["ask_later"] is True


def test_ask_later_leaves_an_answer_that_stands(fitter: Page, visit: dict[str, str]) -> None:
    room(fitter, visit, "interview")
    keep = fitter.get_by_role(
        "region", name="Which shots with your wedges do you like as they are?"
    )
    keep.get_by_role("button", name="Chip").click()
    later = keep.get_by_role("button", name="Ask later")
    for is_later in (True, False):
        later.click()
        expect(later).to_have_attribute("aria-pressed", str(is_later).lower())
        expect(keep.get_by_role("button", name="Chip")).to_have_attribute("aria-pressed", "true")
        all_sent(fitter)
        kept = state_of(fitter, visit)["interview"]["answers"]["keep"]
        assert (kept["value"], kept["ask_later"]) == (["chip"], is_later)


def test_a_refused_answer_stays_beside_its_field_and_can_be_put_right(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "interview")
    fitter.get_by_role("button", name=re.compile("How much you play")).click()
    rounds = fitter.get_by_role("region", name="Rounds a year")
    rounds.get_by_role("textbox").fill("4000")
    rounds.get_by_role("textbox").blur()

    expect(rounds.get_by_role("alert")).to_contain_text("At most 500")
    expect(rounds.get_by_role("textbox")).to_have_value("4000")
    rounds.get_by_role("textbox").fill("40")
    rounds.get_by_role("textbox").blur()
    expect(rounds.get_by_role("alert")).to_have_count(0)
    all_sent(fitter)
    assert state_of(fitter, visit)["interview"]["answers"]["rounds_a_year"]["value"] == "40"


def test_a_club_of_the_bag_is_recorded_as_stamped_and_as_measured(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "bag")
    fitter.get_by_role("button", name="Add a club").click()
    fitter.get_by_label("What the player calls it").fill("Sand wedge")
    fitter.get_by_label("Loft, stamped").fill("56")
    fitter.get_by_label("Loft, measured").fill("57.5")
    fitter.get_by_label("Stock carry").fill("84")
    fitter.get_by_role("group", name="Stays in the bag").get_by_role("button", name="No").click()
    fitter.get_by_role("button", name="Record this club").click()

    expect(fitter.get_by_role("button", name=re.compile("Sand wedge.*57.5"))).to_be_visible()
    fitter.get_by_role("button", name="One Putter more").click()
    all_sent(fitter)
    bag = state_of(fitter, visit)["bag"]
    club = next(one for one in bag["clubs"] if one["label"] == "Sand wedge")
    assert float(club["stamped_loft"]) == 56
    assert float(club["entry"]["loft"]) == 57.5
    assert club["entry"]["is_kept"] is False
    assert bag["others"]["putter"]["count"] == 1


def test_a_refused_figure_of_a_club_stays_beside_its_field(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "bag")
    fitter.get_by_role("button", name="Add a club").click()
    fitter.get_by_label("What the player calls it").fill("Gap wedge")
    fitter.get_by_label("Loft, measured").fill("95")
    fitter.get_by_role("button", name="Record this club").click()

    fitter.get_by_role("button", name=re.compile("Gap wedge.*needs a look")).click()
    loft = fitter.get_by_label("Loft, measured")
    expect(loft).to_have_value("95")
    expect(loft).to_have_attribute("aria-invalid", "true")
    loft.fill("50")
    fitter.get_by_role("button", name="Record this club").click()
    expect(fitter.get_by_role("button", name=re.compile("Gap wedge.*50"))).to_be_visible()
    all_sent(fitter)
    labels = [club["label"] for club in state_of(fitter, visit)["bag"]["clubs"]]
    assert sorted(labels) == ["Gap wedge", "Old pitching wedge"]


def test_five_balls_of_the_baseline_are_five_taps_and_undo_takes_the_last_back(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "118")
    for carry in (120, 119, 117, 121):
        tap(fitter, carry)
    # 118, 120, 119, 117, 121: mean 119, standard deviation 1.58
    expect(fitter.locator(".tally")).to_contain_text("5 balls, mean 119 yd, spread 2")
    fitter.get_by_role("button", name="Undo").click()
    expect(fitter.locator(".tally")).to_contain_text("4 balls")

    all_sent(fitter)
    [trial] = state_of(fitter, visit)["trials"]
    assert trial["purpose"] == "baseline"
    shots = [shot for block in trial["blocks"] for shot in block["shots"]]
    assert [float(shot["carry"]) for shot in shots] == [118, 120, 119, 117, 121]
    assert [shot["left_out"] for shot in shots] == [None, None, None, None, "undone"]
    assert len(trial["blocks"]) == 1


def test_a_fat_ball_is_counted_and_a_misread_is_left_out(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "118")
    tap(fitter, 120)
    fitter.get_by_role("button", name="Fat", exact=True).click()
    tap(fitter, 115)
    fitter.get_by_role("button", name="Misread", exact=True).click()
    tap(fitter, 122)

    expect(fitter.locator(".tally")).to_contain_text("3 balls, mean 119 yd of 2, spread 1, 1 fat")
    all_sent(fitter)
    shots = state_of(fitter, visit)["trials"][0]["blocks"][0]["shots"]
    assert [shot["strike"] for shot in shots] == ["", "", "fat", ""]
    assert [shot["left_out"] for shot in shots] == [None, None, None, "misread"]
    assert [shot["in_mean"] for shot in shots] == [True, True, False, True]


def test_left_is_stored_to_the_left(fitter: Page, visit: dict[str, str]) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "118")
    fitter.get_by_role("button", name="Left", exact=True).click()
    fitter.get_by_role("group", name="How far left").get_by_role("button", name="4").click()
    fitter.get_by_role("button", name="Clean", exact=True).click()
    tap(fitter, 119)

    all_sent(fitter)
    shot = state_of(fitter, visit)["trials"][0]["blocks"][0]["shots"][1]
    assert float(shot["side"]) == pytest.approx(-4)
    assert shot["turf"] == "clean"


def test_a_refused_carry_stays_in_sight_and_is_put_right(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "9118")

    mend = fitter.get_by_role("form", name="A figure that was not stored")
    expect(mend.get_by_role("textbox")).to_have_value("9118")
    expect(mend.get_by_role("alert")).to_contain_text("carry", ignore_case=True)
    mend.get_by_role("textbox").fill("118")
    mend.get_by_role("button", name="Record").click()
    expect(mend).to_have_count(0)
    expect(fitter.locator(".tally")).to_contain_text("1 ball, mean 118 yd")
    all_sent(fitter)
    [shot] = state_of(fitter, visit)["trials"][0]["blocks"][0]["shots"]
    assert float(shot["carry"]) == 118


def test_without_the_server_the_record_goes_on_and_is_stored_exactly_once(
    fitter: Page, shop: Shop, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "118")
    all_sent(fitter)
    shop.end()
    try:
        for carry in (119, 117, 120):
            tap(fitter, carry)
        expect(fitter.locator(".sent")).to_contain_text("No signal, 3 kept on this tablet")
        expect(fitter.locator(".tally")).to_contain_text("4 balls")
        # Another step and back, without a server: nothing is lost on the way.
        fitter.get_by_role("link", name="Bag").click()
        fitter.get_by_role("link", name="Baseline").click()
        expect(fitter.locator(".tally")).to_contain_text("4 balls")
    finally:
        shop.start()

    fitter.locator("button.sent").click()
    all_sent(fitter)
    shots = state_of(fitter, visit)["trials"][0]["blocks"][0]["shots"]
    assert [float(shot["carry"]) for shot in shots] == [118, 119, 117, 120]
    counts = shop.seed("count", visit["visit"])
    assert (counts["shots"], counts["blocks"], counts["trials"]) == (4, 1, 1)


def test_an_answer_that_was_lost_on_the_way_back_is_not_stored_twice(
    fitter: Page, shop: Shop, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "118")
    all_sent(fitter)
    lost = []

    def stored_but_unheard(route: Any) -> None:
        """The shop stores it; the tablet never hears of it."""
        if lost:
            route.continue_()
            return
        lost.append(route.fetch().status)
        route.abort()

    fitter.route("**/commands", stored_but_unheard)
    tap(fitter, 119)
    expect(fitter.locator(".sent")).to_contain_text("1 kept on this tablet")
    fitter.locator("button.sent").click()
    all_sent(fitter)
    assert lost == [200]
    assert shop.seed("count", visit["visit"])["shots"] == 2


def test_a_tablet_whose_sign_in_ended_keeps_what_it_has(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "118")
    all_sent(fitter)
    kept = fitter.context.cookies()
    fitter.context.clear_cookies()
    tap(fitter, 119)
    expect(fitter.get_by_role("link", name="Sign in again")).to_be_visible()
    expect(fitter.locator(".sent")).to_contain_text("1 kept on this tablet")

    fitter.context.add_cookies(kept)
    fitter.get_by_role("button", name="Send").click()
    all_sent(fitter)
    shots = state_of(fitter, visit)["trials"][0]["blocks"][0]["shots"]
    assert [float(shot["carry"]) for shot in shots] == [118, 119]


def test_the_tablets_own_sum_is_the_published_one(fitter: Page, visit: dict[str, str]) -> None:
    """FIPS 180-4's examples for SHA-256: "abc" and 448 bits; for a tablet over plain http."""
    room(fitter, visit, "interview")
    sums = fitter.evaluate(
        """async () => {
          const base = document.querySelector('script[type=module]').src.replace(/[^/]*$/, '');
          const { sha256 } = await import(base + 'sha256.js');
          const bytes = (text) => new TextEncoder().encode(text);
          const long = 'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq';
          return [sha256(bytes('abc')), sha256(bytes(long))];
        }"""
    )
    assert sums == [
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ]


def trial_club_in_hand(page: Page, head: str, *changed: str) -> None:
    page.get_by_role("group", name="Head").get_by_role("button", name=re.compile(head)).click()
    for part in ("Shaft", "Adapter"):
        page.get_by_role("group", name=part, exact=True).get_by_role("button").first.click()
    for word in changed:
        page.get_by_role("group", name="What did you choose to change?").get_by_role(
            "button", name=word
        ).click()
    page.get_by_label("Head tight: checked").check()
    page.get_by_role("button", name="Hand it over").click()


def test_a_trial_club_is_handed_over_only_when_its_head_was_checked(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    fitter.get_by_role("group", name="Head").get_by_role("button", name=re.compile("Oak 5")).click()
    for part in ("Shaft", "Adapter"):
        fitter.get_by_role("group", name=part, exact=True).get_by_role("button").first.click()
    hand_over = fitter.get_by_role("button", name="Hand it over")
    expect(hand_over).to_be_disabled()
    expect(fitter.get_by_text("Check that the head is tight.")).to_be_visible()
    fitter.get_by_label("Head tight: checked").check()
    hand_over.click()

    hand = fitter.get_by_role("region", name="Club in hand")
    expect(hand).to_contain_text("Pellowick Marram")
    expect(hand).to_contain_text("Stamped 56 with 10")
    expect(hand).to_contain_text("Head tight: checked")


def test_a_comparison_hides_the_heads_until_the_reveal_and_a_peek_is_shown_while_held(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    typed(fitter, "84")
    fitter.get_by_role("button", name="Next club").click()
    trial_club_in_hand(fitter, "Elm 3", "Sole")
    typed(fitter, "86")
    fitter.get_by_role("link", name="Compare").click()
    for club in fitter.get_by_role("group", name="Clubs to compare").get_by_role("button").all():
        club.click()
    fitter.get_by_role("button", name="Draw the order").click()

    number = fitter.locator(".neutral")
    expect(number).to_have_text(re.compile(r"^[1-9]\d$"))
    feel = fitter.get_by_role("group", name="Feel")
    feel.get_by_role("button", name="4").click()
    expect(feel.get_by_role("button", name="4")).to_have_attribute("aria-pressed", "true")
    peek = fitter.get_by_role("button", name="Hold to see the head (recorded)")
    peek.hover()
    fitter.mouse.down()
    expect(fitter.locator(".peek")).to_contain_text(re.compile("Oak 5|Elm 3"))
    fitter.mouse.up()
    expect(fitter.locator("#room")).not_to_contain_text(re.compile("Marram|Curlew"))

    fitter.get_by_role("button", name=re.compile("^Next: ")).click()
    fitter.get_by_role("button", name=re.compile("^Next: ")).click()
    fitter.get_by_role("button", name="Reveal them all").click()
    revealed = fitter.get_by_role("region", name="Revealed")
    expect(revealed).to_contain_text("Pellowick Marram")
    expect(revealed).to_contain_text("Dunmarrow Curlew")


def test_several_differences_are_said_before_the_draw_and_two_soles_told_apart_after_it(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "trials")
    for number, mark in enumerate(("Oak 5", "Oak 6", "Oak 3")):
        if number:
            fitter.get_by_role("button", name="Next club").click()
        trial_club_in_hand(fitter, mark, *(["Sole"] if number else []))
        typed(fitter, "84")
    fitter.get_by_role("link", name="Compare").click()
    clubs = fitter.get_by_role("group", name="Clubs to compare")
    draw = fitter.get_by_role("button", name="Draw the order")
    several = fitter.get_by_role("group", name="Clubs that differ in several things")
    for mark in ("Oak 6", "Oak 3"):
        clubs.get_by_role("button", name=re.compile(mark)).click()
    expect(several.get_by_role("listitem")).to_have_count(1)
    expect(draw).to_be_disabled()
    several.get_by_role("checkbox").check()
    expect(draw).to_be_enabled()
    # Known of these clubs, not of others.
    clubs.get_by_role("button", name=re.compile("Oak 5")).click()
    expect(draw).to_be_disabled()
    clubs.get_by_role("button", name=re.compile("Oak 3")).click()
    expect(several).to_have_count(0)
    draw.click()

    feel = fitter.get_by_role("group", name="Feel")
    for turn, score in enumerate(("5", "3", "2")):
        if turn:
            fitter.get_by_role("button", name=re.compile("^Next: ")).click()
            # The third turn is the first club again: what was said first is not shown.
            expect(feel.get_by_role("button", pressed=True)).to_have_count(0)
        feel.get_by_role("button", name=score).click()
        expect(feel.get_by_role("button", name=score)).to_have_attribute("aria-pressed", "true")
    typed(fitter, "85")
    fitter.get_by_role("group", name="Swing").get_by_role("button", name="Half").click()
    # Another situation: nothing was said in it yet.
    expect(feel.get_by_role("button", pressed=True)).to_have_count(0)
    fitter.get_by_role("button", name="Reveal them all").click()
    behind = fitter.get_by_role("region", name="Revealed").get_by_role("rowheader")
    expect(behind).to_have_count(2)
    words = sorted(behind.all_inner_texts())
    assert ["Oak 5" in "".join(words), "Oak 6" in "".join(words)] == [True, True]
    assert {"bounce 10" in one for one in words} == {True, False}


def test_two_clubs_meet_head_to_head_both_ways_round(fitter: Page, visit: dict[str, str]) -> None:
    room(fitter, visit, "trials")
    trial_club_in_hand(fitter, "Oak 5")
    typed(fitter, "84")
    fitter.get_by_role("button", name="Next club").click()
    trial_club_in_hand(fitter, "Elm 3", "Sole")
    typed(fitter, "86")
    fitter.get_by_role("link", name="Compare").click()
    again = fitter.get_by_role("button", name="The same clubs again")
    for time in range(2):
        kinds = fitter.get_by_role("group", name="How they meet")
        expect(kinds.get_by_role("button", name="All against all")).to_have_attribute(
            "aria-pressed", "true"
        )
        kinds.get_by_role("button", name="Head to head").click()
        clubs = fitter.get_by_role("group", name="Clubs to compare").get_by_role("button")
        expect(again).to_have_count(time)
        if time:
            again.click()
            expect(again).to_have_count(0)
        else:
            for club in clubs.all():
                club.click()
        for club in clubs.all():
            expect(club).to_have_attribute("aria-pressed", "true")
        fitter.get_by_role("button", name="Draw the order").click()
        for _turn in range(2):
            fitter.get_by_role("button", name=re.compile("^Next: ")).click()
        fitter.get_by_role("button", name="Reveal them all").click()
        expect(fitter.get_by_role("button", name="Draw the order")).to_be_visible()
    revealed = fitter.get_by_role("region", name="Revealed")
    expect(revealed.first).to_contain_text("All 2 meetings used: balanced.")
    expect(revealed.last).to_contain_text("1 of 2 meetings used; balanced when all are.")


@pytest.mark.parametrize("step", ["interview", "bag", "baseline", "trials", "compare"])
def test_on_a_phone_nothing_is_cut_off_and_every_key_is_large_enough(
    fitter: Page, visit: dict[str, str], step: str
) -> None:
    fitter.set_viewport_size({"width": 390, "height": 844})
    room(fitter, visit, step)
    if step == "baseline":
        own_club_in_hand(fitter)
        typed(fitter, "118")
    assert fitter.evaluate("document.documentElement.scrollWidth") <= 390
    small = fitter.evaluate(
        """() => [...document.querySelectorAll('#room button, #room input[type=text]')]
          .filter((one) => one.checkVisibility())
          .map((one) => [one.textContent || one.id, one.getBoundingClientRect()])
          .filter(([, box]) => box.height < 47.5 || box.width < 47.5)
          .map(([name, box]) => `${name}: ${box.width} x ${box.height}`)"""
    )
    assert small == []


def test_a_shot_file_is_imported_from_the_range_into_the_block_in_the_hand(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "118")
    all_sent(fitter)
    fitter.get_by_role("link", name="Import a file").click()
    fitter.get_by_label("File from the measuring device").set_input_files(
        {"name": "range.csv", "mimeType": "text/csv", "buffer": b"Carry (yd),No\n117,1\n119,2\n"}
    )
    fitter.get_by_role("button", name="Read it").click()
    fitter.get_by_label("What Carry (yd) is").select_option("carry")
    fitter.get_by_role("button", name="Import", exact=True).click()
    expect(fitter.get_by_role("heading", name="2 shots imported")).to_be_visible()
    trial = state_of(fitter, visit)["trials"][0]
    assert [len(block["shots"]) for block in trial["blocks"]] == [3]


def test_no_clubs_name_is_broken_within_a_word_in_the_ladder(
    fitter: Page, visit: dict[str, str]
) -> None:
    room(fitter, visit, "baseline")
    own_club_in_hand(fitter)
    typed(fitter, "84")
    name = fitter.locator(".counted small").first
    expect(name).to_be_visible()
    cut = """(one) => {
        one.textContent = "Dunmarrow Curlew";
        one.style.overflowWrap = "normal";
        return one.scrollWidth > one.clientWidth;
    }"""
    assert not name.evaluate(cut)
