// Trials: the club in hand, the entry, what the balls say.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { Sent } from "../frame.js";
import { carryWords } from "../figures.js";
import { Icon, Rating } from "../parts.js";
import { AirSheet } from "./air.js";
import { ClubInHand, handLine, inHand } from "./club_in_hand.js";
import { refusedHandOver } from "./hand_over.js";
import { LookedAt } from "./looked_at.js";
import { NextClub } from "./next_club.js";
import { Says } from "./says.js";
import { ShotEntry, TallyLine } from "./shot_entry.js";
import { feltIn, ratedIn } from "./rated.js";
import { feltWords, shotsIn, useSituation } from "./situation.js";
import { Withdraw } from "./withdraw.js";

/** @typedef {import("../app.js").StepProps} StepProps */
/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").Shot} Shot */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Situation} Situation */

/** @param {StepProps} props */
export function Trials(props) {
  return html`<${Bay} ...${props} kind="trials" />`;
}

/**
 * The three panels, for the baseline and the trials alike.
 * @param {StepProps & {kind: "baseline" | "trials"}} props
 */
export function Bay({ store, view, go, kind }) {
  const hand = inHand(view);
  const trial = hand && (kind === "trials" || hand.purpose === "baseline") ? hand : null;
  const [sheet, setSheet] = useState(/** @type {"" | "next" | "withdraw" | "ratings" | "air"} */ (""));
  const [amending, setAmending] = useState(/** @type {string | null} */ (null));
  const [situation, setSituation] = useSituation(store, view);
  const shots = trial ? shotsIn(trial, situation) : [];
  const now = shots.find((shot) => shot.id === amending) ?? null;
  const refused = refusedHandOver(store, view, kind);
  const close = () => setSheet("");
  const handOverDone = () => {
    if (refused) store.dismiss(refused.command.id);
    close();
  };
  if (view.visit.state !== "open") return html`<${LookedAt} store=${store} view=${view} kind=${kind} />`;
  const buttons = html`${trial && kind === "baseline" && html`<p class="soft">Full, stock swings with the pitching wedge that stays: its carry anchors every gap below. Then the 9-iron, if there is time.</p>`}
    <div class="hand-buttons">
      ${trial && html`<button type="button" class="button go" onClick=${() => setSheet("next")}>Next club</button>`}
      ${trial?.trial_head_id && html`<button type="button" class="button" onClick=${() => setSheet("withdraw")}>Withdraw</button>`}
      ${kind === "baseline" && trial && html`<a class="button" href=${view.steps.find((one) => one.key === "plan")?.url ?? "#"}>To the loft plan</a>`}
      ${kind === "trials" && html`<button type="button" class="button" onClick=${() => go("compare")}>Hidden order</button>`}
      ${kind === "trials" && trial && trial.code === null && html`<button type="button" class="button" onClick=${() => setSheet("ratings")}>Player says</button>`}
      <button type="button" class="button" onClick=${() => setSheet("air")}>The air</button>
      ${view.me.may_capture && html`<a class="button" href=${`/visits/${view.visit.id}/files`}>Import a file</a>`}
    </div>`;
  const middle = () => {
    if (sheet === "air" && !refused) return html`<${AirSheet} store=${store} view=${view} onClose=${close} />`;
    if (refused || !trial || sheet === "next") {
      return html`<${NextClub} key=${refused?.command.id ?? "next"} store=${store} view=${view} purpose=${kind} refused=${refused} canClose=${trial !== null} onDone=${handOverDone} go=${go} />`;
    }
    if (sheet === "withdraw") return html`<${Withdraw} store=${store} view=${view} trial=${trial} onDone=${close} />`;
    if (sheet === "ratings") return html`<${PlayerSays} store=${store} view=${view} trial=${trial} situation=${situation} onClose=${close} />`;
    return html`<${ShotEntry} store=${store} view=${view} trial=${trial} situation=${situation} onSituation=${setSituation} kind=${kind}
      amending=${now} onAmended=${() => setAmending(null)} />`;
  };
  const isWide = refused !== null || (sheet !== "air" && (!trial || sheet === "next"));
  return html`<main class=${`capture-main is-trials${isWide ? " is-choosing" : ""}`} id="main"><h1 class="unseen">${kind === "baseline" ? "Baseline" : "Trials"}</h1>
    <${ClubInHand} view=${view} trial=${trial}>${buttons}<//>
    ${trial && html`<p class="hand-line">${handLine(trial)}</p>`}
    ${middle()}
    ${!isWide && html`<${Says} store=${store} view=${view} trial=${trial} situation=${situation} />`}
  </main>
  <${BallsFoot} store=${store} view=${view} shots=${shots} onShot=${setAmending} hasClub=${trial !== null} />`;
}

/** @param {{store: StepProps["store"], view: VisitState, shots: Shot[], onShot: (id: string) => void, hasClub: boolean}} props */
export function BallsFoot({ store, view, shots, onShot, hasClub }) {
  const { act, says } = store.undoing(shots);
  return html`<footer class="capture-foot">
    ${hasClub && html`<button type="button" class="button undo" disabled=${!act} onClick=${() => store.undo(shots)}>
        <${Icon} name="undo" /><span>${act || !says ? "Undo" : "Can't undo"}${says && html`<span class="unseen">: </span><small>${says}</small>`}</span></button>
      <ol class="last-shots" aria-label="Last balls">${shots.filter((shot) => shot.left_out !== "undone" && shot.left_out !== "mistyped").slice(-5).map((shot) => html`<li key=${shot.id} class=${shot.left_out || !shot.in_mean ? "is-out" : ""}>
        <button type="button" onClick=${() => onShot(shot.id)} aria-label=${`Ball ${shot.number}: ${carryWords(shot.carry) || "no figure"} ${noteOf(shot)}. Correct it`}><b>${carryWords(shot.carry) || "\u00b7"}</b><small>${noteOf(shot) || shot.number}</small></button></li>`)}</ol>
      <div class="foot-words"><${TallyLine} shots=${shots} unit=${view.player.unit} /><${Clock} view=${view} /></div>`}
    ${!hasClub && html`<div class="foot-words"><p class="tally">No club in the hand</p><${Clock} view=${view} /></div>`}
    <${Sent} store=${store} />
  </footer>`;
}

/** @param {Shot} shot */
function noteOf(shot) {
  if (shot.left_out) return shot.left_out;
  return shot.strike && shot.strike !== "clean" ? shot.strike : "";
}

/** Minutes, full swings against their limit (the warm-up does not count), what is not begun. @param {{view: VisitState}} props */
function Clock({ view }) {
  const { full_swings: swings, full_swings_most: most, is_tiring: isTiring, minutes, not_started: open } = view.clock;
  const rest = [minutes === null || minutes === undefined ? "" : `${minutes} min left`, notStarted(open)].filter(Boolean).join(", ");
  return html`<p class="clock"><span class=${isTiring ? "is-tiring" : ""}>${swings} of ${most} full swings${isTiring ? ": tiring" : ""}</span>${rest && `, ${rest}`}</p>`;
}

/** The first of it by name: the steps above show the others. @param {string[]} open */
function notStarted([first]) {
  return first ? `${first.toLowerCase()} not started` : "";
}

/** @type {[string, string][]} */
const ABOUT = [["feel", "Feel"], ["sound", "Sound"], ["look", "Look at address"], ["turf", "Through the turf"], ["trust", "Trust in it"]];

/** @param {{store: StepProps["store"], view: VisitState, trial: Trial, situation: Situation, onClose: () => void}} props */
function PlayerSays({ store, view, trial, situation, onClose }) {
  return html`<section class="panel entry" aria-label="What the player says"><div class="sheet-head"><h2 class="sheet-title">The player says</h2>
      <button type="button" class="button" onClick=${onClose}>Back to the balls</button></div>
    <p class="soft">${feltWords(view, situation)}</p>
    ${ABOUT.map(([about, label]) => html`<${Rating} key=${about} label=${label} value=${ratedIn(trial.rated, about, situation)}
      onPick=${(/** @type {number} */ score) => store.record("rating.record", { id: newId(), trial_id: trial.id, about, score: String(score), ...feltIn(situation) })} />`)}</section>`;
}
