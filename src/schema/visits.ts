import { z } from "zod";
import { optional, required } from "./field.js";
import * as terms from "./terms.js";

const seen = (milestone: string) =>
  optional.choice(terms.yesNoUnknown, {
    sharing: "keep",
    description: `Whether ${milestone} had been reached by this visit`,
    example: "no",
  });
const zeroToTen = (description: string) =>
  optional.number({ sharing: "keep", description, example: "3", minimum: 0, maximum: 10, unit: "{score}" });
const total = (description: string) =>
  optional.number({ sharing: "keep", description, example: "18", minimum: 0, maximum: 100, unit: "{score}" });
const degrees = (description: string, minimum: number, maximum: number) =>
  optional.number({ sharing: "keep", description, example: "45", minimum, maximum, unit: "deg" });
const kilograms = (description: string) =>
  optional.number({ sharing: "keep", description, example: "38", minimum: 5, maximum: 90, unit: "kg" });
const newtons = (description: string) =>
  optional.number({ sharing: "keep", description, example: "310", minimum: 20, maximum: 900, unit: "N" });

/** One row a contact at which the person's state was recorded. */
export const visitRow = z.strictObject({
  injury_id: required.identifier({
    sharing: { rename: "injury" },
    description: "The injury seen, as in the injuries table",
    example: "P09-1",
  }),
  date: required.date({ sharing: "move", description: "Day of the visit", example: "2024-04-15" }),
  kind: optional.choice(terms.visitKinds, {
    sharing: "keep",
    description: "How the person was seen",
    example: "clinic",
  }),
  easy_climbing: seen("easy climbing"),
  full_climbing: seen("full climbing"),
  previous_level: seen("the previous level"),
  pain_rest: zeroToTen("Pain at rest, 0 none to 10 worst"),
  pain_load: zeroToTen("Pain under load, 0 none to 10 worst"),
  quickdash: total("Total of the short arm and hand score, 0 best to 100 worst; total only"),
  dash: total("Total of the long arm and hand score, 0 best to 100 worst; total only"),
  prwe: total("Total of the wrist and hand score, 0 best to 100 worst; total only"),
  michigan_hand: total("Total of the hand outcome score, 0 worst to 100 best; total only"),
  single_numeric: total("One-question rating of the finger, 0 worst to 100 best"),
  satisfaction: zeroToTen("Satisfaction, 0 none to 10 full"),
  pip_flexion_deg: degrees("Active PIP flexion", 0, 120),
  pip_extension_deficit_deg: degrees("PIP extension deficit", 0, 100),
  dip_flexion_deg: degrees("Active DIP flexion", -20, 90),
  grip_kg: kilograms("Grip strength, injured hand"),
  grip_other_kg: kilograms("Grip strength, other hand"),
  finger_force_n: newtons("Half-crimp force of the injured finger"),
  finger_force_other_n: newtons("Half-crimp force of the same finger of the other hand"),
  level_now: optional.text({
    sharing: "only-on-scale",
    description: "Best level at present, same scale as level_before",
    example: "6c",
  }),
  complication: optional.choice(terms.complications, {
    sharing: "keep",
    description: "Complication seen",
    example: "none",
  }),
  note: optional.text({
    sharing: "leave-out",
    description: "Free words; never analysed, never exported",
    example: "happy",
  }),
});

export type VisitRow = z.infer<typeof visitRow>;
