// A visit in which nothing is recorded: what was hit, club by club, to look at.
import { html } from "../../vendor/htm-preact.js";
import { shown, tally } from "../figures.js";
import { Sent } from "../frame.js";
import { Says } from "./says.js";
import { lastSituation, swingWords } from "./situation.js";

/** @typedef {import("../types.js").Trial} Trial */
/** @typedef {import("../types.js").VisitState} VisitState */

const PURPOSES = /** @type {Record<string, string>} */ ({ baseline: "baseline", own: "own club", candidate: "" });

/** @param {{store: import("../state.js").VisitStore, view: VisitState, kind: "baseline" | "trials"}} props */
export function LookedAt({ store, view, kind }) {
  const clubs = view.trials.filter((trial) => kind === "trials" || trial.purpose === "baseline");
  return html`<main class="capture-main is-trials is-looking" id="main"><h1 class="unseen">${kind === "baseline" ? "Baseline" : "Trials"}</h1>
    <section class="panel entry" aria-label="Clubs that were hit" tabindex="0"><h2 class="sheet-title">Clubs that were hit</h2>
      ${clubs.length ? html`<ol class="hit-clubs">${clubs.map((trial) => html`<${HitClub} key=${trial.id} view=${view} trial=${trial} />`)}</ol>`
        : html`<p class="soft">No club was put in the hand in this visit.</p>`}
    </section>
    <${Says} store=${store} view=${view} trial=${null} situation=${lastSituation(view)} />
  </main>
  <footer class="capture-foot"><p class="tally"><b>${view.clock.balls} balls</b>, ${view.clock.full_swings} full swings</p><${Sent} store=${store} /></footer>`;
}

/** @param {{view: VisitState, trial: Trial}} props */
function HitClub({ view, trial }) {
  const about = [trial.stamped_words ?? "", trial.slot ? `slot ${trial.slot}` : "", PURPOSES[trial.purpose] ?? "", trial.shaft_name ?? ""].filter(Boolean);
  return html`<li><b>${trial.code ?? [trial.loft_words, trial.head_name].filter(Boolean).join(" ")}</b>
    <small>${about.join(", ")}</small>
    ${trial.blocks.map((block) => {
      const { count, mean, spread } = tally(block.shots);
      return count > 0 && html`<span key=${block.id}>${swingWords(view, block)}${block.is_warm_up && ", warm-up"}: ${count} ${count === 1 ? "ball" : "balls"}${mean !== null && `, mean ${shown(mean)} ${view.player.unit}`}${spread !== null && `, spread ${shown(spread)}`}</span>`;
    })}</li>`;
}
