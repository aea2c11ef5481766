/** A stored term in the words of a reader: `full_climbing` becomes "full climbing". */
export const labelOf = (term: string): string => irregular.get(term) ?? term.replaceAll("_", " ");

const irregular: ReadonlyMap<string, string> = new Map(
  Object.entries({
    first_treatment: "first treatment",
    site_id: "site",
    age_at_injury: "age at injury",
    delay_days: "days from injury to first visit",
    distance_loaded_first: "first loaded tendon-phalanx distance",
    body_mass_kg: "body mass",
    height_cm: "height",
    prior_injury_same_finger: "earlier injury of the finger",
    other_side_ever_injured: "earlier injury of the other side",
    "4_undivided": "4, a or b not recorded",
  }),
);
