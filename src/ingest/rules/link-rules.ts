import { bowstringingAgainstDistance, distanceAgainstGrade } from "./distance-against-injury.js";
import { distanceUnitDoubtful, loadedBelowRest, pulleyNotInjured, sidesEqual } from "./distances.js";
import {
  afterLastContact,
  completedWithoutMilestone,
  gradeFourNeedsMore,
  scoreScaleDoubtful,
  visitContradicts,
} from "./follow-up.js";
import { pseudonymSpeaks, textMayIdentify } from "./identifying.js";
import type { LinkRule } from "./link-rule.js";
import { personContradicts, sameFingerAgain, samePersonTwice, siteUnknown } from "./persons.js";
import { surgeryInGrade1, surgeryTwice, treatmentOverlaps } from "./treatments.js";

/** The rules over several rows that ask and set nothing aside, in the order of their queries. */
export const linkRules: readonly LinkRule[] = [
  siteUnknown,
  sameFingerAgain,
  samePersonTwice,
  personContradicts,
  afterLastContact,
  visitContradicts,
  completedWithoutMilestone,
  gradeFourNeedsMore,
  surgeryInGrade1,
  surgeryTwice,
  treatmentOverlaps,
  distanceUnitDoubtful,
  loadedBelowRest,
  sidesEqual,
  pulleyNotInjured,
  distanceAgainstGrade,
  bowstringingAgainstDistance,
  scoreScaleDoubtful,
  pseudonymSpeaks,
  textMayIdentify,
];
