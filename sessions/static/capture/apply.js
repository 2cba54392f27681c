// What a command will have changed, shown at once. The server's word replaces it at the next look.
// Each change is harmless when it is made twice, since the server may have it already.

/** @typedef {import("./types.js").VisitState} VisitState */
/** @typedef {import("./types.js").Command} Command */
/** @typedef {import("./types.js").Trial} Trial */
/** @typedef {import("./types.js").Body} Body */
/** @typedef {import("./types.js").Block} Block */

/** @param {Body} body @param {string} key */
function text(body, key) {
  const value = body[key];
  return typeof value === "string" ? value : "";
}

/** @param {Body} body @param {string} key @returns {string[]} */
function texts(body, key) {
  const value = body[key];
  return Array.isArray(value) ? value.filter((one) => typeof one === "string") : [];
}

/** @param {VisitState} state @param {string} id */
function trialOf(state, id) {
  return state.trials.find((trial) => trial.id === id);
}

/** @param {VisitState} state @param {string} id */
function blockOf(state, id) {
  return state.trials.flatMap((trial) => trial.blocks).find((block) => block.id === id);
}

/** @param {VisitState} state @param {string} id */
function shotOf(state, id) {
  return blockWith(state, id)?.shots.find((shot) => shot.id === id);
}

/** The block of a ball. @param {VisitState} state @param {string} shotId */
function blockWith(state, shotId) {
  return state.trials.flatMap((trial) => trial.blocks).find((block) => block.shots.some((shot) => shot.id === shotId));
}

/** What no longer holds, by what it was. @type {Record<string, (state: VisitState, body: Body) => void>} */
const TAKEN_BACK = {
  exclusion: (state, { of_id: id }) => {
    const shot = state.trials.flatMap((trial) => trial.blocks).flatMap((block) => block.shots).find((one) => one.left_out_id === id);
    if (shot) Object.assign(shot, { left_out: null, left_out_id: null });
  },
  rating: (state, { of_id: id }) => {
    const arms = state.comparisons.flatMap((one) => one.arms);
    for (const rated of [...state.trials, ...arms]) rated.rated = (rated.rated ?? []).filter((one) => one.id !== id);
  },
  hand_over: (state, { of_id: id }) => {
    const place = state.trials.findIndex((trial) => trial.id === id && trial.state === "open");
    if (place < 0) return;
    state.trials.splice(place, 1);
    const before = state.trials.at(-1);
    if (before && !before.stops?.length) before.state = "open";
  },
};

/** A step goes on, never back. @param {VisitState} state @param {string} key @param {"open" | "done"} to */
function stepTo(state, key, to) {
  const step = state.steps.find((one) => one.key === key);
  if (step && step.state !== "done") step.state = to;
}

/** @type {Record<string, (state: VisitState, body: Body) => void>} */
const CHANGES = {
  "interview.answer": (state, body) => {
    const question = text(body, "question");
    // Asked later, the answer that stands goes on standing.
    const stands = body.ask_later === true ? state.interview.answers[question] : undefined;
    const said = { value: body.value ?? null, said_by: text(body, "said_by"), ...stands, ask_later: body.ask_later === true };
    state.interview.answers[question] = said;
    stepTo(state, "interview", "open");
  },
  "interview.close": (state) => {
    state.interview.closed = true;
    stepTo(state, "interview", "done");
  },
  "bag.club": (state, body) => {
    const id = text(body, "club_id");
    const club = state.bag.clubs.find((known) => known.id === id);
    const facts = {
      id, kind: text(body, "kind"), label: text(body, "label"), maker: text(body, "maker"),
      model: text(body, "model"), stamped_loft: text(body, "stamped_loft"),
      stamped_bounce: text(body, "stamped_bounce"), making: text(body, "making"), shaft: text(body, "shaft"),
      entry: { ...body },
    };
    if (club) Object.assign(club, facts);
    else state.bag.clubs.push(facts);
  },
  "bag.others": (state, body) => {
    const counts = /** @type {Record<string, string>} */ (body.counts ?? {});
    const unused = /** @type {Record<string, string>} */ (body.unused ?? {});
    for (const kind of Object.keys(counts)) {
      state.bag.others[kind] = { count: Number(counts[kind]), unused: Number(unused[kind] ?? 0) };
    }
  },
  "trial.start": (state, body) => {
    if (trialOf(state, text(body, "id"))) return;
    for (const trial of state.trials) if (trial.state === "open") trial.state = "finished";
    state.trials.push(startedTrial(state, body));
  },
  "trial.finish": (state, body) => {
    const trial = trialOf(state, text(body, "trial_id"));
    if (trial) trial.state = "finished";
  },
  "block.start": (state, body) => {
    const trial = trialOf(state, text(body, "trial_id"));
    if (!trial || blockOf(state, text(body, "id"))) return;
    const { id, trial_id: _trial, ...situation } = body;
    const block = /** @type {Block} */ (/** @type {unknown} */ (
      { ...situation, id, number: trial.blocks.length + 1, words: "", shots: [] }
    ));
    trial.blocks.push(block);
    if (!state.surroundings) return;
    const hitIn = /** @type {import("./types.js").Situation} */ (/** @type {unknown} */ (situation));
    state.surroundings.now = hitIn;
    // What was hit last stands last.
    const { [hitIn.swing]: _before, ...others } = state.surroundings.by_swing;
    state.surroundings.by_swing = { ...others, [hitIn.swing]: hitIn };
  },
  "shot.record": (state, body) => {
    const block = blockOf(state, text(body, "block_id"));
    if (!block || block.shots.some((shot) => shot.id === body.id)) return;
    block.shots.push({
      id: text(body, "id"), number: block.shots.length + 1, carry: text(body, "carry"), side: text(body, "side"),
      strike: text(body, "strike"), turf: text(body, "turf"), in_mean: body.in_mean !== false,
      left_out: null, left_out_id: null, is_warm_up: block.is_warm_up,
    });
    state.clock.balls += 1;
    if (!block.is_warm_up && ["full", "flat_out"].includes(block.swing)) state.clock.full_swings += 1;
  },
  "shot.exclude": (state, body) => {
    const shot = shotOf(state, text(body, "shot_id"));
    if (shot) Object.assign(shot, { left_out: text(body, "reason"), left_out_id: text(body, "id") });
  },
  "shot.mend": (state, body) => {
    const old = shotOf(state, text(body, "shot_id"));
    const block = blockOf(state, text(body, "block_id")) ?? blockWith(state, text(body, "shot_id"));
    if (!old || !block || shotOf(state, text(body, "id"))) return;
    const said = Object.fromEntries(["carry", "side", "strike", "turf", "in_mean"].filter((key) => key in body).map((key) => [key, body[key]]));
    block.shots.push({ ...old, ...said, id: text(body, "id"), number: block.shots.length + 1, left_out: null, left_out_id: null, is_warm_up: block.is_warm_up });
    Object.assign(old, { left_out: "mistyped", left_out_id: text(body, "exclusion_id") });
  },
  "act.take_back": (state, body) => TAKEN_BACK[text(body, "what")]?.(state, body),
  "rating.record": (state, body) => {
    const trial = trialOf(state, text(body, "trial_id"));
    if (!trial) return;
    trial.ratings = { ...trial.ratings, [text(body, "about")]: Number(body.score) };
    trial.rated = withRated(trial.rated, body);
  },
  "equipment.withdraw": (state, body) => {
    const things = [...state.equipment.heads, ...state.equipment.shafts, ...state.equipment.adapters];
    const item = things.find((one) => one.id === body.item_id);
    if (item) item.withdrawn = true;
  },
  "comparison.open": (state, body) => {
    if (state.comparisons.some((one) => one.id === body.id)) return;
    // The order is drawn by the server: until then there is none.
    state.comparisons.push({
      id: text(body, "id"), state: "waiting", slot: null, order: [], hiding: "hidden_order",
      kind: text(body, "kind") || "all_against_all", balance: "", arms: [],
    });
  },
  "comparison.rate": (state, body) => {
    const arm = state.comparisons.find((one) => one.id === body.comparison_id)?.arms
      .find((one) => one.code === Number(body.code));
    if (arm) arm.rated = withRated(arm.rated, body);
  },
};

/** The ratings with one more, once. @param {import("./types.js").Rated[] | undefined} rated @param {Body} body */
function withRated(rated, body) {
  const known = rated ?? [];
  return known.some((one) => one.id === body.id) ? known : [...known, ratedOf(body)];
}

/** @param {Body} body @returns {import("./types.js").Rated} */
function ratedOf(body) {
  const words = /** @type {const} */ (["swing", "target", "hit_from", "ground", "wetness", "face"]);
  const where = /** @type {Record<typeof words[number], string>} */ (Object.fromEntries(words.map((word) => [word, text(body, word)])));
  return { id: text(body, "id"), about: text(body, "about"), score: Number(body.score), turn: text(body, "turn") === "" ? null : Number(body.turn), ...where };
}

/** A club as it will stand in the hand, from what this tablet knows. @param {VisitState} state @param {Body} body @returns {Trial} */
function startedTrial(state, body) {
  const { heads, shafts } = state.equipment;
  const club = state.bag.clubs.find((one) => one.id === body.club_id);
  const head = heads.find((one) => one.id === body.trial_head_id);
  const shaft = shafts.find((one) => one.id === body.trial_shaft_id);
  const loft = text(body, "loft") || club?.entry?.loft || club?.stamped_loft || "";
  const isStampedOnly = Boolean(club && !text(body, "loft") && !club.entry?.loft);
  return {
    id: text(body, "id"), number: state.trials.length + 1, purpose: text(body, "purpose"),
    slot: Number(body.slot) || null, role: text(body, "role"), state: "open", code: null,
    head_name: club?.label ?? head?.name ?? "", loft_words: loft ? `${loft}\u00b0` : head?.loft_words ?? "",
    bounce_words: "", stamped_words: isStampedOnly ? "as stamped, not measured" : "", sole_words: "",
    shaft_name: club?.shaft || shaft?.name || "", length_words: "", lie_words: "", swing_weight_words: "",
    grooves: "", changed: texts(body, "changed"), also_different: [], beside_now: null, head_tight: body.head_tight === true,
    club_id: club?.id ?? null, trial_head_id: head?.id ?? null, trial_shaft_id: shaft?.id ?? null,
    adapter_id: text(body, "adapter_id") || null, blocks: [],
  };
}

/**
 * The server's state with what this tablet has recorded since.
 * @param {VisitState} server @param {readonly Command[]} commands @returns {VisitState}
 */
export function applied(server, commands) {
  const state = structuredClone(server);
  for (const { kind, body } of commands) CHANGES[kind]?.(state, body);
  return state;
}
