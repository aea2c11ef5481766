import { z } from "zod";
import { optional, required } from "./field.js";
import * as terms from "./terms.js";

/** One row an episode of treatment; overlaps and gaps between episodes are legal. */
export const treatmentRow = z.strictObject({
  injury_id: required.identifier({
    sharing: { rename: "injury" },
    description: "The injury treated, as in the injuries table",
    example: "P09-1",
  }),
  treatment: required.choice(terms.treatments, {
    sharing: "keep",
    description: "What was done",
    example: "ring",
  }),
  kind: optional.choice(terms.treatmentKinds, {
    sharing: "keep",
    description: "Which kind of it",
    example: "thermoplastic_ring",
  }),
  start_date: required.date({
    sharing: "move",
    description: "First day of the episode",
    example: "2024-03-10",
  }),
  end_date: optional.date({
    sharing: "move",
    description: "Last day of the episode; blank while it goes on",
    example: "2024-05-05",
  }),
  hours_per_day: optional.number({
    sharing: "keep",
    description: "Hours a day prescribed",
    example: "23",
    minimum: 0,
    maximum: 24,
    unit: "h/d",
  }),
  hours_per_day_worn: optional.number({
    sharing: "keep",
    description: "Hours a day really worn",
    example: "20",
    minimum: 0,
    maximum: 24,
    unit: "h/d",
  }),
  days_per_week: optional.number({
    sharing: "keep",
    description: "Days a week",
    example: "7",
    minimum: 0,
    maximum: 7,
    unit: "d/wk",
  }),
  adherence: optional.choice(terms.adherences, {
    sharing: "keep",
    description: "How well it was kept to",
    example: "mostly",
  }),
  reason_ended: optional.choice(terms.reasonsEnded, {
    sharing: "keep",
    description: "Why it ended",
    example: "planned_end",
  }),
  pulleys_rebuilt: optional.list(terms.pulleys, {
    sharing: "keep",
    description: "Pulleys rebuilt, separated by |",
    example: "A2",
  }),
  provider_role: optional.text({
    sharing: "leave-out",
    description: "Profession of who provided it, no name",
    example: "hand therapist",
  }),
});

export type TreatmentRow = z.infer<typeof treatmentRow>;
