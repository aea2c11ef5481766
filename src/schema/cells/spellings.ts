const treatment = {
  taping: "tape",
  ring_splint: "ring",
  operation: "surgery",
  rehab: "rehabilitation",
} as const;

/**
 * Spellings that can mean one thing only, which fields refer to: left as written in small letters with _ for spaces and
 * hyphens, right the term. What could mean two things is not here: it is a query.
 */
export const spellings = {
  hand: { l: "left", r: "right", lt: "left", rt: "right", left_hand: "left", right_hand: "right" },
  dominantHand: {
    l: "left",
    r: "right",
    left_handed: "left",
    right_handed: "right",
    ambidextrous: "both",
  },
  sex: { f: "female", m: "male", woman: "female", man: "male", notstated: "not_stated" },
  finger: {
    index_finger: "index",
    forefinger: "index",
    middle_finger: "middle",
    long_finger: "middle",
    ring_finger: "ring",
    little_finger: "little",
    small_finger: "little",
    pinky: "little",
    pinkie: "little",
  },
  modality: { us: "ultrasound", sonography: "ultrasound", ultrasonography: "ultrasound" },
  position: { at_rest: "rest", resting: "rest" },
  treatment,
  grip: { crimp_full: "full_crimp", crimp_half: "half_crimp", openhand: "open_hand", drag: "open_hand" },
  levelScale: { fontainebleau: "font" },
} as const;

/** Short forms of yes and no, in any column that takes them. */
export const yesAndNo: Readonly<Record<string, string>> = { y: "yes", n: "no", true: "yes", false: "no" };
