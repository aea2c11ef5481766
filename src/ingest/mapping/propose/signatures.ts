import { milestone, type Signature } from "./signature.js";
import { linkedSignatures } from "./signatures-of-linked.js";

const distance = (position: "rest" | "loaded", order: "first" | "last"): readonly Signature[] => [
  { needs: ["distance", position, order], also: ["scan", "pulley", "reading"] },
  { needs: ["scan", position, order], also: ["pulley", "reading"], weight: 0.9 },
  ...(order === "last"
    ? ([
        { needs: ["distance", position, "second"], also: ["scan", "pulley", "reading"] },
        { needs: ["distance", position, "end"], also: ["scan", "pulley", "reading"] },
        { needs: ["distance", position, "after"], also: ["scan", "pulley", "reading"], weight: 0.9 },
      ] as const)
    : ([
        { needs: ["distance", position], also: ["scan", "pulley", "reading"], weight: 0.85 },
        { needs: ["distance", position, "before"], also: ["scan", "pulley", "reading"], weight: 0.9 },
      ] as const)),
];

const person: readonly Signature[] = [
  { needs: ["person"], also: ["number"] },
  { needs: ["number"], weight: 0.75 },
];
const site: readonly Signature[] = [{ needs: ["site"], also: ["number"] }];
const age: readonly Signature[] = [{ needs: ["age"], also: ["years", "injury", "date"] }];
const firstVisit: readonly Signature[] = [
  { needs: ["first", "visit"], also: ["date"] },
  { needs: ["first", "contact"], also: ["date"] },
  { needs: ["visit"], also: ["date"], weight: 0.8 },
];
const lastContact: readonly Signature[] = [
  { needs: ["contact"], also: ["last", "date"] },
  { needs: ["last", "visit"], also: ["date"] },
  { needs: ["last"], also: ["date"], weight: 0.75 },
];
/** Signatures by field. A field without one is known by its own name only. */
export const signatures: Readonly<Record<string, readonly Signature[]>> = {
  person,
  person_id: person,
  site,
  site_id: site,
  sex: [{ needs: ["sex"] }],
  age,
  age_at_injury: age,
  injury_date: [
    { needs: ["injury", "date"] },
    { needs: ["injury"], weight: 0.9 },
    { needs: ["date"], weight: 0.55 },
  ],
  first_visit: firstVisit,
  first_visit_date: firstVisit,
  hand: [{ needs: ["hand"], also: ["injury"] }],
  dominant_hand: [{ needs: ["dominant"], also: ["hand"] }],
  finger: [{ needs: ["finger"], also: ["injury", "hand"] }],
  pulleys: [{ needs: ["pulley"], also: ["injury", "extent"] }],
  pulley_extents: [
    { needs: ["extent"], also: ["pulley", "injury"] },
    { needs: ["kind", "injury"], weight: 0.8 },
  ],
  grade: [{ needs: ["grade"], also: ["injury", "pulley"] }],
  bowstringing: [{ needs: ["bowstringing"] }],
  treatment: [{ needs: ["treatment"], also: ["first", "kind"] }],
  treatment_start: [
    { needs: ["treatment", "start"], also: ["first", "date"] },
    { needs: ["treatment", "date"], also: ["first"], weight: 0.85 },
    { needs: ["start"], also: ["first", "date"], weight: 0.75 },
  ],
  treatment_end: [
    { needs: ["treatment", "end"], also: ["first", "date"] },
    { needs: ["end"], also: ["first", "date"], weight: 0.75 },
  ],
  second_treatment: [{ needs: ["second", "treatment"], also: ["kind"] }],
  second_start: [
    { needs: ["second", "treatment", "start"], also: ["date"] },
    { needs: ["second", "start"], also: ["date"], weight: 0.95 },
  ],
  second_end: [
    { needs: ["second", "treatment", "end"], also: ["date"] },
    { needs: ["second", "end"], also: ["date"], weight: 0.95 },
  ],
  distance_rest_first: distance("rest", "first"),
  distance_loaded_first: distance("loaded", "first"),
  date_first_scan: [
    { needs: ["scan", "first"], also: ["date", "distance"] },
    { needs: ["distance", "first", "date"] },
    { needs: ["scan"], also: ["date"], weight: 0.85 },
  ],
  distance_rest_last: distance("rest", "last"),
  distance_loaded_last: distance("loaded", "last"),
  date_last_scan: [
    { needs: ["scan", "last"], also: ["date", "distance"] },
    { needs: ["scan", "second"], also: ["date", "distance"] },
    { needs: ["distance", "last", "date"] },
    { needs: ["distance", "second", "date"] },
  ],
  easy: milestone("easy"),
  easy_climbing_date: milestone("easy"),
  full: milestone("full"),
  full_climbing_date: milestone("full"),
  previous: milestone("previous"),
  previous_level_date: milestone("previous"),
  gave_up: [{ needs: ["gave_up"], also: ["climbing", "date"] }],
  gave_up_date: [{ needs: ["gave_up"], also: ["climbing", "date"] }],
  new_rupture: [
    { needs: ["new_rupture"], also: ["date"] },
    { needs: ["second", "injury"], also: ["date"], weight: 0.8 },
  ],
  new_rupture_date: [{ needs: ["new_rupture"], also: ["date"] }],
  last_contact: lastContact,
  last_contact_date: lastContact,
  end_status: [{ needs: ["status"], also: ["end", "last"] }],
  level_scale: [{ needs: ["scale"], also: ["level", "grade"] }],
  level_before: [
    { needs: ["level", "before"], also: ["climbing", "injury"] },
    { needs: ["previous"], weight: 0.8 },
    { needs: ["level"], also: ["first"], weight: 0.7 },
  ],
  level_after: [
    { needs: ["level", "after"], also: ["climbing", "injury"] },
    { needs: ["level", "last"], also: ["climbing"] },
    { needs: ["level", "end"], also: ["climbing"] },
  ],
  onset: [{ needs: ["onset"] }],
  grip: [{ needs: ["grip"], also: ["kind"] }],
  years_climbing: [{ needs: ["years", "climbing"] }, { needs: ["years"], weight: 0.6 }],
  body_mass_kg: [{ needs: ["mass"] }],
  height_cm: [{ needs: ["height"] }],
  mechanism: [{ needs: ["mechanism"], also: ["injury"] }],
  setting: [{ needs: ["setting"], also: ["injury"] }],
  prior_injury_same_finger: [
    { needs: ["prior"], also: ["finger"] },
    { needs: ["prior", "injury"], also: ["finger"] },
  ],
  grade_source: [{ needs: ["source"], also: ["grade"] }],
  notes: [{ needs: ["notes"] }],
  ...linkedSignatures,
};
