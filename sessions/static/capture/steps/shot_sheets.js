// What lies in the entry's place for a moment: more numbers, a correction, a figure that was refused.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { carryWords, figure } from "../figures.js";
import { Chips, Field, Icon } from "../parts.js";

/** @typedef {import("../state.js").VisitStore} VisitStore */
/** @typedef {import("../types.js").Shot} Shot */
/** @typedef {import("../types.js").Refusal} Refusal */
/** @typedef {import("../types.js").Choice} Choice */
/** @typedef {import("../acts.js").Said} Said */

/** @type {Choice[]} */
const STRIKES = [["clean", "Clean"], ["fat", "Fat"], ["thin", "Thin"], ["heel", "Heel"], ["toe", "Toe"]];
/** @type {Choice[]} */
const TURFS = [["digs", "Digs"], ["clean", "Clean"], ["skids", "Skids"]];
/** @type {Choice[]} */
const DIVOTS = [["deep", "Deep"], ["thin", "Thin"], ["none", "None"]];
/** @type {Choice[]} */
const FLIGHTS = [["low", "Lower than asked"], ["normal", "As asked"], ["high", "Higher than asked"]];

/** @param {string} unit @returns {[string, string, string][]} key, label, unit */
function numbers(unit) {
  const speed = unit === "m" ? "km/h" : "mph";
  return [
    ["carry", "Carry", unit], ["launch", "Launch", "degrees"], ["spin", "Spin", "rpm"], ["ball_speed", "Ball speed", speed],
    ["apex", "Apex", unit], ["landing", "Landing angle", "degrees"], ["total", "Total", unit], ["spin_axis", "Spin axis", "degrees"],
    ["club_speed", "Club speed", speed], ["attack", "Attack", "degrees"], ["lean", "Shaft lean", "degrees"],
  ];
}

/** @param {{said: Said, onSaid: (said: Said) => void, unit: string, onRecord: () => void, onClose: () => void}} props */
export function MoreSheet({ said, onSaid, unit, onRecord, onClose }) {
  const group = (/** @type {string} */ key, /** @type {string} */ name, /** @type {Choice[]} */ choices) => html`<div class="sheet-group"><h3 id=${`more-${key}`}>${name}</h3>
    <${Chips} labelledBy=${`more-${key}`} label=${name} choices=${choices} value=${said[key] ?? ""} canClear=${true} onPick=${(/** @type {string} */ word) => onSaid({ ...said, [key]: word })} /></div>`;
  return html`<form class="sheet" aria-label="More numbers of this ball" onSubmit=${(/** @type {Event} */ event) => { event.preventDefault(); onRecord(); }}>
    <div class="sheet-head"><h2>More numbers of this ball</h2><button type="button" class="button" onClick=${onClose}>Back</button></div>
    <div class="fields two">${numbers(unit).map(([key, label, of]) => html`<${Field} key=${key} id=${`more-${key}-in`} label=${label} unit=${of} isFigure=${true}
      value=${said[key] ?? ""} onType=${(/** @type {string} */ value) => onSaid({ ...said, [key]: value })} />`)}</div>
    ${group("strike", "Strike", STRIKES)} ${group("turf", "Turf", TURFS)} ${group("divot", "Divot", DIVOTS)} ${group("flight", "Flight", FLIGHTS)}
    <button type="submit" class="button go main">Record this ball</button>
  </form>`;
}

/**
 * A ball that was recorded stays as it is: a correction leaves it out as mistyped and records another.
 * All of it that is not said otherwise is taken over, also what stands in no field here.
 * @param {{shot: Shot, store: VisitStore, unit: string, onClose: () => void}} props
 */
export function AmendSheet({ shot, store, unit, onClose }) {
  /** @type {Said} */
  const before = { carry: carryWords(shot.carry), side: String(shot.side ?? ""), strike: shot.strike, turf: shot.turf };
  const [said, setSaid] = useState(before);
  const by = figure(said.side ?? "");
  /** @param {string} reason */
  const leaveOut = (reason) => {
    store.record("shot.exclude", { id: newId(), shot_id: shot.id, reason });
    onClose();
  };
  const correct = () => {
    const others = Object.fromEntries(Object.entries(said).filter(([key, word]) => word !== before[key]));
    if (said.strike !== before.strike) Object.assign(others, { in_mean: !["fat", "thin"].includes(said.strike ?? "") });
    if (Object.keys(others).length) store.record("shot.mend", { id: newId(), exclusion_id: newId(), shot_id: shot.id, unit, ...others });
    onClose();
  };
  const countAgain = () => {
    store.record("act.take_back", { id: newId(), what: "exclusion", of_id: shot.left_out_id ?? "" });
    onClose();
  };
  /** @param {string} key @returns {(value: string) => void} */
  const set = (key) => (value) => setSaid({ ...said, [key]: value });
  /** @param {string} which @param {string} amount */
  const setSide = (which, amount) => set("side")(amount && which === "left" ? `-${amount}` : amount);
  const which = by !== null && by < 0 ? "left" : "right";
  const amount = by === null ? "" : String(Math.abs(by));
  return html`<form class="sheet" aria-label=${`Ball ${shot.number}`} onSubmit=${(/** @type {Event} */ event) => { event.preventDefault(); correct(); }}>
    <div class="sheet-head"><h2>Ball ${shot.number}, carry ${carryWords(shot.carry) || "not read"}</h2><button type="button" class="button" onClick=${onClose}>Back</button></div>
    ${shot.left_out ? html`<p class="strip"><${Icon} name="note" /><span>Left out: ${shot.left_out}. It stays on record as it was.</span></p>
      ${shot.left_out_id && html`<button type="button" class="button main" onClick=${countAgain}>Let it count again</button>`}` : html`
    <div class="actions"><button type="button" class="button" onClick=${() => leaveOut("misread")}>Misread: leave it out</button>
      <button type="button" class="button" onClick=${() => leaveOut("undone")}><${Icon} name="undo" />Take it back</button></div>
    <h3>Or record it right</h3>
    <div class="fields two"><${Field} id="amend-carry" label="Carry" unit=${unit} isFigure=${true} value=${said.carry ?? ""} onType=${set("carry")} />
      <${Field} id="amend-side" label="Off the line" unit=${unit} isFigure=${true} value=${amount} onType=${(/** @type {string} */ value) => setSide(which, value.replace("-", ""))} /></div>
    <${Chips} label="Left or right" choices=${[["left", "Left"], ["right", "Right"]]} value=${amount ? which : ""} onPick=${(/** @type {string} */ word) => setSide(word, amount)} />
    <div class="sheet-group"><h3 id="amend-strike">Strike</h3><${Chips} labelledBy="amend-strike" label="Strike" choices=${STRIKES} value=${said.strike ?? ""} canClear=${true}
      onPick=${(/** @type {string} */ word) => setSaid({ ...said, strike: word })} /></div>
    <div class="sheet-group"><h3 id="amend-turf">Turf</h3><${Chips} labelledBy="amend-turf" label="Turf" choices=${TURFS} value=${said.turf ?? ""} canClear=${true} onPick=${set("turf")} /></div>
    <button type="submit" class="button go main">Record it right</button>`}
  </form>`;
}

/** A figure that the shop did not take: what was typed stays, with the sentence beside it. @param {{refusal: Refusal, store: VisitStore}} props */
export function MendStrip({ refusal, store }) {
  const { command, errors, sentence } = refusal;
  const field = Object.keys(errors).find((key) => key in command.body) ?? "carry";
  const [typed, setTyped] = useState(String(command.body[field] ?? ""));
  const said = errors[field] ?? [sentence, ...Object.values(errors)].filter(Boolean).join(" ");
  const label = field === "carry" ? "Carry" : field.charAt(0).toUpperCase() + field.slice(1).replace("_", " ");
  const again = () => {
    store.record("shot.record", { ...command.body, [field]: typed });
    store.dismiss(command.id);
  };
  return html`<form class="mend" aria-label="A figure that was not stored" onSubmit=${(/** @type {Event} */ event) => { event.preventDefault(); again(); }}>
    <${Field} id=${`mend-${command.id}`} label=${`${label}, not stored`} value=${typed} onType=${setTyped} error=${said} isFigure=${true} />
    <div class="mend-buttons"><button type="submit" class="button go">Record</button>
      <button type="button" class="button" onClick=${() => store.dismiss(command.id)}>Let it go</button></div>
  </form>`;
}
