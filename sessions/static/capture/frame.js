// Around every step: who it is, the steps, what needs a look, and what is still unsent.
import { html, useEffect, useState } from "../vendor/htm-preact.js";
import { isSecure } from "./commands.js";
import { Icon } from "./parts.js";

/** @typedef {import("./state.js").VisitStore} VisitStore */
/** @typedef {import("./types.js").VisitState} VisitState */
/** @typedef {import("./types.js").Step} Step */
/** @typedef {import("./types.js").Refusal} Refusal */

const IS_HERE = /^\/visits\/[^/]+\/room\//;

/** @param {{view: VisitState, step: string, onGo: (step: string) => void}} props */
export function VisitBar({ view, step, onGo }) {
  const { player, visit } = view;
  const about = [`${player.hand} hand`, player.unit === "m" ? "metres" : "yards", visit.bay].filter(Boolean).join(", ");
  return html`<header class="visit-bar">
    <div class="visit-who">
      <a class="home" href="/"><${Icon} name="arrow-left" /><span class="unseen">Leave the visit, to Today</span></a>
      <div><b>${player.name}</b><span>${about}</span></div>
      ${document.body.dataset.demo !== undefined && html`<b class="demo-tag">DEMO</b>`}
    </div>
    <${Steps} steps=${view.steps} step=${step} onGo=${onGo} />
  </header>`;
}

/** @param {{steps: Step[], step: string, onGo: (step: string) => void}} props */
function Steps({ steps, step, onGo }) {
  const index = steps.findIndex((one) => one.key === step);
  /** @param {MouseEvent} event @param {Step} one */
  const go = (event, one) => {
    // The rooms of this page are changed without leaving it: what is unsent stays in hand.
    if (!IS_HERE.test(one.url) || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const list = document.getElementById("steps-list");
    if (list && typeof list.hidePopover === "function" && list.matches(":popover-open")) list.hidePopover();
    onGo(one.key);
  };
  return html`<nav class="steps" aria-label="Steps of the visit">
    <button class="steps-open" type="button" popovertarget="steps-list"><${Icon} name="step-now" />${steps[index]?.label}
      <small>step ${index + 1} of ${steps.length}</small><${Icon} name="down" /><span class="unseen">All steps</span></button>
    <ol id="steps-list" popover="auto">${steps.map((one) => {
      const state = one.key === step ? "now" : one.state === "now" ? "todo" : one.state;
      return html`<li class=${`step is-${state}`} key=${one.key}>
        <a href=${one.url} aria-current=${state === "now" ? "step" : undefined} onClick=${(/** @type {MouseEvent} */ event) => go(event, one)}>
          <${Icon} name=${`step-${state}`} />${one.label}${state === "done" && html`<span class="unseen">, done</span>`}${state === "open" && html`<span class="unseen">, in progress</span>`}</a></li>`;
    })}</ol>
  </nav>`;
}

/** How long ago, in words that don't hurry. @param {number} seconds */
function ago(seconds) {
  if (seconds < 60) return "under a minute";
  const minutes = Math.floor(seconds / 60);
  return minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/** Draws again every few seconds, for the ages. */
function useNow() {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const tick = setInterval(() => setNow(Date.now()), 5000);
    return () => clearInterval(tick);
  }, []);
  return now;
}

/** The calm word in the foot: all sent, or how much is kept here. @param {{store: VisitStore}} props */
export function Sent({ store }) {
  const now = useNow();
  const { outbox } = store;
  const unsent = outbox.queue.length;
  const oldest = outbox.oldestAt ? ago((Math.max(now, Date.now()) - Date.parse(outbox.oldestAt)) / 1000) : "";
  if (outbox.line === "signed_out" && unsent > 0) {
    const next = encodeURIComponent(location.pathname);
    return html`<div class="sent is-waiting" role="status"><span>${unsent} kept on this tablet. <a href=${`/account/login/?next=${next}`} target="_blank" rel="opener">Sign in again</a></span>
      <button type="button" class="button" onClick=${() => void outbox.send()}>Send</button></div>`;
  }
  if (unsent === 0) {
    const at = outbox.lastReceiptAt;
    const since = at ? `, ${at.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" })}` : "";
    return html`<p class="sent" role="status"><${Icon} name="check" /><span>All sent<small>${since}</small></span></p>`;
  }
  if (outbox.line === "quiet") return html`<p class="sent" role="status">Sending ${unsent}</p>`;
  const why = outbox.line === "unknown_visit" ? "The visit was not found" : "No signal";
  return html`<button type="button" class="sent is-waiting button" onClick=${() => void outbox.send()}>
    <${Icon} name="signal-none" /><span role="status">${why}, ${unsent} kept on this tablet<small>oldest ${oldest}, tap to try</small></span></button>`;
}

const NAMES = /** @type {Record<string, string>} */ ({
  "interview.answer": "An answer", "bag.club": "A club of the bag", "bag.others": "The other clubs",
  "trial.start": "A club in the hand", "block.start": "A situation", "shot.record": "A shot",
  "trial.finish": "Taking the club out of the hand", "conditions.record": "The air",
  "shot.exclude": "Leaving a shot out", "rating.record": "A rating", "comparison.open": "A comparison",
  "comparison.rate": "A rating", "comparison.reveal": "The reveal", "equipment.withdraw": "Withdrawing",
});

/** What was typed, in short. @param {Refusal} refusal */
function typedWords({ command }) {
  const { body } = command;
  const words = ["label", "value", "carry", "side", "about", "score", "why"].flatMap((key) => {
    const value = body[key];
    return typeof value === "string" && value ? [`${key} ${value}`] : [];
  });
  return words.join(", ");
}

/** Everything that was refused and has no field of its own in sight. @param {{store: VisitStore, shownElsewhere: (refusal: Refusal) => boolean}} props */
export function NeedsAttention({ store, shownElsewhere }) {
  const items = store.refused.filter((refusal) => !shownElsewhere(refusal));
  if (!items.length) return null;
  return html`<section class="attention" aria-label="Needs attention" role="alert">
    ${items.map((refusal) => html`<div class="strip error" key=${refusal.command.id}><${Icon} name="warning" />
      <p><b>${NAMES[refusal.command.kind] ?? refusal.command.kind} was not stored${typedWords(refusal) && `: ${typedWords(refusal)}`}.</b>
        ${" "}${refusal.sentence || Object.values(refusal.errors).join(" ")}</p>
      <button type="button" class="button" onClick=${() => store.dismiss(refusal.command.id)}>Seen</button></div>`)}
  </section>`;
}

const CLOSED = /** @type {Record<string, string>} */ ({
  closed: "This visit is closed. What was recorded can be looked at; nothing more is recorded in it.",
  booked: "This visit is booked, not open yet. Open it to record.",
  cancelled: "This visit was cancelled. Nothing is recorded in it.",
  no_show: "The player did not come. Nothing is recorded in this visit.",
});

/** Said once, above the step: what this tablet can't do here. @param {{view: VisitState}} props */
export function Warning({ view }) {
  const { state } = view.visit;
  if (state !== "open") {
    const said = CLOSED[state] ?? `This visit is ${state}. Nothing can be recorded in it.`;
    return html`<aside class="strip sand capture-note" aria-label="Looking back"><${Icon} name="note" /><span>${said}</span>
      <a class="button" href=${`/visits/${view.visit.id}?stay=1`}>To the visit</a></aside>`;
  }
  if (!view.me.may_capture) {
    return html`<aside class="strip sky capture-note" aria-label="What you may do"><${Icon} name="note" /><span>You can look. Recording is for the fitters of ${view.visit.location || "this place"}.</span></aside>`;
  }
  if (!isSecure()) {
    return html`<aside class="strip sand capture-note" aria-label="This tablet"><${Icon} name="warning" /><span>Over plain http this tablet can't keep records without a network. Ask for the https address.</span></aside>`;
  }
  return null;
}
