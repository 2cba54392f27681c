// Clubs side by side under neutral numbers, in a drawn order, rated before anybody is told.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { shown } from "../figures.js";
import { Chips, Icon, Rating, SeveralChips } from "../parts.js";
import { Sent } from "../frame.js";
import { Peek } from "./club_in_hand.js";
import { severalApart } from "./held.js";
import { feltIn, ratedIn } from "./rated.js";
import { ShotEntry } from "./shot_entry.js";
import { feltWords, shotsIn, useSituation } from "./situation.js";
import { BallsFoot } from "./trials.js";

/** @typedef {import("../app.js").StepProps} StepProps */
/** @typedef {import("../types.js").Arm} Arm */
/** @typedef {import("../types.js").Comparison} Comparison */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Choice} Choice */

/** @type {[string, string, string, string][]} */
const ABOUT = [["feel", "Feel", "poor", "best"], ["turf", "Through the turf", "digs in", "glides"], ["trust", "Trust in it", "none", "full"]];
const HIDING = /** @type {Record<string, string>} */ ({ blind: "Blind: sole and stamp are covered, the rest is alike", hidden_order: "Hidden order, not blind", open: "Open: everybody sees which is which" });
/** @type {Choice[]} */
const KINDS = [["all_against_all", "All against all"], ["head_to_head", "Head to head"]];
const KIND_HELP = /** @type {Record<string, string>} */ ({
  all_against_all: "Each of them in turn, in an order not used yet.",
  head_to_head: "Two of them meet: every pair before one meets again.",
});

/** Heads' names as this tablet knew them before they were hidden. @type {Map<string, string>} */
const knownNames = new Map();

/** @param {StepProps} props */
export function Compare({ store, view, go }) {
  for (const trial of view.trials) if (trial.code === null && !trial.hidden) knownNames.set(trial.id, nameOf(trial));
  const running = view.comparisons.find((one) => one.state === "waiting" || one.state === "drawn" || one.state === "running") ?? null;
  if (running?.state === "waiting") return html`<${Waiting} store=${store} />`;
  if (running) return html`<${Running} key=${running.id} store=${store} view=${view} comparison=${running} />`;
  return html`<${Draw} store=${store} view=${view} go=${go} />`;
}

/** Two soles of one model are told apart by mark and bounce. @param {Trial} trial */
function nameOf(trial) {
  const bounce = trial.bounce_words && `bounce ${trial.bounce_words}`;
  return [[trial.mark, trial.head_name].filter(Boolean).join(" "), trial.loft_words, bounce].filter(Boolean).join(", ");
}

/** "Hidden order, not blind: finish differs". @param {Comparison} comparison */
function hidingWords(comparison) {
  return [HIDING[comparison.hiding] ?? HIDING.hidden_order, comparison.spoiled].filter(Boolean).join(": ");
}

/** @param {{store: StepProps["store"]}} props */
function Waiting({ store }) {
  return html`<main class="capture-main is-single" id="main"><div class="empty" role="status"><h1>The order is being drawn</h1>
    <p>The shop draws it, so that nobody here knows it. Without a signal it waits; the balls can go on in Trials.</p></div></main>
    <footer class="capture-foot"><${Sent} store=${store} /></footer>`;
}

/** @param {StepProps} props */
function Draw({ store, view, go }) {
  const [trials, setTrials] = useState(/** @type {string[]} */ ([]));
  const [covered, setCovered] = useState(false);
  const [kind, setKind] = useState("all_against_all");
  const [knows, setKnows] = useState("");
  const choices = view.trials.filter((trial) => trial.purpose !== "baseline" && trial.code === null && !trial.hidden)
    .map((trial) => /** @type {Choice} */ ([trial.id, `Club ${trial.number}: ${nameOf(trial)}`]));
  const revealed = [...view.comparisons].reverse().filter((one) => one.state === "revealed");
  const before = revealed[0]?.chosen ?? [];
  const isSame = before.length === trials.length && before.every((id) => trials.includes(id));
  const mayRepeat = before.length >= 2 && !isSame && before.every((id) => choices.some(([known]) => known === id));
  const slots = new Set(view.trials.filter((trial) => trials.includes(trial.id)).map((trial) => trial.slot));
  const slot = slots.size === 1 ? [...slots][0] ?? null : null;
  const several = severalApart(view.trials.filter((trial) => trials.includes(trial.id)), view.apart_from_deg);
  // Known of these very clubs: with another club it is asked again.
  const isKnown = several.length === 0 || knows === trials.join();
  const open = () => store.record("comparison.open", {
    id: newId(), slot: slot === null ? "" : String(slot), trial_ids: trials, covered, kind, knowingly: several.length > 0 && isKnown,
  });
  const canDraw = trials.length >= 2 && isKnown && view.me.may_capture && view.visit.state === "open";
  return html`<main class="capture-main is-single" id="main">
    ${revealed.map((one) => html`<${Revealed} key=${one.id} view=${view} comparison=${one} />`)}
    <section class="panel flow"><h1>Which clubs, side by side?</h1>
      <p class="soft">Clubs that differ in one thing. They are handed over in a drawn order under numbers that say nothing, and rated before the reveal; the first one comes once more at the end.</p>
      ${mayRepeat && html`<button type="button" class="button same-again" onClick=${() => setTrials(before)}>The same clubs again</button>`}
      ${choices.length >= 2 ? html`<${SeveralChips} label="Clubs to compare" choices=${choices} values=${trials} onPick=${setTrials} />`
        : html`<div class="empty"><h2>Two clubs are needed</h2><p>Hit a few balls with each in Trials first.</p><button type="button" class="button" onClick=${() => go("trials")}>To Trials</button></div>`}
      <div class="draw-kind"><${Chips} label="How they meet" choices=${KINDS} value=${kind} onPick=${setKind} /><p class="soft">${KIND_HELP[kind]}</p></div>
      <label class="tick"><input type="checkbox" checked=${covered} onChange=${(/** @type {{currentTarget: HTMLInputElement}} */ event) => setCovered(event.currentTarget.checked)} />
        <span>Sole and stamp are covered</span></label>
      ${!covered && html`<p class="soft">Uncovered it is a hidden order, not a blind comparison.</p>`}
      ${several.length > 0 && html`<${SeveralDiffer} several=${several} isKnown=${isKnown} onKnow=${(/** @type {boolean} */ yes) => setKnows(yes ? trials.join() : "")} />`}
      <div class="hand-over"><button type="button" class="button go main" disabled=${!canDraw} onClick=${open}>Draw the order</button>
        ${trials.length === 1 && html`<span class="soft">Choose one more.</span>`}</div></section>
  </main>
  <footer class="capture-foot"><p class="tally">${trials.length} chosen</p><${Sent} store=${store} /></footer>`;
}

/** @param {{several: ReturnType<typeof severalApart>, isKnown: boolean, onKnow: (yes: boolean) => void}} props */
function SeveralDiffer({ several, isKnown, onKnow }) {
  return html`<div class="several-differ" role="group" aria-label="Clubs that differ in several things">
    <h2>More than one thing differs</h2>
    <ul>${several.map(({ one, other, each }) => html`<li key=${`${one.id}${other.id}`}><b>Clubs ${one.number} and ${other.number}</b>: ${each.join("; ")}</li>`)}</ul>
    <label class="tick"><input type="checkbox" checked=${isKnown} onChange=${(/** @type {{currentTarget: HTMLInputElement}} */ event) => onKnow(event.currentTarget.checked)} />
      <span>Draw them all the same: no difference can be put down to one thing</span></label></div>`;
}

/** @param {{store: StepProps["store"], view: VisitState, comparison: Comparison}} props */
function Running({ store, view, comparison }) {
  const [turn, setTurn] = useState(0);
  const [amending, setAmending] = useState(/** @type {string | null} */ (null));
  const [situation, setSituation] = useSituation(store, view);
  const code = comparison.order[turn] ?? comparison.order[0] ?? 0;
  const arm = comparison.arms.find((one) => one.code === code);
  const trial = view.trials.find((one) => one.code === code || (arm?.trial_id && one.id === arm.trial_id)) ?? null;
  const rate = (/** @type {string} */ about, /** @type {number} */ score) => store.record("comparison.rate", {
    id: newId(), comparison_id: comparison.id, code: String(code), about, score: String(score), turn: String(turn), ...feltIn(situation),
  });
  const shots = trial ? shotsIn(trial, situation) : [];
  const isLast = turn >= comparison.order.length - 1;
  const behind = store.shown.get(`${comparison.id} ${code}`) || arm?.head_name || (trial && knownNames.get(trial.id)) || "Look at its mark";
  return html`<main class="capture-main is-trials is-comparing" id="main"><h1 class="unseen">Compare</h1>
    <section class="panel in-hand" aria-label="Club in hand">
      <p class="slot-line">${hidingWords(comparison)}</p>
      ${comparison.balance && html`<p class="soft">${comparison.balance}</p>`}
      <p class="neutral" aria-live="polite">${code}</p>
      <ol class="drawn" aria-label="The drawn order">${comparison.order.map((one, index) => html`<li key=${index}><button type="button" class="chip" aria-current=${index === turn ? "step" : undefined}
        onClick=${() => setTurn(index)}>${one}${index === comparison.order.length - 1 && index > 0 ? html`<small>again</small>` : ""}</button></li>`)}</ol>
      <${Peek} key=${code} name=${behind} onPeek=${() => store.record("comparison.peek", { id: newId(), comparison_id: comparison.id, code: String(code) })} />
      <div class="hand-base"><div class="hand-buttons is-one">${isLast
        ? html`<button type="button" class="button go" onClick=${() => store.record("comparison.reveal", { comparison_id: comparison.id })}>Reveal them all</button>`
        : html`<button type="button" class="button go" onClick=${() => setTurn(turn + 1)}>Next: ${comparison.order[turn + 1]}</button>`}</div></div>
    </section>
    <p class="hand-line"><b>${code}</b> in hand, ${isLast ? "for the last time" : `then ${comparison.order[turn + 1]}`}</p>
    ${trial ? html`<${ShotEntry} store=${store} view=${view} trial=${trial} situation=${situation} onSituation=${setSituation} kind="trials"
        amending=${shots.find((shot) => shot.id === amending) ?? null} onAmended=${() => setAmending(null)} />`
      : html`<section class="panel entry"><p class="soft">Balls can be recorded when the shop has sent the clubs of this order.</p></section>`}
    <section class="panel says ratings" aria-label=${`What the player says of ${code}`}><h2>${code}${turn > 0 && isLast ? " again" : ""}: what do you say?</h2>
      <p class="soft">${feltWords(view, situation)}</p>
      ${ABOUT.map(([about, label, low, high]) => html`<${Rating} key=${`${turn}${about}`} label=${label} low=${low} high=${high} value=${ratedIn(arm?.rated, about, situation, turn)} onPick=${(/** @type {number} */ score) => rate(about, score)} />`)}
    </section>
  </main>
  <${BallsFoot} store=${store} view=${view} shots=${shots} onShot=${setAmending} hasClub=${trial !== null} />`;
}

/** @param {{view: VisitState, comparison: Comparison}} props */
function Revealed({ view, comparison }) {
  const unit = view.player.unit;
  return html`<section class="panel revealed" aria-label="Revealed"><h2>Revealed</h2>
    <p class="soft"><${Icon} name="note" /> ${[hidingWords(comparison), comparison.balance].filter(Boolean).join(". ")}</p>
    ${comparison.held && html`<p class="soft">${comparison.held}</p>`}
    <table class="table-stack"><thead><tr><th scope="col">Hit</th><th scope="col" class="num">Carry (${unit})</th>
      <th scope="col">Strikes</th><th scope="col">Turf</th>${ABOUT.map(([about, label]) => html`<th scope="col" class="num" key=${about}>${label}</th>`)}</tr></thead>
    ${comparison.arms.map((arm) => html`<tbody key=${arm.code}>
      <tr class="behind"><th scope="rowgroup" colspan=${4 + ABOUT.length}><${Club} arm=${arm} /></th></tr>
      ${rowsOf(arm).map((row, index) => html`<tr key=${index}>
        <td data-label="Hit">${row.situation || "not noted"}</td>
        <td class="num" data-label=${`Carry (${unit})`}>${carryOf(row)}</td>
        <td data-label="Strikes">${row.strikes || "none noted"}</td>
        <td data-label="Turf">${row.turf || "not said"}</td>
        ${ABOUT.map(([about, label]) => html`<td class="num" key=${about} data-label=${label}>${scoreOf(row, about)}</td>`)}</tr>`)}</tbody>`)}</table></section>`;
}

/** @type {import("../types.js").RevealRow} */
const NOTHING = { situation: "", balls: 0, in_mean: 0, carry: null, spread: null, strikes: "", turf: "", ratings: {} };

/** @param {Arm} arm */
function rowsOf(arm) {
  return arm.rows?.length ? arm.rows : [NOTHING];
}

/** The whole club, so that two soles of one model are told apart. @param {{arm: Arm}} props */
function Club({ arm }) {
  const figures = [arm.hand && `${arm.hand} hand`, arm.loft_words && `loft ${arm.loft_words}`, arm.bounce_words && `bounce ${arm.bounce_words}`].filter(Boolean);
  const named = [arm.mark, arm.head_name].filter(Boolean).join(" ");
  const sole = arm.sole_words && `Sole ${arm.sole_words.replace(/^sole /, "")}`;
  return html`<div><b class="behind-number">${arm.code}</b> <b>${named}</b>, club ${arm.number}, ${figures.join(", ")}
    <small>${[arm.stamped_words, sole].filter(Boolean).join(". ")}</small></div>`;
}

/** "84, spread 3, 6 balls". @param {import("../types.js").RevealRow} row */
function carryOf(row) {
  if (row.carry === null) return row.balls ? `no figure, ${ballsOf(row.balls)}` : "none hit";
  const of = row.in_mean === row.balls ? ballsOf(row.balls) : `${row.in_mean} of ${ballsOf(row.balls)}`;
  return [shown(row.carry), row.spread === null ? "" : `spread ${shown(row.spread)}`, of].filter(Boolean).join(", ");
}

/** @param {number} count */
function ballsOf(count) {
  return count === 1 ? "1 ball" : `${count} balls`;
}

/** "4", "4, again 3". @param {import("../types.js").RevealRow} row @param {string} about */
function scoreOf(row, about) {
  const { first, again } = row.ratings[about] ?? {};
  return [first ?? "", again === undefined ? "" : `again ${again}`].filter((words) => words !== "").join(", ") || "not asked";
}
