// The interview: any question in any order, put off with one tap, and never in the way of a ball.
import { html, useState } from "../../vendor/htm-preact.js";
import { newId } from "../commands.js";
import { Sent } from "../frame.js";
import { Chips, FieldError, Icon, SavedLine, SeveralChips } from "../parts.js";

/** @typedef {import("../app.js").StepProps} StepProps */
/** @typedef {import("../types.js").Question} Question */
/** @typedef {import("../types.js").Answer} Answer */
/** @typedef {import("../types.js").Json} Json */
/** @typedef {import("../types.js").QuestionGroup} QuestionGroup */

/** @type {import("../types.js").Choice[]} */
const SPEAKERS = [["player", "The player says"], ["guardian", "A guardian says"], ["fitter", "I see it"]];
const SPEAKER_WORDS = /** @type {Record<string, string>} */ ({ guardian: "said by a guardian", fitter: "seen by the fitter" });

/** @param {Answer | undefined} answer */
export function isAnswered(answer) {
  if (!answer) return false;
  return Array.isArray(answer.value) ? answer.value.length > 0 : answer.value !== null && answer.value !== "";
}

/** @param {StepProps} props */
export function Interview({ store, view, go }) {
  const { groups, answers } = view.interview;
  const [open, setOpen] = useState(() => firstOpen(groups, answers));
  const [speaker, setSpeaker] = useState("player");
  const isOpen = view.visit.state === "open" && view.me.may_capture;
  const group = groups[open] ?? groups[0];
  const wide = wideOnes(group?.questions ?? []);
  const questions = groups.flatMap((one) => one.questions);
  const done = questions.filter((one) => isAnswered(answers[one.key])).length;
  const later = questions.filter((one) => answers[one.key]?.ask_later).length;
  /** @param {number} index */
  const turnTo = (index) => {
    setOpen(index);
    document.getElementById("main")?.scrollTo(0, 0);
    scrollTo(0, 0);
  };
  return html`<main class="capture-main is-aside" id="main">
    <nav class="aside" aria-label="Parts of the interview">
      <ol>${groups.map((one, index) => html`<li key=${one.label}><button type="button" class="aside-part" aria-current=${index === open ? "true" : undefined}
        onClick=${() => turnTo(index)}><span>${one.label}</span><small>${countOf(one, answers)}</small></button></li>`)}</ol>
    </nav>
    <div class="aside-body">
      <div class="row between"><h1>${group?.label}</h1><${Chips} label="Who says it" choices=${SPEAKERS} value=${speaker} onPick=${setSpeaker} /></div>
      <fieldset class="as-was" disabled=${!isOpen}><div class="questions">${group?.questions.map((question) => html`<${Asked} key=${question.key} question=${question} isWide=${wide.has(question.key)}
        answer=${answers[question.key]} store=${store} speaker=${speaker} />`)}</div></fieldset>
      <div class="actions">
        ${open > 0 && html`<button type="button" class="button" onClick=${() => turnTo(open - 1)}><${Icon} name="arrow-left" />${groups[open - 1]?.label}</button>`}
        ${open < groups.length - 1
          ? html`<button type="button" class="button go" onClick=${() => turnTo(open + 1)}>${groups[open + 1]?.label}<${Icon} name="arrow-right" /></button>`
          : !isOpen || view.interview.closed ? html`<button type="button" class="button go" onClick=${() => go("bag")}>To the bag<${Icon} name="arrow-right" /></button>`
            : html`<button type="button" class="button go" onClick=${() => { store.record("interview.close", {}); go("bag"); }}>Close the interview, to the bag</button>`}
      </div>
    </div>
  </main>
  <footer class="capture-foot">
    <p class="tally"><b>${done} of ${questions.length} answered</b>${later > 0 && `, ${later} to ask later`}</p>
    ${isOpen && html`<button type="button" class="button" onClick=${() => go("baseline")}>Balls first: to the baseline</button>`}
    <${Sent} store=${store} />
  </footer>`;
}

/** @param {QuestionGroup[]} groups @param {Record<string, Answer>} answers */
function firstOpen(groups, answers) {
  return Math.max(0, groups.findIndex((one) => one.questions.some((question) => !isAnswered(answers[question.key]))));
}

/** @param {QuestionGroup} group @param {Record<string, Answer>} answers */
function countOf(group, answers) {
  const done = group.questions.filter((one) => isAnswered(answers[one.key])).length;
  return done === group.questions.length ? "all answered" : `${done} of ${group.questions.length}`;
}

/** Which take the whole width: many chips, and who would stand alone beside a gap. @param {Question[]} questions */
function wideOnes(questions) {
  const wide = new Set(questions.filter((one) => one.kind === "several" || one.choices.length > 4).map((one) => one.key));
  let alone = "";
  for (const { key } of questions) {
    if (wide.has(key) && alone) wide.add(alone);
    alone = wide.has(key) || alone ? "" : key;
  }
  if (alone) wide.add(alone);
  return wide;
}

/** @param {{question: Question, isWide: boolean, answer: Answer | undefined, store: StepProps["store"], speaker: string}} props */
function Asked({ question, isWide, answer, store, speaker }) {
  const refusal = store.refusalOf("interview.answer", question.key);
  const error = refusal ? refusal.errors.value ?? Object.values(refusal.errors)[0] ?? refusal.sentence : undefined;
  const given = refusal ? refusal.command.body.value ?? null : answer?.value ?? null;
  const id = `q-${question.key}`;
  /** @param {Json} value @param {boolean} isLater */
  const say = (value, isLater = false) => store.record("interview.answer", {
    id: newId(), question: question.key, value, ask_later: isLater, said_by: speaker, said_where: "shop",
  });
  const said = isAnswered(answer) ? SPEAKER_WORDS[answer?.said_by ?? ""] ?? "" : "";
  const later = isAnswered(answer) ? "stands, to ask again later" : "to ask later";
  const words = [said, answer?.ask_later ? later : ""].filter(Boolean).join("; ");
  return html`<section class=${`question${isAnswered(answer) ? " is-answered" : ""}${isWide ? " is-wide" : ""}`} aria-labelledby=${id}>
    <div class="question-head"><h2 id=${id}>${question.label}</h2>
      <button type="button" class="later" aria-pressed=${String(answer?.ask_later === true)} aria-describedby=${id}
        onClick=${() => say(answer?.value ?? null, !answer?.ask_later)}>Ask later</button></div>
    ${question.help && html`<p class="soft">${question.help}</p>`}
    <${Entry} question=${question} id=${id} given=${given} error=${error} say=${say} />
    ${words && html`<p class="said soft">${words}</p>`}
  </section>`;
}

/** @param {{question: Question, id: string, given: Json, error: string | undefined, say: (value: Json) => void}} props */
function Entry({ question, id, given, error, say }) {
  /** @type {import("../types.js").Choice[]} */
  const choices = question.choices.map((choice) => [choice.value, choice.label]);
  const text = given === null || Array.isArray(given) ? "" : String(given);
  if (question.kind === "chips") {
    return html`<${Chips} labelledBy=${id} label=${question.label} choices=${choices} value=${text} canClear=${true} onPick=${say} />
      <${FieldError} id=${`${id}-error`} error=${error} />`;
  }
  if (question.kind === "several") {
    const values = Array.isArray(given) ? given.map(String) : [];
    return html`<${SeveralChips} labelledBy=${id} label=${question.label} choices=${choices} values=${values} onPick=${say} />
      <${FieldError} id=${`${id}-error`} error=${error} />`;
  }
  return html`<${SavedLine} id=${`${id}-in`} labelledBy=${id} value=${text} unit=${question.unit} error=${error}
    isFigure=${question.kind === "number"} isMany=${question.kind === "text"} onSave=${say} />`;
}
