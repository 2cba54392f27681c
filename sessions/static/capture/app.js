// The capture pages of one visit: an empty shell is served, this draws the room that the address names.
import { html, render, useEffect, useState } from "../vendor/htm-preact.js";
import { NeedsAttention, VisitBar, Warning } from "./frame.js";
import { VisitStore } from "./state.js";
import { Stops } from "./stops.js";
import { Bag } from "./steps/bag.js";
import { Baseline } from "./steps/baseline.js";
import { refusedHandOver } from "./steps/hand_over.js";
import { Compare } from "./steps/compare.js";
import { Interview } from "./steps/interview.js";
import { Trials } from "./steps/trials.js";

/** @typedef {import("./types.js").VisitState} VisitState */
/** @typedef {import("./types.js").Refusal} Refusal */
/** @typedef {{store: VisitStore, view: VisitState, go: (step: string) => void}} StepProps */

/** @type {Record<string, {title: string, draw: (props: StepProps) => any, owns: string[]}>} */
const ROOMS = {
  interview: { title: "Interview", draw: Interview, owns: ["interview.answer"] },
  bag: { title: "Bag", draw: Bag, owns: ["bag.club"] },
  baseline: { title: "Baseline", draw: Baseline, owns: ["shot.record"] },
  trials: { title: "Trials", draw: Trials, owns: ["shot.record"] },
  compare: { title: "Compare", draw: Compare, owns: ["shot.record"] },
};

const [, , visitId = "", , firstStep = ""] = location.pathname.split("/");

/** @param {{store: VisitStore}} props */
function App({ store }) {
  const [step, setStep] = useState(firstStep);
  const [, redraw] = useState(0);
  useEffect(() => store.subscribe(() => redraw((count) => count + 1)), [store]);
  useEffect(() => {
    const back = () => setStep(location.pathname.split("/")[4] ?? "interview");
    addEventListener("popstate", back);
    return () => removeEventListener("popstate", back);
  }, []);
  useEffect(() => {
    document.title = [ROOMS[step]?.title, store.view?.player.name].filter(Boolean).join(", ");
  }, [step, store.view?.player.name]);

  /** @param {string} next */
  const go = (next) => {
    if (!ROOMS[next]) {
      location.assign(store.view?.steps.find((one) => one.key === next)?.url ?? "/");
      return;
    }
    history.pushState(null, "", `/visits/${visitId}/room/${next}`);
    setStep(next);
    scrollTo(0, 0);
  };
  const { view } = store;
  const room = ROOMS[step];
  if (!room) return html`<${Told} title="There is no such step" sentence="Go back to Today and open the visit again." />`;
  if (!view) return html`<${Opening} store=${store} />`;
  const owned = (/** @type {Refusal} */ refusal) => room.owns.includes(refusal.command.kind) || refusal === refusedHandOver(store, view, step);
  return html`<${VisitBar} view=${view} step=${step} onGo=${go} />
    <${Stops} store=${store} view=${view} />
    <${Warning} view=${view} />
    <${NeedsAttention} store=${store} shownElsewhere=${owned} />
    <${room.draw} key=${step} store=${store} view=${view} go=${go} />`;
}

/** Before the first state has come. @param {{store: VisitStore}} props */
function Opening({ store }) {
  if (store.phase === "signed_out") {
    return html`<${Told} title="Sign in to open the visit" sentence="Nothing of it is kept in this page."
      url=${`/account/login/?next=${encodeURIComponent(location.pathname)}`} action="Sign in" />`;
  }
  if (store.phase === "not_found") return html`<${Told} title="No such visit here" sentence="It may belong to another place." url="/" action="To Today" />`;
  if (store.phase === "no_signal") {
    return html`<${Told} title="No signal" sentence="The visit opens as soon as the shop answers." onAgain=${() => void store.load()} />`;
  }
  return html`<main class="capture-main is-single" id="main"><p class="opening" role="status">Opening the visit</p></main>`;
}

/** @param {{title: string, sentence: string, url?: string, action?: string, onAgain?: () => void}} props */
function Told({ title, sentence, url, action, onAgain }) {
  return html`<main class="capture-main is-single" id="main"><div class="empty"><h1>${title}</h1><p>${sentence}</p>
    ${url && html`<a class="button go" href=${url}>${action}</a>`}
    ${onAgain && html`<button type="button" class="button go" onClick=${onAgain}>Try again</button>`}</div></main>`;
}

/** Touches with three fingers or more are a wet palm, not a decision. @param {TouchEvent} event */
function ignoreManyFingers(event) {
  if (event.touches.length >= 3) event.preventDefault();
}

/** The screen stays awake while a visit is open, where the device lets us ask. */
async function stayAwake() {
  try {
    if (document.visibilityState === "visible") await navigator.wakeLock?.request("screen");
  } catch {
    // Refused, by a low battery say: the fitter taps the screen awake.
  }
}

const store = new VisitStore(visitId);
const root = document.getElementById("room") ?? document.body;
root.replaceChildren();
root.classList.add("capture-room");
document.body.classList.add("capture");
document.addEventListener("touchstart", ignoreManyFingers, { passive: false });
document.addEventListener("visibilitychange", () => void stayAwake());
void stayAwake();
render(html`<${App} store=${store} />`, root);
setInterval(() => {
  if (!store.view && store.phase === "no_signal") void store.load();
}, 5000);
void store.load();

