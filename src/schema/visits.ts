import { z } from "zod";
import { type FieldDescription, optional, required } from "./field.js";
import * as signs from "./header-signs.js";
import type { Concept } from "./languages/language.js";
import type { Header, Invented } from "./said-of-field.js";
import * as terms from "./terms.js";

const seen = (milestone: string, concept: Concept) =>
  optional.choice(terms.yesNoUnknown, {
    description: `Whether ${milestone} had been reached by this visit`,
    example: "no",
    cells: "yes_no",
    sharing: "keep",
    header: signs.reached(concept),
    invented: "drawn",
  });

type Told<I extends Invented> = Pick<FieldDescription, "description"> & {
  readonly header: Header;
  readonly invented: I;
};
const zeroToTen = <const I extends Invented>(told: Told<I>) =>
  optional.number({ ...told, sharing: "keep", example: "3", minimum: 0, maximum: 10, unit: "{score}" });
const total = <const I extends Invented>(description: string, invented: I) =>
  optional.number({
    description,
    example: "18",
    minimum: 0,
    maximum: 100,
    unit: "{score}",
    sharing: "keep",
    header: "own-name",
    invented,
  });
const measured = { sharing: "keep", invented: "blank" } as const;
const degrees = { ...measured, example: "45", unit: "deg" } as const;
const kilograms = {
  ...measured,
  example: "38",
  minimum: 5,
  maximum: 90,
  unit: "kg",
  usualMedian: [15, 65],
} as const;
const newtons = {
  ...measured,
  example: "310",
  minimum: 20,
  maximum: 900,
  unit: "N",
  usualMedian: [130, 700],
} as const;

/** One row per contact at which the person's state was recorded. */
export const visitRow = z.strictObject({
  injury_id: required.identifier({
    description: "The injury seen, as in the injuries table",
    example: "P09-1",
    sharing: { rename: "injury" },
    header: signs.ofInjury,
    invented: "drawn",
  }),
  date: required.date({
    description: "Day of the visit",
    example: "2024-04-15",
    when: "course",
    sharing: { move: "contact" },
    header: signs.dayOfRow,
    invented: "drawn",
  }),
  kind: optional.choice(terms.visitKinds, {
    description: "Kind of contact",
    example: "clinic",
    cells: "visit_kind",
    sharing: "keep",
    header: signs.kindOfRow,
    invented: "drawn",
  }),
  easy_climbing: seen("easy climbing", "easy"),
  full_climbing: seen("full climbing", "full"),
  previous_level: seen("the previous level", "previous"),
  pain_rest: zeroToTen({
    description: "Pain at rest, 0 none to 10 worst",
    header: [{ needs: ["pain", "rest"] }],
    invented: "drawn",
  }),
  pain_load: zeroToTen({
    description: "Pain under load, 0 none to 10 worst",
    header: [{ needs: ["pain", "loaded"] }, { needs: ["pain", "climbing"], weight: 0.8 }],
    invented: "drawn",
  }),
  quickdash: total("Total of the short arm and hand score, 0 best to 100 worst; total only", "drawn"),
  dash: total("Total of the long arm and hand score, 0 best to 100 worst; total only", "blank"),
  prwe: total("Total of the wrist and hand score, 0 best to 100 worst; total only", "blank"),
  michigan_hand: total("Total of the hand outcome score, 0 worst to 100 best; total only", "blank"),
  single_numeric: total("Rating of the finger by a single question, 0 worst to 100 best", "drawn"),
  satisfaction: zeroToTen({
    description: "Satisfaction, 0 lowest to 10 highest",
    header: [{ needs: ["satisfaction"] }],
    invented: "blank",
  }),
  pip_flexion_deg: optional.number({
    ...degrees,
    description: "Active PIP flexion",
    minimum: 0,
    maximum: 120,
    header: [{ needs: ["pip", "flexion"], also: ["injury"] }],
  }),
  pip_extension_deficit_deg: optional.number({
    ...degrees,
    description: "PIP extension deficit",
    minimum: 0,
    maximum: 100,
    header: [{ needs: ["pip", "deficit"] }, { needs: ["deficit"], weight: 0.8 }],
  }),
  dip_flexion_deg: optional.number({
    ...degrees,
    description: "Active DIP flexion",
    minimum: -20,
    maximum: 90,
    header: [{ needs: ["dip", "flexion"], also: ["injury"] }],
  }),
  grip_kg: optional.number({
    ...kilograms,
    description: "Grip strength, injured hand",
    header: [...signs.ofBoth("strength"), { needs: ["grip"], also: ["injury", "hand", "mass"], weight: 0.7 }],
  }),
  grip_other_kg: optional.number({
    ...kilograms,
    description: "Grip strength, other hand",
    header: [...signs.ofOther("strength"), { needs: ["grip", "other_side"], also: ["hand", "mass"] }],
  }),
  finger_force_n: optional.number({
    ...newtons,
    description: "Half-crimp force of the injured finger",
    header: signs.ofBoth("force"),
  }),
  finger_force_other_n: optional.number({
    ...newtons,
    description: "Half-crimp force of the same finger of the other hand",
    header: signs.ofOther("force"),
  }),
  level_now: optional.text({
    description: "Best level at the time of the visit, on the same scale as level_before",
    example: "6c",
    sharing: "only-on-scale",
    header: [
      { needs: ["level", "after"], also: ["climbing"] },
      { needs: ["level"], weight: 0.8 },
    ],
    invented: "drawn",
  }),
  complication: optional.choice(terms.complications, {
    description: "Complication found at the visit",
    example: "none",
    cells: "complication",
    sharing: "keep",
    header: [{ needs: ["complication"] }],
    invented: { always: "none" },
  }),
  note: optional.text({
    description: "Free text; never analysed, never exported",
    example: "happy",
    sharing: "leave-out",
    header: [{ needs: ["notes"] }],
    invented: "blank",
  }),
});

export type VisitRow = z.infer<typeof visitRow>;
