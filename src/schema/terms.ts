/**
 * The closed vocabularies of the tables: one place, in the trade's own order.
 * Grades 1 to 4b and their windows are common practice, no source.
 */
export const grades = ["1", "2", "3", "4a", "4b", "4_undivided", "unknown"] as const;
export type Grade = (typeof grades)[number];

/** Where the finger or hand may not be told, `not_stated`: blank would be a row without them. */
export const fingers = ["thumb", "index", "middle", "ring", "little", "not_stated"] as const;
export type Finger = (typeof fingers)[number];
export const hands = ["left", "right", "not_stated"] as const;
export const dominantHands = ["left", "right", "both", "unknown"] as const;
export const sexes = ["female", "male", "other", "not_stated"] as const;
export const pulleys = ["A1", "A2", "A3", "A4", "A5", "C1", "C2", "C3"] as const;
export type Pulley = (typeof pulleys)[number];
export const extents = ["strain", "partial", "complete"] as const;
export type Extent = (typeof extents)[number];
export const bowstringing = ["none", "imaging_only", "visible"] as const;
export const gradeSources = ["clinical", "ultrasound", "mri", "surgery"] as const;
export const onsets = ["pop", "sudden_without_pop", "gradual", "unknown"] as const;
export const grips = [
  "full_crimp",
  "half_crimp",
  "open_hand",
  "pocket_one",
  "pocket_two",
  "pinch",
  "sloper",
  "other",
  "unknown",
] as const;
export const mechanisms = [
  "foot_slip",
  "dynamic_catch",
  "hard_pull",
  "hold_broke",
  "fall_in_pocket",
  "training_board",
  "gradual_overload",
  "other",
  "unknown",
] as const;
export const settings = ["boulder", "lead", "trad", "board", "campus", "competition", "other"] as const;
export const yesNoUnknown = ["yes", "no", "unknown"] as const;
export const levelScales = ["french", "yds", "uiaa", "ewbank", "font", "v"] as const;

/** Terms that say of any field that it is not known: a value is then read as not recorded. */
export const notKnown = ["unknown", "not_stated"] as const;

/** How exactly a date is known. */
export const precisions = ["day", "week", "month"] as const;
export type Precision = (typeof precisions)[number];
/** How exactly a return is known; `later` where all that is known is a day before it, and nothing of what came after that day. */
export const returnPrecisions = [...precisions, "later"] as const;

export const endStatuses = ["in_follow_up", "completed", "lost", "gave_up", "died", "other"] as const;

export const treatments = [
  "tape",
  "ring",
  "surgery",
  "rest",
  "immobilisation",
  "injection",
  "rehabilitation",
  "other",
] as const;
export type Treatment = (typeof treatments)[number];
/** What is recorded of a treatment; `not_stated` where one was given and it is not told which: blank would be none. */
export const recordedTreatments = [...treatments, "not_stated"] as const;
export type RecordedTreatment = (typeof recordedTreatments)[number];
export const treatmentKinds = [
  "h_tape",
  "circular",
  "figure_eight",
  "buddy",
  "thermoplastic_ring",
  "other_ring",
  "no_climbing",
  "splint_immobilised",
  "supervised_programme",
  "home_programme",
  "direct_suture",
  "retinaculum_graft",
  "tendon_graft_one_loop",
  "tendon_graft_two_loops",
  "tendon_graft_three_loops",
  "weave_through_remnant",
  "palmar_plate_loop",
  "tendon_slip",
  "tenolysis",
  "other",
] as const;
export const adherences = ["none", "partly", "mostly", "always"] as const;
export const reasonsEnded = [
  "planned_end",
  "better",
  "no_better",
  "skin",
  "comfort",
  "return_to_climbing",
  "changed_treatment",
  "lost",
  "other",
] as const;

/** How people come to a site. */
export const waysToSite = ["by_themselves", "by_referral", "both", "team_members"] as const;

export const modalities = ["ultrasound", "mri", "ct"] as const;
export const positions = ["rest", "loaded", "flexed_unloaded"] as const;
export type Position = (typeof positions)[number];
export const bounds = ["exact", "below", "above"] as const;
export const sides = ["injured", "other"] as const;
export const visitKinds = ["clinic", "phone", "form"] as const;
export const complications = [
  "none",
  "stiffness",
  "fixed_flexion",
  "persistent_bowstringing",
  "tenosynovitis",
  "skin_pressure",
  "numbness",
  "infection",
  "graft_failure",
  "lumbrical_injury",
  "collateral_ligament_injury",
  "other",
] as const;
/** What may be found, without `none`. */
export type Complication = Exclude<(typeof complications)[number], "none">;

/** The three steps of a return, in the order in which they are expected. */
export const milestones = ["easy_climbing", "full_climbing", "previous_level"] as const;
export type Milestone = (typeof milestones)[number];

/** Ends that compete with a return. */
export const competingEnds = ["gave_up", "new_rupture", "surgery", "died"] as const;
export type CompetingEnd = (typeof competingEnds)[number];
