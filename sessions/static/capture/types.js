// The shapes that the capture pages read and write. Types only: nothing here runs.

/** @typedef {string | boolean | null | unknown[] | {[key: string]: unknown}} Json bodies hold no numbers: figures go as typed */
/** @typedef {{[key: string]: Json}} Body */
/** @typedef {[string, string]} Choice a stored word and what is read */

/**
 * One fact recorded on this tablet. `sha256` is filled when it is first sent.
 * @typedef {object} Command
 * @property {string} id
 * @property {string} kind
 * @property {number} counter
 * @property {string} at ISO time of this device
 * @property {string} heard_at the server's time when it last told this tablet the state
 * @property {string} sha256
 * @property {Body} body
 */

/**
 * @typedef {object} Receipt
 * @property {string} id
 * @property {"stored" | "refused"} outcome
 * @property {number} status
 * @property {number | null} sequence
 * @property {number | null} version
 * @property {string} sha256
 * @property {Record<string, string>} errors
 * @property {string} sentence
 * @property {string} [code] why it was refused, for programs: room.reason
 * @property {string} [shown] what is behind a number that was looked behind
 */

/** @typedef {{command: Command, errors: Record<string, string>, sentence: string}} Refusal */

/** @typedef {{key: string, label: string, url: string, state: string}} Step */
/** @typedef {{value: string, label: string}} QuestionChoice */
/**
 * @typedef {object} Question
 * @property {string} key
 * @property {string} label
 * @property {"chips" | "several" | "number" | "text"} kind
 * @property {QuestionChoice[]} choices
 * @property {string} help
 * @property {string} unit
 */
/** @typedef {{label: string, questions: Question[]}} QuestionGroup */
/** @typedef {{value: Json, ask_later: boolean, said_by: string}} Answer */

/**
 * @typedef {object} BagClub
 * @property {string} id
 * @property {string} kind
 * @property {string} label
 * @property {string} maker
 * @property {string} model
 * @property {string | null} stamped_loft
 * @property {string | null} stamped_bounce
 * @property {string} [making]
 * @property {string} [shaft]
 * @property {string} [drift] how far it measures off its stamp, or ""
 * @property {boolean} [hidden]
 * @property {Record<string, any> | null} entry
 */

/**
 * @typedef {object} Shot
 * @property {string} id
 * @property {number} number
 * @property {string | number | null} carry
 * @property {string | number | null} side
 * @property {string} strike
 * @property {boolean} in_mean
 * @property {string} turf
 * @property {string | null} left_out
 * @property {string | null} [left_out_id] what leaves it out, to be lifted
 * @property {boolean} is_warm_up
 */

/**
 * What stays the same from ball to ball.
 * @typedef {object} Situation
 * @property {string} swing
 * @property {string} target
 * @property {string} hit_from
 * @property {string} ground
 * @property {string} wetness
 * @property {string} face
 * @property {string} ball
 * @property {string} device_id
 * @property {string} carry_got
 * @property {string} spin_got
 * @property {string} as_flown
 * @property {boolean} is_warm_up
 */

/** How each swing was last hit in this visit, whichever club it was. @typedef {{now: Situation | null, by_swing: Record<string, Situation>, first: Record<string, Partial<Situation>>}} Surroundings */

/** @typedef {Situation & {id: string, number: number, words: string, shots: Shot[]}} Block */

/**
 * @typedef {object} Trial
 * @property {string} id
 * @property {number} number
 * @property {string} purpose
 * @property {number | null} slot
 * @property {string} role
 * @property {string} state
 * @property {number | null} code its neutral number while it is hidden
 * @property {boolean} [hidden] nothing may name it while a comparison runs
 * @property {string} [head_name]
 * @property {string} [loft_words]
 * @property {string} [bounce_words]
 * @property {string} [stamped_words]
 * @property {string} [sole_words]
 * @property {string} [shaft_name]
 * @property {string} [grip_name]
 * @property {string} [length_words]
 * @property {string} [lie_words]
 * @property {string} [swing_weight_words]
 * @property {string} [mass_words] as the scale said, "" where the club was not on it
 * @property {string} [grooves]
 * @property {string[]} changed
 * @property {string[]} also_different
 * @property {BesideNow | null} [beside_now] of the club in the hand: how it stands against the one played now
 * @property {boolean} head_tight
 * @property {string | null} [club_id]
 * @property {string | null} [trial_head_id]
 * @property {string | null} [trial_shaft_id]
 * @property {string | null} [adapter_id]
 * @property {Record<string, number>} [ratings] the last word of each question, wherever it was given
 * @property {Rated[]} [rated] each with where it was given
 * @property {Angles} [angles]
 * @property {string} [mark] of a trial head
 * @property {Stop[]} [stops] parts of it that were withdrawn while it was in the hand
 * @property {Block[]} blocks
 */

/** @typedef {{what: string, mark: string, sentence: string}} Stop */
/** @typedef {{against: string, found: string, each: string[], caution: string, rule_id: string, unknown: string}} BesideNow */

/** What two clubs are held against each other in, "" where it is not known. @typedef {"loft_words" | "bounce_words" | "sole_words" | "shaft_name" | "length_words" | "lie_words" | "grip_name"} HeldWord */
/** The player's own club that is played now for a slot. @typedef {{slot: number | null, club_id: string, name: string, angles: Angles} & Record<HeldWord | "head_name", string>} PlayedNow */
/**
 * The figures behind the words, in degrees; with a loft that is read anew the bounce moves from `bends_from`.
 * @typedef {object} Angles
 * @property {string | null} loft
 * @property {string | null} lie
 * @property {string | null} bounce
 * @property {string | null} [stamped_bounce]
 * @property {{loft: string, bounce: string, is_measured: boolean} | null} [bends_from]
 */

/**
 * @typedef {object} Item one thing of the trial equipment
 * @property {string} id
 * @property {string} mark
 * @property {string} name
 * @property {string} [loft_words]
 * @property {string} [bounce_words]
 * @property {string} [sole_words]
 * @property {string | null} [inspect_by]
 * @property {string} [due] which check it waits for: "Inspection overdue"
 * @property {string} [hand]
 * @property {boolean} [withdrawn]
 * @property {string} [withdrawn_words]
 * @property {Record<string, string>} [played] its words as a club in the hand bears them
 * @property {Angles} [angles] of a head
 */

/** @typedef {{id: string, name: string, measures_spin?: boolean, tracks_flight?: boolean}} Device */

/**
 * @typedef {object} Comparison
 * @property {string} id
 * @property {string} state
 * @property {number | null} slot
 * @property {number[]} order
 * @property {string} hiding
 * @property {string} kind all against all, or two head to head
 * @property {string[]} [chosen] the trials it was drawn from, once they may be told
 * @property {string} balance how many of the orders of these clubs are used, in words, or ""
 * @property {string} [spoiled] what makes it a hidden order and not blind, in words
 * @property {string} [held] what was the same in all its clubs, once they may be told
 * @property {Arm[]} arms
 */

/**
 * A rating with the turn of the order and the situation that it was given in.
 * @typedef {{id: string, about: string, score: number, turn: number | null, swing: string, target: string, hit_from: string, ground: string, wetness: string, face: string}} Rated
 */

/**
 * @typedef {object} RevealRow what was hit and said under a number in one situation
 * @property {string} situation
 * @property {number} balls
 * @property {number} in_mean
 * @property {number | null} carry
 * @property {number | null} spread
 * @property {string} strikes
 * @property {string} turf
 * @property {Record<string, {first?: number, again?: number}>} ratings
 */

/** One club under its number; all but the number and the ratings only once it may be told.
 * @typedef {{code: number, rated?: Rated[], trial_id?: string | null, number?: number, hand?: string, head_name?: string, mark?: string, loft_words?: string, stamped_words?: string, bounce_words?: string, sole_words?: string, rows?: RevealRow[]}} Arm
 */

/**
 * @typedef {object} VisitState
 * @property {{id: string, state: string, kind: string, opened_at: string | null, minutes: number, bay: string, location: string, sequence: number}} visit
 * @property {{id: string, name: string, hand: string, unit: string, kind: string}} player
 * @property {{name: string, may_capture: boolean}} me
 * @property {Step[]} steps
 * @property {{groups: QuestionGroup[], answers: Record<string, Answer>, closed: boolean}} interview
 * @property {{clubs: BagClub[], others: Record<string, {count: number, unused: number}>}} bag
 * @property {{slots: {slot: number, role: string, target_loft: string, label: string}[]} | null} plan
 * @property {string} air the last recorded conditions in words, or ""
 * @property {Trial[]} trials
 * @property {Surroundings} [surroundings]
 * @property {{shot_id: string, swing: string}[]} [other_swings] balls that fit another swing far better
 * @property {PlayedNow[]} [played_now] by slot; none while a hidden comparison runs
 * @property {string} [apart_from_deg] from here on two angles are not alike
 * @property {{heads: Item[], shafts: Item[], adapters: Item[], devices: Device[]}} equipment
 * @property {string} [next_trial] which club to hand over next and why, or ""
 * @property {Comparison[]} comparisons
 * @property {Record<string, Choice[]>} choices
 * @property {{balls: number, warm_up_balls: number, full_swings: number, full_swings_most: number, is_tiring: boolean, minutes: number | null, not_started: string[]}} clock
 */

export {};
