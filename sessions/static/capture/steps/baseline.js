// The baseline: the pitching wedge that stays, in full stock swings, after the warm-up.
import { html } from "../../vendor/htm-preact.js";
import { Bay } from "./trials.js";

/** @param {import("../app.js").StepProps} props */
export function Baseline(props) {
  return html`<${Bay} ...${props} kind="baseline" />`;
}
