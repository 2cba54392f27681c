// What stays the same from ball to ball, carried over and changed in one tap.
import { html } from "../../vendor/htm-preact.js";
import { figure } from "../figures.js";
import { Chips, Field, Icon } from "../parts.js";

/** @typedef {import("../state.js").VisitStore} VisitStore */
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

/** What the last ball of the visit was hit in, whichever club it was, or the usual. @param {VisitState} view @returns {Situation} */
export function lastSituation(view) {
  const last = view.surroundings?.now;
  if (last) return situationOf(last);
  const [device, another] = view.equipment.devices;
  return { ...FIRST, device_id: device && !another ? device.id : "" };
}

/** @param {VisitStore} store @param {VisitState} view what was chosen here and in the unit that still holds */
function keptIn(store, view) {
  const { kept } = store;
  return kept.unit === view.player.unit ? kept : { now: null, chosen: /** @type {Record<string, Situation>} */ ({}) };
}

/**
 * What the next ball will be recorded in, and how another is chosen.
 * @param {VisitStore} store @param {VisitState} view @returns {[Situation, (situation: Situation) => void]}
 */
export function useSituation(store, view) {
  const now = keptIn(store, view).now ?? lastSituation(view);
  return [now, (next) => {
    const key = KEYS.find((one) => next[one] !== now[one]);
    if (key) store.choose(now, next, key, changeWords(view, now, next, key));
  }];
}

/** What a change would be called when it is taken back. @param {VisitState} view @param {Situation} now @param {Situation} next @param {keyof Situation} key */
function changeWords(view, now, next, key) {
  if (key === "swing" || key === "is_warm_up") return `${nameOf(view, next)}, back to ${nameOf(view, now)}`;
  if (key === "target") return next.target ? `target ${next.target}` : "no target";
  if (key === "device_id") return view.equipment.devices.find((one) => one.id === next.device_id)?.name ?? "no device";
  return labelOf(view, key, String(next[key]));
}

/** @param {VisitState} view @param {Situation} situation */
function nameOf(view, situation) {
  return situation.is_warm_up ? "Warm-up" : labelOf(view, "swing", situation.swing);
}

/**
 * A swing with its own surroundings: as chosen here, else as it was last hit in this visit. One that was not
 * hit yet begins off the last ground that was no sand, with the ball and device of now.
 * @param {VisitStore} store @param {VisitState} view @param {Situation} now @param {string} swing @returns {Situation}
 */
export function situationFor(store, view, now, swing) {
  const own = keptIn(store, view).chosen[swing] ?? view.surroundings?.by_swing[swing];
  if (own) return { ...situationOf(own), is_warm_up: false };
  const ground = isSand(now) ? Object.values(view.surroundings?.by_swing ?? {}).filter((one) => !isSand(one)).at(-1) ?? FIRST : now;
  return {
    ...now, hit_from: ground.hit_from, ground: ground.ground, face: "square", ...view.surroundings?.first[swing],
    swing, target: "", is_warm_up: false,
  };
}

/** @param {Situation} situation */
function isSand({ hit_from: from }) {
  return from.startsWith("sand_") || from === "plugged";
}

/** Whether a swing has surroundings of its own in this visit. @param {VisitStore} store @param {VisitState} view @param {string} swing */
export function isNewSwing(store, view, swing) {
  return !(keptIn(store, view).chosen[swing] ?? view.surroundings?.by_swing[swing]);
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

/**
 * All that the next ball will be recorded with, below its swing and target: "Mat, normal, dry. Face square. Range ball.
 * Tracked, Radar. Spin measured. As flown." What is not said is not given.
 * @param {VisitState} view @param {Situation} situation
 */
export function situationWords(view, situation) {
  const say = (/** @type {string} */ what, /** @type {string} */ word) => labelOf(view, what, word);
  const device = view.equipment.devices.find((one) => one.id === situation.device_id);
  const isOpen = situation.as_flown === "unanswered";
  const words = [
    `${say("hit_from", situation.hit_from)}, ${say("ground", situation.ground)}, ${say("wetness", situation.wetness)}`,
    `face ${say("face", situation.face)}`, `${say("ball", situation.ball)} ball`,
    [say("carry_got", situation.carry_got), device?.name].filter(Boolean).join(", "),
    situation.spin_got === "none" ? "" : `spin ${say("spin_got", situation.spin_got)}`,
    isOpen ? (device ? "flown or normalised: not said" : "") : say("as_flown", situation.as_flown),
    situation.is_warm_up ? "warm-up" : "",
  ];
  return words.filter(Boolean).map((word) => `${word.charAt(0).toUpperCase()}${word.slice(1)}.`).join(" ");
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
