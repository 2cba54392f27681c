// A part of the club in the hand was withdrawn: said on every tablet, in every room, until it is out.
import { html, useEffect } from "../vendor/htm-preact.js";
import { Icon } from "./parts.js";

/** @typedef {import("./state.js").VisitStore} VisitStore */
/** @typedef {import("./types.js").VisitState} VisitState */
/** @typedef {import("./types.js").Trial} Trial */

/** Why a club may not be hit any more; nothing where it may. @param {Trial} trial */
export function stopsOf(trial) {
  return trial.state === "open" || trial.code !== null ? trial.stops ?? [] : [];
}

/** @param {{store: VisitStore, view: VisitState}} props */
export function Stops({ store, view }) {
  const found = view.trials.flatMap((trial) => stopsOf(trial).map((stop) => ({ trial, stop })));
  const count = found.length;
  useEffect(() => {
    // Felt as well, where the device can: the eyes are on the player.
    if (count > 0 && navigator.userActivation?.hasBeenActive) navigator.vibrate?.(400);
  }, [count]);
  if (!count) return null;
  const inHand = found.find(({ trial }) => trial.state === "open")?.trial;
  return html`<section class="stop-now" role="alert" aria-label="Stop"><${Icon} name="stop" />
    <div>${found.map(({ trial, stop }) => html`<p key=${`${trial.id}${stop.what}`}><b>${nameOf(trial, stop)}</b> ${stop.sentence}</p>`)}</div>
    ${inHand && view.me.may_capture && html`<button type="button" class="button" onClick=${() => store.record("trial.finish", { trial_id: inHand.id })}>It is out of the bay</button>`}
  </section>`;
}

/** @param {Trial} trial @param {import("./types.js").Stop} stop */
function nameOf(trial, { what, mark }) {
  if (trial.code !== null) return `Number ${trial.code}, ${what.toLowerCase()}:`;
  return mark ? `${mark}:` : `${what}:`;
}
