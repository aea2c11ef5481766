import type { Concept } from "../../../schema/languages/languages.js";
import { milestone, type Signature } from "./signature.js";

const end: readonly Signature[] = [{ needs: ["end"], also: ["date"], weight: 0.9 }];
const ofInjury: readonly Signature[] = [
  { needs: ["injury", "number"] },
  { needs: ["injury"], weight: 0.8 },
  { needs: ["number"], weight: 0.75 },
  { needs: ["person"], also: ["number"], weight: 0.5 },
];
const date: readonly Signature[] = [
  { needs: ["date"], also: ["scan", "visit", "contact"] },
  { needs: ["visit"], also: ["date"], weight: 0.85 },
  { needs: ["scan"], also: ["date"], weight: 0.7 },
  { needs: ["contact"], also: ["date"], weight: 0.7 },
];
/** Whether a return was reached by a visit: less is said of it than of its day. */
const reached = (concept: Concept): readonly Signature[] => milestone(concept).slice(0, 1);
/** Of both hands, what is not of the other one. */
const ofBoth = (concept: Concept): readonly Signature[] => [
  { needs: [concept], also: ["injury", "hand", "finger", "mass"] },
];
const ofOther = (concept: Concept): readonly Signature[] => [
  { needs: [concept, "other_side"], also: ["hand", "finger", "mass"] },
];

/** Signatures by field of treatments, distances and visits, and of the injury that they belong to. */
export const linkedSignatures: Readonly<Record<string, readonly Signature[]>> = {
  comment: [{ needs: ["notes"] }],
  injury_id: ofInjury,
  start_date: [
    { needs: ["start"], also: ["date", "treatment"] },
    { needs: ["date"], weight: 0.6 },
  ],
  end_date: [...end, { needs: ["treatment", "end"], also: ["date"] }],
  kind: [
    { needs: ["kind"], also: ["treatment"] },
    { needs: ["kind", "visit"] },
    { needs: ["kind", "contact"] },
    { needs: ["contact"], weight: 0.5 },
  ],
  hours_per_day: [{ needs: ["hours"], also: ["treatment"] }],
  hours_per_day_worn: [{ needs: ["worn"], also: ["hours"] }],
  days_per_week: [{ needs: ["week_days"] }],
  adherence: [{ needs: ["adherence"], also: ["treatment"] }],
  reason_ended: [{ needs: ["reason"], also: ["end", "treatment"] }],
  pulleys_rebuilt: [{ needs: ["rebuilt"], also: ["pulley"] }],
  provider_role: [{ needs: ["provider"], also: ["treatment"] }],
  date,
  modality: [{ needs: ["modality"] }, { needs: ["scan", "kind"] }, { needs: ["scan"], weight: 0.5 }],
  pulley: [{ needs: ["pulley"] }],
  position: [{ needs: ["position"] }],
  distance_mm: [{ needs: ["distance"], also: ["pulley"] }],
  side: [{ needs: ["hand"], weight: 0.7 }],
  rater: [{ needs: ["rater"] }],
  taped: [{ needs: ["taped"] }],
  warmed_up: [{ needs: ["warm"] }],
  blinded: [{ needs: ["blind"], also: ["rater"] }],
  reading: [{ needs: ["reading"], also: ["number"] }],
  pip_angle_deg: [
    { needs: ["pip", "angle"] },
    { needs: ["pip", "flexion"] },
    { needs: ["pip"], weight: 0.7 },
  ],
  dip_angle_deg: [
    { needs: ["dip", "angle"] },
    { needs: ["dip", "flexion"] },
    { needs: ["dip"], weight: 0.7 },
  ],
  easy_climbing: reached("easy"),
  full_climbing: reached("full"),
  previous_level: reached("previous"),
  pain_rest: [{ needs: ["pain", "rest"] }],
  pain_load: [{ needs: ["pain", "loaded"] }, { needs: ["pain", "climbing"], weight: 0.8 }],
  satisfaction: [{ needs: ["satisfaction"] }],
  pip_flexion_deg: [{ needs: ["pip", "flexion"], also: ["injury"] }],
  pip_extension_deficit_deg: [{ needs: ["pip", "deficit"] }, { needs: ["deficit"], weight: 0.8 }],
  dip_flexion_deg: [{ needs: ["dip", "flexion"], also: ["injury"] }],
  grip_kg: [...ofBoth("strength"), { needs: ["grip"], also: ["injury", "hand", "mass"], weight: 0.7 }],
  grip_other_kg: [...ofOther("strength"), { needs: ["grip", "other_side"], also: ["hand", "mass"] }],
  finger_force_n: ofBoth("force"),
  finger_force_other_n: ofOther("force"),
  level_now: [
    { needs: ["level", "after"], also: ["climbing"] },
    { needs: ["level"], weight: 0.8 },
  ],
  complication: [{ needs: ["complication"] }],
  note: [{ needs: ["notes"] }],
};
