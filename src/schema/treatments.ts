import { z } from "zod";
import { spellings } from "./cells/spellings.js";
import { optional, required } from "./field.js";
import * as signs from "./header-signs.js";
import * as terms from "./terms.js";

/** One row per episode of treatment; overlaps and gaps between episodes are legal. */
export const treatmentRow = z.strictObject({
  injury_id: required.identifier({
    sharing: { rename: "injury" },
    description: "The injury treated, as in the injuries table",
    example: "P09-1",
    header: signs.ofInjury,
    invented: "drawn",
  }),
  treatment: required.choice(terms.recordedTreatments, {
    sharing: "keep",
    description: "Treatment; not_stated where one was given and it is not known which",
    example: "ring",
    cells: "treatment",
    spellings: spellings.treatment,
    timed: true,
    header: [{ needs: ["treatment"], also: ["first", "kind"] }],
    invented: "drawn",
  }),
  kind: optional.choice(terms.treatmentKinds, {
    sharing: "keep",
    description: "Kind of the treatment",
    example: "thermoplastic_ring",
    cells: "treatment_kind",
    header: signs.kindOfRow,
    invented: "drawn",
  }),
  start_date: optional.date({
    sharing: { move: "contact" },
    description: "First day of the episode; without it the injury counts, but not from this treatment on",
    example: "2024-03-10",
    when: "course",
    timed: true,
    header: [
      { needs: ["start"], also: ["date", "treatment"] },
      { needs: ["date"], weight: 0.6 },
    ],
    invented: "drawn",
  }),
  end_date: optional.date({
    sharing: { move: "contact" },
    description: "Last day of the episode; blank if it has not ended",
    example: "2024-05-05",
    when: "end",
    timed: true,
    header: [
      { needs: ["end"], also: ["date"], weight: 0.9 },
      { needs: ["treatment", "end"], also: ["date"] },
    ],
    invented: "drawn",
  }),
  order: optional.integer({
    sharing: "keep",
    description:
      "Place among the treatments of the injury, 1 for the first; needed only if a start date is not known",
    example: "1",
    minimum: 1,
    maximum: 99,
    header: "own-name",
    invented: "blank",
  }),
  hours_per_day: optional.number({
    sharing: "keep",
    description: "Hours a day for which it was prescribed",
    example: "23",
    minimum: 0,
    maximum: 24,
    unit: "h/d",
    header: [{ needs: ["hours"], also: ["treatment"] }],
    invented: "drawn",
  }),
  hours_per_day_worn: optional.number({
    sharing: "keep",
    description: "Hours a day for which it was actually worn",
    example: "20",
    minimum: 0,
    maximum: 24,
    unit: "h/d",
    header: [{ needs: ["worn"], also: ["hours"] }],
    invented: "drawn",
  }),
  days_per_week: optional.number({
    sharing: "keep",
    description: "Days a week on which it was worn",
    example: "7",
    minimum: 0,
    maximum: 7,
    unit: "d/wk",
    header: [{ needs: ["week_days"] }],
    invented: "drawn",
  }),
  adherence: optional.choice(terms.adherences, {
    sharing: "keep",
    description: "How well the treatment was followed",
    example: "mostly",
    cells: "adherence",
    header: [{ needs: ["adherence"], also: ["treatment"] }],
    invented: "drawn",
  }),
  reason_ended: optional.choice(terms.reasonsEnded, {
    sharing: "keep",
    description: "Why the treatment ended",
    example: "planned_end",
    cells: "reason_ended",
    header: [{ needs: ["reason"], also: ["end", "treatment"] }],
    invented: "drawn",
  }),
  pulleys_rebuilt: optional.list(terms.pulleys, {
    sharing: "keep",
    description: "Pulleys reconstructed, separated by |",
    example: "A2",
    cells: "own-words",
    header: [{ needs: ["rebuilt"], also: ["pulley"] }],
    invented: "drawn",
  }),
  provider_role: optional.text({
    sharing: "leave-out",
    description: "Profession of the person who provided it, without a name",
    example: "hand therapist",
    header: [{ needs: ["provider"], also: ["treatment"] }],
    invented: "drawn",
  }),
});

export type TreatmentRow = z.infer<typeof treatmentRow>;
