// Recording a ball: one tap on one of nine figures. What is said of it before the tap goes with it.
import { html, useEffect, useRef, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { carryWords, figure, nineAround, shown, sideWords, tally } from "../figures.js";
import { ARMED_AGAIN_MS, OneTap } from "../one_tap.js";
import { Icon } from "../parts.js";
import { stopsOf } from "../stops.js";
import { recordShot } from "./recording.js";
import { AmendSheet, MendStrip, MoreSheet } from "./shot_sheets.js";
import { isNewSwing, labelOf, openBlock, shotsIn, situationFor, SituationSheet, situationWords, swingWords } from "./situation.js";

/** @typedef {import("../state.js").VisitStore} VisitStore */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").Shot} Shot */
/** @typedef {import("../types.js").Situation} Situation */
/** @typedef {import("../acts.js").Said} Said */

const SIDES = [1, 2, 3, 4, 5, 6, 8, 10, 15];
const STRIKES = /** @type {const} */ ([["fat", "Fat"], ["thin", "Thin"], ["heel", "Heel"], ["toe", "Toe"], ["misread", "Misread"]]);
const TURFS = /** @type {const} */ ([["digs", "Digs"], ["clean", "Clean"], ["skids", "Skids"]]);
const SHORT_LIST = { baseline: ["full", "flat_out"], trials: ["full", "half", "chip", "sand"] };

/** What was just recorded, in one breath. @param {Said} said */
function echoOf(said) {
  const strike = said.misread ? "misread, left out" : said.strike ?? "";
  return [said.carry || "no figure", sideWords(said.side ?? ""), strike, said.turf ? `turf ${said.turf}` : ""].filter(Boolean).join(", ");
}

/**
 * @typedef {object} EntryProps
 * @property {VisitStore} store
 * @property {VisitState} view
 * @property {Trial} trial
 * @property {Situation} situation
 * @property {(situation: Situation) => void} onSituation
 * @property {"baseline" | "trials"} kind
 * @property {Shot | null} amending
 * @property {() => void} onAmended
 */

/** @param {EntryProps} props */
export function ShotEntry({ store, view, trial, situation, onSituation, kind, amending, onAmended }) {
  const { said } = store;
  const setSaid = (/** @type {Said} */ next) => store.say(next);
  const [sheet, setSheet] = useState(/** @type {"" | "situation" | "more"} */ (""));
  const [pad, setPad] = useState(/** @type {string | null} */ (null));
  const [side, setSide] = useState(/** @type {"" | "left" | "right"} */ (""));
  const [echo, setEcho] = useState("");
  const [again, setAgain] = useState(/** @type {Said | null} */ (null));
  const lastSaid = useRef(/** @type {Said | null} */ (null));
  const unit = view.player.unit;
  useEffect(() => {
    store.sayNothing();
    setPad(null);
    setSide("");
    setAgain(null);
    lastSaid.current = null;
  }, [trial.id]);

  /** @param {Said} more */
  const record = (more) => {
    const all = { ...said, ...more };
    recordShot(store, trial, situation, all, unit);
    lastSaid.current = all;
    setAgain(null);
    setEcho(echoOf(all));
    store.sayNothing();
    setPad(null);
    setSide("");
    setSheet("");
  };
  const [taps, isArming] = useOneTap(store, amending?.id ?? "", () => setAgain(lastSaid.current));
  const isStopped = stopsOf(trial).length > 0;
  const isNewSituation = openBlock(trial, situation) === null;
  const isReady = view.me.may_capture && view.visit.state === "open" && !(isStopped && isNewSituation);
  const panel = (/** @type {unknown} */ inside) => html`<section class="panel entry" aria-label="Record a ball" ...${taps}>${inside}</section>`;
  const mends = store.refused.filter((one) => one.command.kind === "shot.record");
  if (amending) return panel(html`<${AmendSheet} key=${amending.id} shot=${amending} store=${store} trial=${trial} unit=${unit} onClose=${onAmended} />`);
  if (sheet === "situation") return panel(html`<${SituationSheet} view=${view} situation=${situation} onChange=${onSituation} onClose=${() => setSheet("")} />`);
  if (sheet === "more") return panel(html`<${MoreSheet} said=${said} onSaid=${setSaid} unit=${unit} onRecord=${() => record({})} onClose=${() => setSheet("")} />`);

  const shots = shotsIn(trial, situation);
  const last = shots.filter((shot) => !shot.left_out).at(-1) ?? null;
  const asked = askedAbout(store, view, trial);
  const message = armedWords(said) ? html`<${Armed} said=${said} last=${last} onSaid=${setSaid} onLast=${() => last && sayOfLast(store, last, said, unit)} />`
    : again ? html`<${Twice} again=${again} onTwo=${() => { recordShot(store, trial, situation, again, unit); setAgain(null); }} onOne=${() => setAgain(null)} />`
      : asked ? html`<${WasAnother} view=${view} asked=${asked} onMove=${() => putWhereItWasHit(store, view, trial, situation, asked, unit)} onKeep=${() => store.lookedAt(asked.shot.id)} />` : null;
  const nine = pad === null ? nineAround(shots) : null;
  return panel(html`
    ${mends.map((refusal) => html`<${MendStrip} key=${refusal.command.id} refusal=${refusal} store=${store} />`)}
    ${isStopped && html`<p class="strip error stopped" role="status">${isNewSituation ? "Nothing new with this club: a part of it was withdrawn." : "Withdrawn. What was hit before can still be recorded here."}</p>`}
    <${Swings} store=${store} view=${view} situation=${situation} onSituation=${onSituation} kind=${kind} onMore=${() => setSheet("situation")} />
    <button type="button" class=${`standing${isNewSwing(store, view, situation.swing) ? " is-new" : ""}`} onClick=${() => setSheet("situation")}>
      <span>${isNewSwing(store, view, situation.swing) && html`<b>New here:</b>${" "}`}${situationWords(view, situation)}</span>
      <${Icon} name="down" /><span class="unseen">Change the situation</span></button>
    <${Reading} shots=${shots} unit=${unit} side=${side} echo=${echo} typed=${nine ? null : pad ?? ""} message=${side ? null : message} onNine=${pad !== null && nineAround(shots) ? () => setPad(null) : null} />
    ${side ? html`<${SideKeys} side=${side} onPick=${(/** @type {number} */ by) => { setSaid({ ...said, side: String(side === "left" ? -by : by) }); setSide(""); }} />`
      : nine ? html`<${NineKeys} nine=${nine} shots=${shots} isReady=${isReady} isArming=${isArming} onPick=${(/** @type {number} */ carry) => record({ carry: String(carry) })} />`
        : html`<${Pad} typed=${pad ?? ""} onType=${setPad} onEnter=${() => record({ carry: pad ?? "" })} />`}
    <${After} said=${said} side=${side} onSide=${setSide} pad=${nine ? null : pad ?? ""} isReady=${isReady} hasMean=${nineAround(shots) !== null}
      onLine=${() => { setSaid({ ...said, side: side ? "0" : "" }); setSide(""); }} onOther=${() => setPad("")} onRecord=${() => record({ carry: pad ?? "" })} />
    <${Strikes} said=${said} onSaid=${setSaid} />
    <${Turf} said=${said} onSaid=${setSaid} onMore=${() => setSheet("more")} />`);
}

/**
 * Sees every tap in the panel first, so that a double tap is one.
 * @param {VisitStore} store @param {string} elsewhere what was opened by a tap outside @param {() => void} onEcho @returns {[Record<string, (event: MouseEvent) => void>, boolean]}
 */
function useOneTap(store, elsewhere, onEcho) {
  const tap = useRef(new OneTap());
  const before = useRef(0);
  const [armedAt, setArming] = useState(0);
  useEffect(() => {
    if (elsewhere) tap.current.wasElsewhere();
  }, [elsewhere]);
  useEffect(() => {
    if (!armedAt) return undefined;
    const wait = setTimeout(() => setArming(0), ARMED_AGAIN_MS);
    return () => clearTimeout(wait);
  }, [armedAt]);
  const after = () => {
    if (store.recorded === before.current) return;
    tap.current.hasRecorded();
    setArming(store.recorded);
  };
  return [{
    onClickCapture: (event) => {
      before.current = store.recorded;
      if (!tap.current.isEcho(event)) return;
      event.stopPropagation();
      event.preventDefault();
      onEcho();
    },
    onClick: after,
    onSubmit: after,
  }, armedAt > 0];
}

/** @param {{store: VisitStore, view: VisitState, situation: Situation, onSituation: (s: Situation) => void, kind: "baseline" | "trials", onMore: () => void}} props */
function Swings({ store, view, situation, onSituation, kind, onMore }) {
  const short = SHORT_LIST[kind];
  const words = short.includes(situation.swing) ? short : [...short.slice(0, -1), situation.swing];
  const isWarm = situation.is_warm_up;
  return html`<div class="choice swing" role="group" aria-label="Swing">
    ${kind === "baseline" && html`<button type="button" aria-pressed=${String(isWarm)} onClick=${() => onSituation({ ...situation, swing: "full", is_warm_up: true })}>Warm-up</button>`}
    ${words.map((swing) => {
      const isNow = swing === situation.swing && !(kind === "baseline" && isWarm);
      const there = isNow ? { ...situation, is_warm_up: false } : situationFor(store, view, situation, swing);
      return html`<button type="button" key=${swing} aria-pressed=${String(isNow)} onClick=${() => onSituation(there)}>${swingWords(view, there)}</button>`;
    })}
    <button type="button" class="more-swings" aria-pressed="false" onClick=${onMore}>More<span class="unseen"> swings and the situation</span></button>
  </div>`;
}

/** What is to be tapped; in its place what there is to say of the last ball or the next. @param {{shots: Shot[], unit: string, side: string, echo: string, typed: string | null, message: any, onNine: (() => void) | null}} props */
function Reading({ shots, unit, side, echo, typed, message, onNine }) {
  const last = shots.filter((shot) => !shot.left_out).at(-1);
  const isPad = typed !== null && !side;
  const what = side ? `How far ${side} of the line (${unit})` : isPad ? `Carry (${unit})` : `Carry, tap to record (${unit})`;
  return html`<div class="read">${message ?? html`<span>${what}</span>`}
    ${isPad && onNine && html`<button type="button" class="read-back" onClick=${onNine}>The nine again</button>`}
    ${isPad ? html`<output class="last" aria-live="polite"><b class="pad-figure">${typed || "\u2013"}</b></output>`
      : last && !message && html`<span class="last">last <b>${carryWords(last.carry) || "no figure"}</b></span>`}
    <span class="unseen" role="status" aria-live="polite">${echo && `Recorded ${echo}`}</span></div>`;
}

/** @param {{nine: number[], shots: Shot[], isReady: boolean, isArming: boolean, onPick: (carry: number) => void}} props */
function NineKeys({ nine, shots, isReady, isArming, onPick }) {
  const { mean } = tally(shots);
  const middle = mean === null ? nine[4] : Math.round(mean);
  return html`<div class=${`keys${isArming ? " is-arming" : ""}`} role="group" aria-label="Carry: one tap records">
    ${nine.map((carry) => html`<button type="button" class=${`key${carry === middle ? " is-mean" : ""}`} key=${carry} disabled=${!isReady}
      aria-current=${carry === middle ? "true" : undefined} onClick=${() => onPick(carry)}>${carry}</button>`)}
  </div>`;
}

/** @param {{side: string, onPick: (by: number) => void}} props */
function SideKeys({ side, onPick }) {
  return html`<div class="keys" role="group" aria-label=${`How far ${side}`}>
    ${SIDES.map((by) => html`<button type="button" class="key is-side" key=${by} onClick=${() => onPick(by)}>${by}</button>`)}
  </div>`;
}

const PAD = ["1", "2", "3", "back", "4", "5", "6", ".", "7", "8", "9", "0"];
const PAD_NAMES = /** @type {Record<string, string>} */ ({ back: "Take the last digit back", ".": "Point" });

/** @param {{typed: string, onType: (typed: string) => void, onEnter: () => void}} props */
function Pad({ typed, onType, onEnter }) {
  /** @param {string} key */
  const press = (key) => {
    if (key === "back") onType(typed.slice(0, -1));
    else if (typed.length < 6 && !(key === "." && typed.includes("."))) onType(typed + key);
  };
  useEffect(() => {
    /** @param {KeyboardEvent} event */
    const typeKey = (event) => {
      if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
      if (/^[0-9]$/.test(event.key)) press(event.key);
      else if (event.key === "." || event.key === ",") press(".");
      else if (event.key === "Backspace") press("back");
      else if (event.key === "Enter" && typed && !(event.target instanceof HTMLButtonElement)) onEnter();
    };
    addEventListener("keydown", typeKey);
    return () => removeEventListener("keydown", typeKey);
  });
  return html`<div class="keys pad" role="group" aria-label="Carry, typed">
      ${PAD.map((key) => html`<button type="button" class="key" key=${key} aria-label=${PAD_NAMES[key]} onClick=${() => press(key)}>
        ${key === "back" ? html`<${Icon} name="arrow-left" />` : key}</button>`)}
    </div>`;
}

/**
 * @param {{said: Said, side: string, onSide: (side: "" | "left" | "right") => void, pad: string | null, isReady: boolean, hasMean: boolean,
 *   onLine: () => void, onOther: () => void, onRecord: () => void}} props
 */
function After({ said, side, onSide, pad, isReady, onLine, onOther, onRecord }) {
  const by = figure(said.side ?? "");
  const sideButton = (/** @type {"left" | "right"} */ which) => {
    const isSet = by !== null && by !== 0 && (which === "left") === (by < 0);
    const label = `${isSet ? `${Math.abs(by)} ` : ""}${which === "left" ? "Left" : "Right"}`;
    return html`<button type="button" class="button" aria-pressed=${String(isSet || side === which)} onClick=${() => onSide(side === which ? "" : which)}>${label}</button>`;
  };
  const canGo = isReady && ((pad ?? "") !== "" || Boolean(said.strike || said.turf));
  const middle = side ? html`<button type="button" class="button" onClick=${onLine}>On line</button>`
    : pad === null ? html`<button type="button" class="button" onClick=${onOther}>Other figure</button>`
      : html`<button type="button" class="button go" disabled=${!canGo} onClick=${onRecord}>${pad ? `Record ${pad}` : said.strike || said.turf ? "Record, no figure" : "Record"}</button>`;
  return html`<div class="after">${sideButton("left")}${middle}${sideButton("right")}</div>`;
}

/** @param {{said: Said, onSaid: (said: Said) => void}} props */
function Strikes({ said, onSaid }) {
  const now = said.misread ? "misread" : said.strike ?? "";
  /** @param {string} word */
  const pick = (word) => {
    const { strike: _strike, misread: _misread, in_mean: _inMean, ...rest } = said;
    if (word === now) onSaid(rest);
    else onSaid(word === "misread" ? { ...rest, misread: "yes" } : { ...rest, strike: word });
  };
  return html`<div class="quick" role="group" aria-label="This ball was struck">
    ${STRIKES.map(([word, label]) => html`<button type="button" class="quick-chip" key=${word} aria-pressed=${String(word === now)} onClick=${() => pick(word)}>${label}</button>`)}
  </div>
`;
}

/** A second touch in one tap was no ball, unless somebody says so. @param {{again: Said, onTwo: () => void, onOne: () => void}} props */
function Twice({ again, onTwo, onOne }) {
  return html`<p class="quick-says is-asking" role="status"><span>Tapped twice, recorded once: <b class="of">${again.carry || "no figure"}</b>.</span>
    <span><button type="button" class="read-back" onClick=${onTwo}>There were two</button>
      <button type="button" class="read-back" onClick=${onOne}>One</button></span></p>`;
}

/**
 * What is said of a ball, and of which: the next one, until it is said that it was the last.
 * @param {{said: Said, last: Shot | null, onSaid: (said: Said) => void, onLast: () => void}} props
 */
function Armed({ said, last, onSaid, onLast }) {
  const strike = said.misread ? "misread" : said.strike ?? "";
  const inMean = isInMean(strike, said.in_mean ?? "");
  const lastWords = carryWords(last?.carry ?? null) || "one";
  const counted = !strike || strike === "misread" ? "" : inMean ? ", in the mean" : ", not in the mean";
  return html`<p class="quick-says" role="status"><span>Next: ${armedWords(said)}${counted}</span>
    <span>${strike && strike !== "misread" && html`<button type="button" class="read-back" onClick=${() => onSaid({ ...said, in_mean: inMean ? "no" : "yes" })}>${inMean ? "Leave out" : "Put in"}</button>`}
      ${last && html`<button type="button" class="read-back" aria-label=${`No, the ${lastWords} just hit`} onClick=${onLast}>No, the ${lastWords}</button>`}</span></p>`;
}

/** What is said already of a ball, "" where nothing is. @param {Said} said */
function armedWords(said) {
  const strike = said.misread ? "misread" : said.strike ?? "";
  return [strike, said.turf && `turf ${said.turf}`, sideWords(said.side ?? "")].filter(Boolean).join(", ");
}

/** @typedef {{shot: Shot, swing: string}} Asked */

/** The last ball of this club that fits another swing far better, until somebody has said what it was. @param {VisitStore} store @param {VisitState} view @param {Trial} trial @returns {Asked | null} */
function askedAbout(store, view, trial) {
  const shots = trial.blocks.flatMap((block) => block.shots).filter((shot) => !shot.left_out);
  const found = (view.other_swings ?? []).filter((one) => !store.kept.looked_at.includes(one.shot_id))
    .flatMap((one) => shots.filter((shot) => shot.id === one.shot_id).map((shot) => ({ shot, swing: one.swing })));
  return found.at(-1) ?? null;
}

/** @param {{view: VisitState, asked: Asked, onMove: () => void, onKeep: () => void}} props */
function WasAnother({ view, asked, onMove, onKeep }) {
  const swing = labelOf(view, "swing", asked.swing).toLowerCase();
  return html`<p class="quick-says is-asking" role="status"><span><b class="of">${carryWords(asked.shot.carry)}</b>: was that a ${swing}?</span>
    <span><button type="button" class="read-back" aria-label=${`Yes, a ${swing}`} onClick=${onMove}>Yes</button>
      <button type="button" class="read-back" aria-label="No, it stays" onClick=${onKeep}>No</button></span></p>`;
}

/**
 * The ball goes to the swing that it was, in that one's own surroundings; what is hit next stays as it is.
 * @param {VisitStore} store @param {VisitState} view @param {Trial} trial @param {Situation} now @param {Asked} asked @param {string} unit
 */
function putWhereItWasHit(store, view, trial, now, { shot, swing }, unit) {
  const there = situationFor(store, view, now, swing);
  const blockId = openBlock(trial, there)?.id ?? newId();
  if (!openBlock(trial, there)) store.record("block.start", { id: blockId, trial_id: trial.id, unit, ...there });
  store.record("shot.mend", { id: newId(), exclusion_id: newId(), shot_id: shot.id, block_id: blockId, unit });
}

const OF_A_BALL = ["strike", "turf", "side", "divot", "flight"];

/** What was said goes to the ball that was just hit. @param {VisitStore} store @param {Shot} last @param {Said} said @param {string} unit */
function sayOfLast(store, last, said, unit) {
  if (said.misread) store.record("shot.exclude", { id: newId(), shot_id: last.id, reason: "misread" });
  else {
    /** @type {import("../types.js").Body} */
    const words = Object.fromEntries(OF_A_BALL.filter((key) => said[key]).map((key) => [key, said[key] ?? ""]));
    if (said.strike) words.in_mean = isInMean(said.strike, said.in_mean ?? "");
    store.record("shot.mend", { id: newId(), exclusion_id: newId(), shot_id: last.id, unit, ...words });
  }
  store.sayNothing();
}

/** @param {string} strike @param {string} chosen */
function isInMean(strike, chosen) {
  return chosen ? chosen === "yes" : !["fat", "thin"].includes(strike);
}

/** @param {{said: Said, onSaid: (said: Said) => void, onMore: () => void}} props */
function Turf({ said, onSaid, onMore }) {
  return html`<div class="quick turf" role="group" aria-label="Turf"><span class="name">Turf</span>
    ${TURFS.map(([word, label]) => html`<button type="button" class="quick-chip" key=${word} aria-pressed=${String(said.turf === word)}
      onClick=${() => onSaid({ ...said, turf: said.turf === word ? "" : word })}>${label}</button>`)}
    <button type="button" class="quick-chip" onClick=${onMore}>More numbers</button></div>`;
}

/** The balls of this club in this situation, in the foot. @param {{shots: Shot[], unit: string}} props */
export function TallyLine({ shots, unit }) {
  const { count, inMean, mean, spread, strikes } = tally(shots);
  if (count === 0) return html`<p class="tally">No ball in this situation yet</p>`;
  const bad = Object.entries(strikes).map(([word, number]) => `${number} ${word}`).join(", ");
  const of = inMean !== count ? ` of ${inMean}` : "";
  return html`<p class="tally"><b>${count} ${count === 1 ? "ball" : "balls"}</b>${mean !== null && `, mean ${shown(mean)} ${unit}${of}`}${spread !== null && `, spread ${shown(spread)}`}${bad && html`, <b>${bad}</b>`}</p>`;
}

