// What the shots say: charts and verdicts come from the server as a fragment, and may be absent.
import { html, useEffect, useRef, useState } from "../../vendor/htm-preact.js";
import { shown, tally } from "../figures.js";
import { isSame, labelOf, openBlock, shotsIn } from "./situation.js";

/** @typedef {import("../state.js").VisitStore} VisitStore */
/** @typedef {import("../types.js").VisitState} VisitState */
/** @typedef {import("../types.js").Situation} Situation */
/** @typedef {import("../types.js").Trial} Trial */

const FORBIDDEN = "script, style, iframe, object, embed, form, link, meta, base";
const SETTLE_MS = 350;

/** Our own server's fragment, without anything that could run or dress itself. @param {string} text */
export function cleaned(text) {
  const page = new DOMParser().parseFromString(text, "text/html");
  for (const element of page.querySelectorAll(FORBIDDEN)) element.remove();
  for (const element of page.body.querySelectorAll("*")) {
    for (const { name, value } of [...element.attributes]) {
      const isActive = name.startsWith("on") || name.startsWith("hx-") || name === "style" || /^\s*javascript:/i.test(value);
      if (isActive) element.removeAttribute(name);
    }
  }
  return [...page.body.childNodes];
}

/**
 * The club in the hand comes first, in the situation that is hit now.
 * @param {{store: VisitStore, view: VisitState, trial: Trial | null, situation: Situation}} props
 */
export function Says({ store, view, trial, situation }) {
  const place = useRef(/** @type {HTMLDivElement | null} */ (null));
  const [has, setHas] = useState(false);
  const { receipts, visitId } = store;
  const block = trial ? openBlock(trial, situation) ?? trial.blocks.find((one) => isSame(one, situation)) : null;
  const asked = new URLSearchParams({ ...(trial?.slot && { slot: String(trial.slot) }), ...(trial && { trial: trial.id }), ...(block && { block: block.id }) }).toString();
  useEffect(() => {
    const stop = new AbortController();
    const wait = setTimeout(async () => {
      const nodes = await fragment(visitId, asked, stop.signal);
      if (nodes === undefined || !place.current) return;
      place.current.replaceChildren(...(nodes ?? []));
      setHas(nodes !== null);
    }, SETTLE_MS);
    return () => { clearTimeout(wait); stop.abort(); };
  }, [receipts, visitId, asked, view.visit.sequence]);
  return html`<section class="panel says" aria-label="What the balls say">
    <div class="says-fragment" ref=${place} hidden=${!has}></div>
    ${!has && html`<${Counted} view=${view} situation=${situation} />`}
  </section>`;
}

/** Null where there is none, undefined where it can't be asked now. @param {string} visitId @param {string} asked @param {AbortSignal} signal */
async function fragment(visitId, asked, signal) {
  try {
    const answer = await fetch(`/visits/${visitId}/verdicts?${asked}`, { credentials: "same-origin", redirect: "manual", signal });
    if (!answer.ok || !(answer.headers.get("Content-Type") ?? "").startsWith("text/html")) return null;
    const nodes = cleaned(await answer.text());
    return nodes.some((node) => (node.textContent ?? "").trim()) ? nodes : null;
  } catch {
    return undefined;
  }
}

/** Count, mean and spread of each club in this swing: all that is worked out here. @param {{view: VisitState, situation: Situation}} props */
function Counted({ view, situation }) {
  const swing = labelOf(view, "swing", situation.swing);
  const rows = view.trials.map((trial) => ({ trial, said: tally(shotsIn(trial, situation)) })).filter(({ said }) => said.count > 0);
  if (!rows.length) {
    return html`<div class="say"><h2>What the balls say</h2><p class="soft">Carries, gaps and what can be told from them stand here from the first balls on.</p></div>`;
  }
  return html`<div class="say"><h2>Carry, ${swing.toLowerCase()}, here (${view.player.unit})</h2>
    <table class="counted"><thead><tr><th scope="col">Club</th><th scope="col" class="num">Balls</th><th scope="col" class="num">Mean</th><th scope="col" class="num">Spread</th></tr></thead>
    <tbody>${rows.map(({ trial, said }) => html`<tr key=${trial.id} class=${trial.state === "open" ? "chosen" : ""}>
      <th scope="row">${trial.code ?? (trial.loft_words || trial.head_name || `Club ${trial.number}`)}<small>${trial.code === null && trial.loft_words ? trial.head_name : ""}</small></th>
      <td class="num">${said.count}</td><td class="num">${said.mean === null ? "" : shown(said.mean)}</td><td class="num">${said.spread === null ? "" : shown(said.spread)}</td></tr>`)}</tbody></table></div>`;
}
