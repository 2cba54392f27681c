// Clubs side by side under neutral numbers, in a drawn order, rated before anybody is told.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { Chips, Icon, Rating, SeveralChips } from "../parts.js";
import { Sent } from "../frame.js";
import { Peek } from "./club_in_hand.js";
import { ShotEntry } from "./shot_entry.js";
import { shotsIn } from "./situation.js";
import { BallsFoot, useSituation } from "./trials.js";

/** @typedef {import("../app.js").StepProps} StepProps */
/** @typedef {import("../types.js").Comparison} Comparison */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Choice} Choice */

/** @type {[string, string, string, string][]} */
const ABOUT = [["feel", "Feel", "poor", "best"], ["turf", "Through the turf", "digs in", "glides"], ["trust", "Trust in it", "none", "full"]];
const HIDING = /** @type {Record<string, string>} */ ({ blind: "Blind: sole and stamp are covered, the rest is alike", hidden_order: "Hidden order", open: "Open: everybody sees which is which" });
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

/** @param {Trial} trial */
function nameOf(trial) {
  return [trial.head_name, trial.loft_words].filter(Boolean).join(", ");
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
  const choices = view.trials.filter((trial) => trial.purpose !== "baseline" && trial.code === null && !trial.hidden)
    .map((trial) => /** @type {Choice} */ ([trial.id, `Club ${trial.number}: ${nameOf(trial)}`]));
  const revealed = [...view.comparisons].reverse().filter((one) => one.state === "revealed");
  const before = revealed[0]?.chosen ?? [];
  const isSame = before.length === trials.length && before.every((id) => trials.includes(id));
  const mayRepeat = before.length >= 2 && !isSame && before.every((id) => choices.some(([known]) => known === id));
  const slots = new Set(view.trials.filter((trial) => trials.includes(trial.id)).map((trial) => trial.slot));
  const slot = slots.size === 1 ? [...slots][0] ?? null : null;
  const open = () => store.record("comparison.open", { id: newId(), slot: slot === null ? "" : String(slot), trial_ids: trials, covered, kind });
  const canDraw = trials.length >= 2 && view.me.may_capture && view.visit.state === "open";
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
      <div class="hand-over"><button type="button" class="button go main" disabled=${!canDraw} onClick=${open}>Draw the order</button>
        ${trials.length === 1 && html`<span class="soft">Choose one more.</span>`}</div></section>
  </main>
  <footer class="capture-foot"><p class="tally">${trials.length} chosen</p><${Sent} store=${store} /></footer>`;
}

/** @param {{store: StepProps["store"], view: VisitState, comparison: Comparison}} props */
function Running({ store, view, comparison }) {
  const [turn, setTurn] = useState(0);
  const [amending, setAmending] = useState(/** @type {string | null} */ (null));
  const [situation, setSituation] = useSituation(view);
  const code = comparison.order[turn] ?? comparison.order[0] ?? 0;
  const arm = comparison.arms.find((one) => one.code === code);
  const trial = view.trials.find((one) => one.code === code || (arm?.trial_id && one.id === arm.trial_id)) ?? null;
  const rate = (/** @type {string} */ about, /** @type {number} */ score) => store.record("comparison.rate", {
    id: newId(), comparison_id: comparison.id, code: String(code), about, score: String(score),
  });
  const shots = trial ? shotsIn(trial, situation) : [];
  const isLast = turn >= comparison.order.length - 1;
  const behind = store.shown.get(`${comparison.id} ${code}`) || arm?.head_name || (trial && knownNames.get(trial.id)) || "Look at its mark";
  return html`<main class="capture-main is-trials is-comparing" id="main"><h1 class="unseen">Compare</h1>
    <section class="panel in-hand" aria-label="Club in hand">
      <p class="slot-line">${HIDING[comparison.hiding] ?? "Hidden order"}</p>
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
    <section class="panel says ratings" aria-label=${`What the player says of ${code}`}><h2>${code}: what do you say?</h2>
      ${ABOUT.map(([about, label, low, high]) => html`<${Rating} key=${`${code}${about}`} label=${label} low=${low} high=${high} value=${arm?.ratings?.[about]} onPick=${(/** @type {number} */ score) => rate(about, score)} />`)}
    </section>
  </main>
  <${BallsFoot} store=${store} view=${view} shots=${shots} onShot=${setAmending} hasClub=${trial !== null} />`;
}

/** @param {{view: VisitState, comparison: Comparison}} props */
function Revealed({ view, comparison }) {
  return html`<section class="panel" aria-label="Revealed"><h2>Revealed</h2>
    <p class="soft"><${Icon} name="note" /> ${HIDING[comparison.hiding] ?? ""}${comparison.balance && `. ${comparison.balance}`}</p>
    <table class="table-stack"><thead><tr><th scope="col">Number</th><th scope="col">Club</th>${ABOUT.map(([about, label]) => html`<th scope="col" class="num" key=${about}>${label}</th>`)}</tr></thead>
    <tbody>${comparison.arms.map((arm) => {
      const trial = view.trials.find((one) => one.id === arm.trial_id);
      return html`<tr key=${arm.code}><th scope="row">${arm.code}</th><td data-label="Club">${arm.head_name || (trial ? `Club ${trial.number}: ${nameOf(trial)}` : "")}</td>
        ${ABOUT.map(([about, label]) => html`<td class="num" key=${about} data-label=${label}>${arm.ratings?.[about] ?? "not asked"}</td>`)}</tr>`;
    })}</tbody></table></section>`;
}
