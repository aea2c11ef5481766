import { optional, required } from "../field.js";
import * as signs from "../header-signs.js";
import * as terms from "../terms.js";
import { milestoneFields } from "./milestone.js";

/** What became of it. */
export const courseFields = {
  last_contact_date: required.date({
    description: "Last day on which the person's state was known",
    example: "2024-11-18",
    when: "last-contact",
    sharing: { move: "contact" },
    timed: true,
    header: signs.lastContact,
    invented: "drawn",
    sheet: { from: "last_contact" },
    covariate: "no",
  }),
  end_status: optional.choice(terms.endStatuses, {
    description: "How follow-up ended",
    example: "completed",
    cells: "end_status",
    sharing: "keep",
    timed: true,
    header: [{ needs: ["status"], also: ["end", "last"] }],
    invented: "drawn",
    sheet: { part: "end" },
    covariate: "no",
  }),
  ...milestoneFields("easy_climbing", {
    meaning: "protected climbing was first possible",
    concept: "easy",
    column: "easy",
  }),
  ...milestoneFields("full_climbing", {
    meaning: "climbing was unrestricted, all grips included",
    concept: "full",
    column: "full",
  }),
  ...milestoneFields("previous_level", {
    meaning: "the level before the injury was reached again",
    concept: "previous",
    column: "previous",
  }),
  new_rupture_date: optional.date({
    description: "Day of a new rupture of the same finger; blank if none",
    example: "2024-09-01",
    blankSays: "no new rupture",
    when: "course",
    sharing: { move: "own" },
    timed: true,
    header: [signs.newRupture],
    invented: "drawn",
    sheet: { from: "new_rupture" },
    covariate: "no",
  }),
  gave_up_date: optional.date({
    description: "Day on which climbing was given up; blank if not given up",
    example: "2024-08-15",
    blankSays: "not given up",
    when: "course",
    sharing: { move: "own" },
    timed: true,
    header: signs.gaveUp,
    invented: "drawn",
    sheet: { from: "gave_up" },
    covariate: "no",
  }),
  notes: optional.text({
    description: "Free text; never analysed, never exported",
    example: "moved flat",
    sharing: "leave-out",
    header: [{ needs: ["notes"] }],
    invented: "blank",
    sheet: { part: "notes" },
    covariate: "no",
    mayBeBlank: true,
  }),
} as const;
