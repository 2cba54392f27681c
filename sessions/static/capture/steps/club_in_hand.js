// What is in the player's hand, at all times; behind a neutral number only the number.
import { html, useEffect, useRef, useState } from "../../vendor/htm-preact.js";
import { Icon } from "../parts.js";
import { labelOf } from "./situation.js";

/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").VisitState} VisitState */

const ROLES = /** @type {Record<string, string>} */ ({ full_shot: "full-shot club", touch: "touch club" });

/** The club that is in the hand now. @param {VisitState} view */
export function inHand(view) {
  return view.trials.find((trial) => trial.state === "open") ?? null;
}

/** @param {VisitState} view @param {Trial} trial */
export function slotLine(view, trial) {
  const of = view.plan ? ` of ${view.plan.slots.length}` : "";
  const slot = trial.slot ? `slot ${trial.slot}${of}` : trial.purpose === "baseline" ? "baseline" : trial.purpose === "own" ? "own club" : "";
  return ["In hand", slot, ROLES[trial.role] ?? ""].filter(Boolean).join(", ");
}

/** A loft that is not the stamped one never goes without its stamp, not even on a phone. */
const OFF_STAMP = /, (bent|measured) /;

/** One line of it, for a phone; below it the stamp where the two differ, and what the scale said. @param {Trial} trial */
export function handLine(trial) {
  if (trial.code !== null) return html`<b>${trial.code}</b> in hand`;
  if (trial.hidden) return html`<b>Not named</b> while a comparison runs`;
  const below = [OFF_STAMP.test(trial.stamped_words ?? "") ? trial.stamped_words : "", balanceOf(trial)].filter(Boolean).join(". ");
  return html`<b>${trial.loft_words || trial.head_name}</b> ${trial.bounce_words && `${plain(trial.bounce_words, "bounce")}, `}${trial.loft_words ? trial.head_name : ""}${below && html`<br /><span class="soft">${below}</span>`}`;
}

/** "D2.5, 461.2 g", as far as it was read. @param {Trial} trial */
function balanceOf(trial) {
  return [trial.swing_weight_words, trial.mass_words].filter(Boolean).join(", ");
}

/** The word once, whether the server said it or not. @param {string} words @param {string} word */
function plain(words, word) {
  return words.includes(word) ? words : `${words} ${word}`;
}

/** A large figure with its word small beside it. @param {string} words @param {string} word */
function split(words, word) {
  return words.replace(word, "").trim();
}

/** @param {{view: VisitState, trial: Trial | null, children?: any}} props */
export function ClubInHand({ view, trial, children }) {
  if (!trial) {
    return html`<section class="panel in-hand" aria-label="Club in hand"><p class="slot-line">In hand</p><p class="nothing">Nothing yet</p><div class="hand-base">${children}</div></section>`;
  }
  if (trial.code !== null) {
    return html`<section class="panel in-hand" aria-label="Club in hand"><p class="slot-line">In hand, hidden order</p>
      <p class="neutral">${trial.code}</p><div class="hand-base">${children}</div></section>`;
  }
  if (trial.hidden) {
    return html`<section class="panel in-hand" aria-label="Club in hand"><p class="slot-line">In hand</p>
      <p class="nothing">Not named while a comparison runs</p><div class="hand-base">${children}</div></section>`;
  }
  const sole = (trial.sole_words ?? "").replace(/^sole /, "");
  const facts = [
    [trial.length_words ? "Length" : "Lie", [trial.length_words, trial.lie_words && (trial.length_words ? `lie ${trial.lie_words}` : trial.lie_words)].filter(Boolean).join(", ")],
    ["Shaft", trial.shaft_name], ["Head", trial.loft_words ? trial.head_name : ""], ["Balance", balanceOf(trial)],
    ["Grooves", trial.grooves && trial.grooves !== "unknown" ? labelOf(view, "grooves", trial.grooves) : ""],
  ].filter(([, words]) => words);
  return html`<section class="panel in-hand" aria-label="Club in hand">
    <p class="slot-line">${slotLine(view, trial)}</p>
    <div class="in-hand-figures">
      ${trial.loft_words ? html`<p class="loft">${split(trial.loft_words, "loft")}<small> loft</small></p>` : html`<p class="loft is-words">${trial.head_name}</p>`}
      ${trial.bounce_words && html`<p class="made"><b>${split(trial.bounce_words, "bounce")}</b> bounce</p>`}
    </div>
    ${trial.stamped_words && html`<p class="stamped">${trial.stamped_words}</p>`}
    <${Changed} view=${view} trial=${trial} />
    ${sole && html`<p class="sole"><span class="soft">Sole</span> <b>${sole}</b></p>`}
    <dl class="facts">${facts.map(([name, words]) => html`<dt>${name}</dt><dd>${words}</dd>`)}</dl>
    <div class="hand-base">${trial.head_tight && html`<p class="tight"><${Icon} name="check" />Head tight: checked</p>`}${children}</div>
  </section>`;
}

/** @param {{view: VisitState, trial: Trial}} props */
function Changed({ view, trial }) {
  const { changed, also_different: also, beside_now: now } = trial;
  if (!changed.length && !also.length && !now) return null;
  const words = changed.map((word) => labelOf(view, "changed", word).toLowerCase()).join(" and ");
  return html`<div class="changed">${words && html`<b>Changed:</b> ${words}.`}
    ${changed.length > 1 && html`<span class="two-changes"> ${changed.length} at once prove nothing about either.</span>`}
    ${also.length > 0 && html`<${Also} also=${also} />`}
    ${now && html`<${BesideNow} now=${now} />`}</div>`;
}

/** Against the club played now, small: one difference by name, several as their number with each of them behind a tap. @param {{now: import("../types.js").BesideNow}} props */
function BesideNow({ now }) {
  const { against, found, each, caution, rule_id: rule, unknown } = now;
  if (!each.length) return html`<span class="also">${against}: ${found}.${unknown && ` ${unknown}`}</span>`;
  return html`<details class="also"><summary>${against}: <span class=${caution ? "two-changes" : ""}>${found}</span></summary>
    ${caution && html`<p><span class="two-changes">${caution}</span> <small>${rule}</small></p>`}<ul>${each.map((one) => html`<li key=${one}>${one}</li>`)}</ul>${unknown && html`<p>${unknown}</p>`}</details>`;
}

const SHORT_ENOUGH = 70;
const THINGS = ["swing weight", "loft", "lie", "bounce", "head", "sole", "shaft", "length", "grip", "mass", "weight", "finish", "grooves"];

/** What came along, small: in full where it is short, else by name with the rest behind a tap. @param {{also: string[]}} props */
function Also({ also }) {
  const all = also.join("; ");
  if (all.length <= SHORT_ENOUGH) return html`<span class="also">Also different: ${all}.</span>`;
  const names = also.map((one) => THINGS.find((thing) => one.startsWith(thing)) ?? one);
  return html`<details class="also"><summary>Also different: ${[...new Set(names)].join(", ")}</summary><ul>${also.map((one) => html`<li key=${one}>${one}</li>`)}</ul></details>`;
}

/**
 * Shows what is behind a number while it is held, and says so to the record.
 * @param {{name: string, onPeek: () => void}} props
 */
export function Peek({ name, onPeek }) {
  const [isOpen, setOpen] = useState(false);
  const timer = useRef(/** @type {number | undefined} */ (undefined));
  const hold = () => {
    clearTimeout(timer.current);
    timer.current = setTimeout(() => { setOpen(true); onPeek(); }, 600);
  };
  const letGo = () => {
    clearTimeout(timer.current);
    setOpen(false);
  };
  useEffect(() => letGo, []);
  const key = (/** @type {KeyboardEvent} */ event) => {
    if ((event.key === " " || event.key === "Enter") && !event.repeat) { event.preventDefault(); hold(); }
  };
  return html`<button type="button" class="button peek" onPointerDown=${hold} onPointerUp=${letGo} onPointerLeave=${letGo} onPointerCancel=${letGo}
    onKeyDown=${key} onKeyUp=${letGo} onBlur=${letGo} onContextMenu=${(/** @type {Event} */ event) => event.preventDefault()}>
    ${isOpen ? name : "Hold to see the head (recorded)"}</button>`;
}
