// What stays the same from ball to ball, carried over and changed in one tap.
import { html } from "../../vendor/htm-preact.js";
import { figure } from "../figures.js";
import { Chips, Field, Icon } from "../parts.js";

/** @typedef {import("../types.js").Situation} Situation */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Choice} Choice */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").Shot} Shot */
/** @typedef {import("../types.js").Block} Block */

/** The words where the server's list has not come. @type {Record<string, Choice[]>} */
const WORDS = {
  swing: [["full", "Full"], ["flat_out", "Full, flat out"], ["three_quarter", "Three-quarter"], ["half", "Half"], ["chip", "Chip"], ["pitch", "Pitch"], ["flop", "Flop"], ["sand", "Sand"]],
  hit_from: [["mat", "mat"], ["tee", "tee"], ["fairway", "fairway"], ["tight", "tight"], ["rough", "rough"], ["sand_fluffy", "sand, fluffy"], ["sand_firm", "sand, firm"], ["sand_wet", "sand, wet"], ["plugged", "sand, plugged"]],
  ground: [["firm", "firm"], ["normal", "normal"], ["soft", "soft"]],
  wetness: [["dry", "dry"], ["wet", "wet"]],
  face: [["square", "square"], ["little_open", "a little open"], ["wide_open", "wide open"]],
  ball: [["premium", "premium"], ["range", "range"], ["limited", "limited-flight"], ["marked", "marked"]],
  carry_got: [["seen", "seen to land"], ["tracked", "tracked"], ["calculated", "calculated"]],
  spin_got: [["none", "not given"], ["measured", "measured"], ["estimated", "estimated"]],
  as_flown: [["unanswered", "not answered"], ["as_flown", "as flown"], ["normalised", "normalised by the device"]],
};

/** @type {Situation} */
const FIRST = {
  swing: "full", target: "", hit_from: "mat", ground: "normal", wetness: "dry", face: "square", ball: "range",
  device_id: "", carry_got: "seen", spin_got: "none", as_flown: "unanswered", is_warm_up: false,
};
const KEYS = /** @type {(keyof Situation)[]} */ (Object.keys(FIRST));

/** @param {VisitState} view @param {string} what @returns {Choice[]} */
export function choicesOf(view, what) {
  return view.choices[what] ?? WORDS[what] ?? [];
}

/** @param {VisitState} view @param {string} what @param {string} word */
export function labelOf(view, what, word) {
  return choicesOf(view, what).find(([one]) => one === word)?.[1] ?? word;
}

/** @param {Block | Situation} block @returns {Situation} */
function situationOf(block) {
  const known = /** @type {Record<string, unknown>} */ (/** @type {unknown} */ (block));
  const pairs = KEYS.map((key) => [key, typeof FIRST[key] === "boolean" ? known[key] === true : String(known[key] ?? "")]);
  return /** @type {Situation} */ (Object.fromEntries(pairs));
}

/** The situation of the last block of the visit, or the usual one. @param {VisitState} view @returns {Situation} */
export function lastSituation(view) {
  const last = view.trials.filter((trial) => trial.blocks.length > 0).at(-1)?.blocks.at(-1);
  const known = last ? situationOf(last) : FIRST;
  return { ...known, device_id: known.device_id || (view.equipment.devices.length === 1 ? view.equipment.devices[0]?.id ?? "" : "") };
}

/** @param {Situation} a @param {Situation} b */
export function isSame(a, b) {
  return KEYS.every((key) => (key === "target" ? figure(a.target) === figure(b.target) : (a[key] || "") === (b[key] || "")));
}

/** Every ball of a club in one situation, also where it was come back to. @param {Trial} trial @param {Situation} situation @returns {Shot[]} */
export function shotsIn(trial, situation) {
  return trial.blocks.filter((block) => isSame(situationOf(block), situation)).flatMap((block) => block.shots);
}

/** The block that the next ball belongs to, if it is begun. @param {Trial} trial @param {Situation} situation */
export function openBlock(trial, situation) {
  const last = trial.blocks.at(-1);
  return last && isSame(situationOf(last), situation) ? last : null;
}

/** "Mat, normal, dry. Face square. Range ball. Seen to land." @param {VisitState} view @param {Situation} situation */
export function situationWords(view, situation) {
  const say = (/** @type {string} */ what, /** @type {string} */ word) => labelOf(view, what, word);
  const device = view.equipment.devices.find((one) => one.id === situation.device_id);
  const words = [
    `${say("hit_from", situation.hit_from)}, ${say("ground", situation.ground)}, ${say("wetness", situation.wetness)}`,
    `face ${say("face", situation.face)}`, `${say("ball", situation.ball)} ball`,
    [say("carry_got", situation.carry_got), device?.name].filter(Boolean).join(", "),
  ];
  return words.map((word) => `${word.charAt(0).toUpperCase()}${word.slice(1)}.`).join(" ");
}

/** "Full from fairway, normal, dry, face square": what a rating belongs to. @param {VisitState} view @param {Situation} situation */
export function feltWords(view, situation) {
  const say = (/** @type {string} */ what, /** @type {string} */ word) => labelOf(view, what, word);
  return `${swingWords(view, situation)} from ${say("hit_from", situation.hit_from)}, ${say("ground", situation.ground)}, ${say("wetness", situation.wetness)}, face ${say("face", situation.face)}`;
}

/** @param {VisitState} view @param {Situation} situation */
export function swingWords(view, situation) {
  const name = labelOf(view, "swing", situation.swing);
  return figure(situation.target) === null ? name : `${name}, ${situation.target}`;
}

/** What a device gives, as the shop has described it; each can still be changed. @param {VisitState} view @param {string} id */
function measuredBy(view, id) {
  const device = view.equipment.devices.find((one) => one.id === id);
  if (!device) return { device_id: "", carry_got: "seen", spin_got: "none" };
  return { device_id: id, carry_got: device.tracks_flight ? "tracked" : "calculated", spin_got: device.measures_spin ? "measured" : "estimated" };
}

/**
 * The sheet behind the line: it lies in the entry's own place and never over it.
 * @param {{view: VisitState, situation: Situation, onChange: (situation: Situation) => void, onClose: () => void}} props
 */
export function SituationSheet({ view, situation, onChange, onClose }) {
  const group = (/** @type {keyof Situation} */ what, /** @type {string} */ name) => html`<div class="sheet-group" key=${what}>
    <h3 id=${`sit-${what}`}>${name}</h3>
    <${Chips} labelledBy=${`sit-${what}`} label=${name} choices=${choicesOf(view, what)} value=${String(situation[what])}
      onPick=${(/** @type {string} */ word) => onChange({ ...situation, [what]: word })} /></div>`;
  const devices = /** @type {Choice[]} */ ([["", "none"], ...view.equipment.devices.map((one) => [one.id, one.name])]);
  return html`<div class="sheet">
    <div class="sheet-head"><h2>The situation</h2><button type="button" class="button go" onClick=${onClose}>Back to the balls</button></div>
    ${group("swing", "Swing")}
    <${Field} id="sit-target" label="Target" value=${situation.target} unit=${view.player.unit} isFigure=${true}
      onType=${(/** @type {string} */ target) => onChange({ ...situation, target })} />
    ${group("hit_from", "From")} ${group("ground", "Ground")} ${group("wetness", "Dry or wet")} ${group("face", "Face")} ${group("ball", "Ball")}
    <div class="sheet-group"><h3 id="sit-device">Device</h3><${Chips} labelledBy="sit-device" label="Device" choices=${devices} value=${situation.device_id}
      onPick=${(/** @type {string} */ id) => onChange({ ...situation, ...measuredBy(view, id) })} /></div>
    ${group("carry_got", "Carry is")} ${group("spin_got", "Spin is")} ${group("as_flown", "The device's figures are")}
    <div class="sheet-group"><h3 id="sit-warm">Balls</h3><${Chips} labelledBy="sit-warm" label="Balls" choices=${[["no", "count"], ["yes", "warm-up"]]}
      value=${situation.is_warm_up ? "yes" : "no"} onPick=${(/** @type {string} */ word) => onChange({ ...situation, is_warm_up: word === "yes" })} /></div>
    <button type="button" class="button" onClick=${onClose}><${Icon} name="check" />Back to the balls</button>
  </div>`;
}
