/**
 * The closed vocabularies of the tables: one place, in the trade's own order.
 * Grades 1 to 4b and their windows are common practice, no source.
 */
export const grades = ["1", "2", "3", "4a", "4b", "4_undivided", "unknown"];
/** Where the finger or hand may not be told, `not_stated`: blank would be a row without them. */
export const fingers = ["thumb", "index", "middle", "ring", "little", "not_stated"];
export const hands = ["left", "right", "not_stated"];
export const dominantHands = ["left", "right", "both", "unknown"];
export const sexes = ["female", "male", "other", "not_stated"];
export const pulleys = ["A1", "A2", "A3", "A4", "A5", "C1", "C2", "C3"];
export const extents = ["strain", "partial", "complete"];
export const bowstringing = ["none", "imaging_only", "visible"];
export const gradeSources = ["clinical", "ultrasound", "mri", "surgery"];
export const onsets = ["pop", "sudden_without_pop", "gradual", "unknown"];
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
];
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
];
export const settings = ["boulder", "lead", "trad", "board", "campus", "competition", "other"];
export const yesNoUnknown = ["yes", "no", "unknown"];
export const levelScales = ["french", "yds", "uiaa", "ewbank", "font", "v"];
/** How exactly a date is known. */
export const precisions = ["day", "week", "month"];
export const endStatuses = ["in_follow_up", "completed", "lost", "gave_up", "died", "other"];
export const treatments = ["tape", "ring", "surgery", "rest", "rehabilitation", "other"];
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
];
export const adherences = ["none", "partly", "mostly", "always"];
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
];
export const modalities = ["ultrasound", "mri", "ct"];
export const positions = ["rest", "loaded", "flexed_unloaded"];
export const bounds = ["exact", "below", "above"];
export const sides = ["injured", "other"];
export const visitKinds = ["clinic", "phone", "form"];
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
];
/** The three steps of a return, in the order in which they are expected. */
export const milestones = ["easy_climbing", "full_climbing", "previous_level"];
/** Ends that compete with a return. */
export const competingEnds = ["gave_up", "new_rupture", "surgery", "died"];
