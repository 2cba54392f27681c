// The visit as this tablet knows it: the server's last word, and on top of it what was recorded here.
import { offerOf, takingBack, withChange, withEntry, withoutRefused } from "./acts.js";
import { applied } from "./apply.js";
import { makeCommand } from "./commands.js";
import { keep, keptOf } from "./kept.js";
import { Outbox } from "./outbox.js";

/** @typedef {import("./types.js").VisitState} VisitState */
/** @typedef {import("./types.js").Command} Command */
/** @typedef {import("./types.js").Receipt} Receipt */
/** @typedef {import("./types.js").Refusal} Refusal */
/** @typedef {import("./types.js").Body} Body */
/** @typedef {import("./types.js").Shot} Shot */
/** @typedef {import("./types.js").Situation} Situation */
/** @typedef {import("./acts.js").Said} Said */

// Whoever stands in the bay must hear of a withdrawn head within seconds. Nearly every look is a 304.
const LOOK_AGAIN_MS = 5_000;
const LONGEST_PAUSE_MS = 60_000;

/** How long until the next look, after so many that failed in a row. @param {number} failures */
export function pauseUntilLook(failures) {
  return Math.min(LONGEST_PAUSE_MS, LOOK_AGAIN_MS * 2 ** failures);
}

/**
 * What an entry is about, so that recording it anew settles an earlier refusal.
 * @param {Command} command
 */
export function subjectOf({ kind, body }) {
  const about = { "interview.answer": body.question, "bag.club": body.club_id }[kind];
  // Neither the air nor the hand has a name of its own: the next one takes the refused one's place.
  if (kind === "conditions.record" || kind === "trial.start") return `${kind} `;
  return about ? `${kind} ${about}` : `${kind} ${body.id ?? ""}`;
}

export class VisitStore {
  /** @type {VisitState | null} */ server = null;
  /** @type {VisitState | null} */ view = null;
  /** What a person has to look at. @type {Refusal[]} */ refused = [];
  /** Acknowledged, but not yet in the state that was read. @type {{command: Command, version: number}[]} */
  acknowledged = [];
  /** @type {"loading" | "ready" | "no_signal" | "signed_out" | "not_found"} */ phase = "loading";
  /** Counts the receipts: what comes from the server is worth another look. */ receipts = 0;
  /** @type {Set<() => void>} */ listeners = new Set();
  /** What was shown behind a number, by comparison and number. @type {Map<string, string>} */ shown = new Map();
  /** The last hand-over that was recorded here, by its command. */ handedOver = "";
  /** How many entries were made on this page. */ recorded = 0;
  /** What is said of the ball that is in the air. @type {Said} */ said = {};
  isLoading = false;
  isLoadWanted = false;
  /** The ETag of what is held. */ tag = "";
  /** When the server last told the state, or that it is unchanged, by its own clock. */ heardAt = "";
  failures = 0;
  /** @type {number | undefined} */ timer;

  /** @param {string} visitId */
  constructor(visitId) {
    this.visitId = visitId;
    this.api = `/api/v1/visits/${visitId}`;
    this.kept = keptOf(visitId);
    // Nothing is in the air any more.
    this.kept.acts = this.kept.acts.filter((act) => act.kind !== "said");
    this.outbox = new Outbox(`${this.api}/commands`, {
      onReceipt: (command, receipt) => this.take(command, receipt),
      onChange: () => this.changed(),
    });
    addEventListener("online", () => void this.load());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") void this.load();
    });
  }

  /** @param {() => void} listener */
  subscribe(listener) {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }

  changed() {
    if (this.server) {
      const since = this.acknowledged.map((one) => one.command);
      this.view = applied(this.server, [...since, ...this.outbox.queue]);
    }
    for (const listener of this.listeners) listener();
  }

  /** Read the state; one request at a time, and once more if it was wanted meanwhile. */
  async load() {
    if (this.isLoading) {
      this.isLoadWanted = true;
      return;
    }
    this.isLoading = true;
    this.isLoadWanted = false;
    clearTimeout(this.timer);
    const before = this.phase;
    const isNew = await this.read();
    this.isLoading = false;
    // What is unchanged is not drawn again: nobody's typing is touched.
    if (isNew || this.phase !== before) this.changed();
    if (this.isLoadWanted) void this.load();
    else this.lookLater();
  }

  /** Nobody looks at a hidden page: it is read again as soon as it is shown. */
  lookLater() {
    if (document.visibilityState !== "visible" || this.phase === "not_found") return;
    this.timer = setTimeout(() => void this.load(), pauseUntilLook(this.failures));
  }

  /** @returns {Promise<boolean>} whether another state came than the one that is held */
  async read() {
    try {
      const answer = await fetch(`${this.api}/state`, {
        credentials: "same-origin", redirect: "manual",
        headers: { Accept: "application/json", ...(this.tag && { "If-None-Match": this.tag }) },
        signal: AbortSignal.timeout(10_000),
      });
      const isHeard = answer.ok || answer.status === 304;
      // The line is back: what is kept here needn't wait for its own next try.
      if (isHeard && this.failures > 0) void this.outbox.send();
      this.failures = isHeard ? 0 : this.failures + 1;
      if (isHeard) {
        this.heardAt = answer.headers.get("X-Told-At") ?? "";
        this.tag = answer.headers.get("ETag") ?? "";
      }
      if (answer.status === 304) {
        this.phase = "ready";
        return false;
      }
      if (answer.type === "opaqueredirect" || answer.status === 401 || answer.status === 403) this.phase = "signed_out";
      else if (answer.status === 404) this.phase = "not_found";
      else if (!answer.ok) this.phase = "no_signal";
      else this.arrived(/** @type {VisitState} */ (await answer.json()));
      return answer.ok;
    } catch {
      this.failures += 1;
      this.phase = "no_signal";
      return false;
    }
  }

  /** @param {VisitState} state */
  arrived(state) {
    this.server = state;
    this.phase = "ready";
    this.acknowledged = this.acknowledged.filter((one) => one.version > state.visit.sequence);
  }

  /**
   * Record one fact: shown at once, sent as soon as there is a line.
   * @param {string} kind @param {Body} body @param {boolean} isAct whether Undo takes it back by itself
   */
  record(kind, body, isAct = true) {
    if (isAct) this.keepActs(withEntry(this.kept.acts, kind, body));
    const command = makeCommand(kind, body, this.heardAt);
    const subject = subjectOf(command);
    this.recorded += 1;
    if (kind === "trial.start") this.handedOver = command.id;
    this.refused = this.refused.filter((one) => subjectOf(one.command) !== subject);
    this.outbox.add(command);
    return command;
  }

  /** Say something of the ball that is in the air; by itself nothing is recorded. @param {Said} said */
  say(said) {
    const keys = [...new Set([...Object.keys(said), ...Object.keys(this.said)])];
    const key = keys.find((one) => (said[one] ?? "") !== (this.said[one] ?? ""));
    if (key) this.keepActs(withChange(this.kept.acts, { kind: "said", before: this.said, key }));
    this.said = said;
    this.changed();
  }

  /** The ball is down, or the club is another. */
  sayNothing() {
    this.said = {};
    this.keepActs(this.kept.acts.filter((act) => act.kind !== "said"));
    this.changed();
  }

  /**
   * Choose what the next ball will be recorded in. It is kept over a page load and is no fact before a ball is hit.
   * @param {Situation} before @param {Situation} after @param {string} key what was changed @param {string} says
   */
  choose(before, after, key, says) {
    const { kept } = this;
    const wasChosen = kept.chosen[after.swing] ?? null;
    kept.unit = this.view?.player.unit ?? "";
    kept.now = after;
    if (key !== "swing") kept.chosen[after.swing] = after;
    kept.acts = withChange(kept.acts, { kind: "surroundings", before, after, key, was_chosen: wasChosen, says });
    keep(this.visitId, kept);
    this.changed();
  }

  /** A ball was hit in it: from here on the record says so. @param {Situation} situation */
  hitIn(situation) {
    this.kept.unit = this.view?.player.unit ?? "";
    this.kept.now = situation;
    delete this.kept.chosen[situation.swing];
    keep(this.visitId, this.kept);
  }

  /** A ball may lie where it was recorded. @param {string} shotId */
  lookedAt(shotId) {
    this.kept.looked_at = [...this.kept.looked_at, shotId].slice(-20);
    keep(this.visitId, this.kept);
    this.changed();
  }

  /** @param {import("./acts.js").Act} act */
  chooseBack(act) {
    if (act.kind !== "surroundings") return;
    this.kept.now = act.before;
    if (act.key === "swing") return;
    if (act.was_chosen) this.kept.chosen[act.after.swing] = act.was_chosen;
    else delete this.kept.chosen[act.after.swing];
  }

  /** @param {import("./acts.js").Act[]} acts */
  keepActs(acts) {
    if (acts === this.kept.acts) return;
    this.kept.acts = acts;
    keep(this.visitId, this.kept);
  }

  /** What Undo would take back now. @param {Shot[]} shots the last balls that are seen */
  undoing(shots) {
    return this.view ? offerOf(this.kept.acts, this.view, this.said, this.kept.now, shots) : { act: null, says: "" };
  }

  /** Take back the last act, whatever it was. @param {Shot[]} shots */
  undo(shots) {
    const { act } = this.undoing(shots);
    if (!act || !this.view) return;
    const facts = takingBack(act, this.view);
    const place = this.kept.acts.lastIndexOf(act);
    if (act.kind === "said") this.said = act.before;
    this.chooseBack(act);
    this.keepActs(place < 0 ? this.kept.acts : this.kept.acts.slice(0, place));
    for (const [kind, body] of facts) this.record(kind, body, false);
    this.changed();
  }

  /** @param {Command} command @param {Receipt} receipt */
  take(command, receipt) {
    this.receipts += 1;
    if (receipt.outcome === "stored") {
      const version = receipt.version ?? receipt.sequence ?? 0;
      this.acknowledged.push({ command, version });
      if (receipt.shown) this.shown.set(`${command.body.comparison_id} ${command.body.code}`, receipt.shown);
    } else {
      this.keepActs(withoutRefused(this.kept.acts, command.body));
      this.refused.push({ command, errors: receipt.errors ?? {}, sentence: receipt.sentence ?? "" });
    }
    void this.load();
  }

  /** A person has looked at it and lets it go. @param {string} commandId */
  dismiss(commandId) {
    this.refused = this.refused.filter((one) => one.command.id !== commandId);
    this.changed();
  }

  /** The refusal of the last entry about a subject. @param {string} kind @param {string} about */
  refusalOf(kind, about) {
    return this.refused.find((one) => subjectOf(one.command) === `${kind} ${about}`) ?? null;
  }
}
