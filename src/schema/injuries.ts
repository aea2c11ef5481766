import { z } from "zod";
import { optional, required } from "./field.js";
import * as terms from "./terms.js";

/** The four columns that say when a milestone was reached, and how exactly that is known. */
const milestoneFields = <const M extends terms.Milestone>(milestone: M, meaning: string) => {
  const fields = {
    date: optional.date({
      sharing: "move",
      description: `Day on which ${meaning}; blank while not reached`,
      example: "2024-06-03",
      blankSays: "not reached yet",
    }),
    precision: optional.choice(terms.precisions, {
      sharing: "keep",
      description: `How exactly the date of ${milestone} is known; blank is read as day`,
      example: "week",
      blankSays: "known to the day",
    }),
    not_before: optional.date({
      sharing: "move",
      description: `Last day known to be before ${milestone} (not yet at that visit)`,
      example: "2024-05-20",
      blankSays: "no such visit",
    }),
    not_after: optional.date({
      sharing: "move",
      description: `First day known to be at or after ${milestone} (reached by that visit)`,
      example: "2024-06-17",
      blankSays: "no such visit",
    }),
  };
  return Object.fromEntries(
    Object.entries(fields).map(([part, field]) => [`${milestone}_${part}`, field]),
  ) as { [P in keyof typeof fields as `${M}_${P}`]: (typeof fields)[P] };
};

/** One row an injured finger a time. */
export const injuryRow = z.strictObject({
  injury_id: required.identifier({
    sharing: { rename: "injury" },
    description: "Names this injury, once in the table",
    example: "P09-1",
  }),
  person_id: required.identifier({
    sharing: { rename: "person" },
    description:
      "Pseudonym of the person, the same for all their injuries at the site; no initials, no birth date",
    example: "P09",
  }),
  event_id: optional.identifier({
    sharing: { rename: "event" },
    description: "The same for fingers hurt in one moment",
    example: "P09-e1",
  }),
  site_id: optional.identifier({
    sharing: { rename: "site" },
    description: "Coded site, as in the sites table",
    example: "site-a",
  }),
  injury_date: required.date({ sharing: "move", description: "Day of the injury", example: "2024-03-04" }),
  injury_date_precision: optional.choice(terms.precisions, {
    sharing: "keep",
    description: "How exactly the day of the injury is known; blank is read as day",
    example: "day",
    blankSays: "known to the day",
  }),
  first_visit_date: optional.date({
    sharing: "move",
    description: "First visit to the site",
    example: "2024-03-08",
  }),
  sex: optional.choice(terms.sexes, {
    sharing: "keep",
    description: "Sex as the person states it",
    example: "female",
  }),
  age_at_injury: optional.integer({
    sharing: { band: "age", highest: 90 },
    description: "Age in completed years on the day of the injury",
    example: "29",
    minimum: 10,
    maximum: 90,
    unit: "a",
  }),
  hand: required.choice(terms.hands, { sharing: "keep", description: "Injured hand", example: "left" }),
  dominant_hand: optional.choice(terms.dominantHands, {
    sharing: "keep",
    description: "Dominant hand",
    example: "right",
  }),
  finger: required.choice(terms.fingers, {
    sharing: "keep",
    description: "Injured finger, in words",
    example: "ring",
  }),
  pulleys: required.list(terms.pulleys, {
    sharing: "keep",
    description: "Injured pulleys, separated by |",
    example: "A2|A3",
  }),
  pulley_extents: optional.list(terms.extents, {
    sharing: "keep",
    description: "Extent for each pulley, in the order of pulleys, separated by |",
    example: "complete|partial",
  }),
  grade: required.choice(terms.grades, {
    sharing: "keep",
    description: "Grade 1 to 4b; 4_undivided where a or b was never recorded (common practice, no source)",
    example: "3",
  }),
  grade_as_written: optional.text({
    sharing: "leave-out",
    description: "The grade in the site's own spelling",
    example: "Gr. III",
  }),
  grade_source: optional.choice(terms.gradeSources, {
    sharing: "keep",
    description: "What the grade rests on",
    example: "ultrasound",
  }),
  bowstringing: optional.choice(terms.bowstringing, {
    sharing: "keep",
    description: "Bowstringing of the tendon at the first visit",
    example: "imaging_only",
  }),
  onset: optional.choice(terms.onsets, { sharing: "keep", description: "How it began", example: "pop" }),
  grip: optional.choice(terms.grips, {
    sharing: "keep",
    description: "Grip at the moment of injury",
    example: "full_crimp",
  }),
  mechanism: optional.choice(terms.mechanisms, {
    sharing: "keep",
    description: "What happened",
    example: "foot_slip",
  }),
  setting: optional.choice(terms.settings, {
    sharing: "keep",
    description: "Where it happened",
    example: "boulder",
  }),
  prior_injury_same_finger: optional.choice(terms.yesNoUnknown, {
    sharing: "keep",
    description: "Earlier pulley injury of the same finger",
    example: "no",
  }),
  other_side_ever_injured: optional.choice(terms.yesNoUnknown, {
    sharing: "keep",
    description: "Earlier pulley injury of the same finger of the other hand",
    example: "no",
  }),
  years_climbing: optional.number({
    sharing: { band: "years", highest: 40 },
    description: "Years of climbing before the injury",
    example: "8",
    minimum: 0,
    maximum: 60,
    unit: "a",
  }),
  level_scale: optional.choice(terms.levelScales, {
    sharing: "keep",
    description: "Grading scale of the levels",
    example: "french",
  }),
  level_before: optional.text({
    sharing: "only-on-scale",
    description: "Best level of the 6 to 12 months before the injury",
    example: "7a",
  }),
  level_after: optional.text({
    sharing: "only-on-scale",
    description: "Best level at last contact, same scale",
    example: "6c+",
  }),
  body_mass_kg: optional.number({
    sharing: { band: "body", highest: 110 },
    description: "Body mass",
    example: "64.5",
    minimum: 30,
    maximum: 130,
    unit: "kg",
  }),
  height_cm: optional.number({
    sharing: { band: "body", highest: 200 },
    description: "Height",
    example: "172",
    minimum: 130,
    maximum: 215,
    unit: "cm",
  }),
  last_contact_date: required.date({
    sharing: "move",
    description: "Last day on which the person's state was known",
    example: "2024-11-18",
  }),
  end_status: optional.choice(terms.endStatuses, {
    sharing: "keep",
    description: "How follow-up ended",
    example: "completed",
  }),
  ...milestoneFields("easy_climbing", "protected climbing was first possible"),
  ...milestoneFields("full_climbing", "climbing was unrestricted, all grips included"),
  ...milestoneFields("previous_level", "the level of before the injury was reached again"),
  new_rupture_date: optional.date({
    sharing: "move",
    description: "Day of a new rupture of the same finger; blank for none",
    example: "2024-09-01",
    blankSays: "no new rupture",
  }),
  gave_up_date: optional.date({
    sharing: "move",
    description: "Day on which climbing was given up; blank for not given up",
    example: "2024-08-15",
    blankSays: "not given up",
  }),
  notes: optional.text({
    sharing: "leave-out",
    description: "Free words; never analysed, never exported",
    example: "moved flat",
  }),
});

export type InjuryRow = z.infer<typeof injuryRow>;
