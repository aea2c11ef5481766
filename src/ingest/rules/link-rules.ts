import { bowstringingAgainstDistance, distanceAgainstGrade } from "./distance-against-injury.js";
import { firstDistanceAfterTreatment, loadedBelowRest, pulleyNotInjured, sidesEqual } from "./distances.js";
import { distanceDrifts, gradeShareDrifts } from "./drift.js";
import {
  afterLastContact,
  completedWithoutMilestone,
  gradeFourNeedsMore,
  scoreScaleDoubtful,
  visitContradicts,
} from "./follow-up.js";
import {
  digitsPreferred,
  returnsOnFirstOrFifteenth,
  returnsOnOneWeekday,
  returnsOnWeeks,
} from "./heaping.js";
import { pseudonymIdentifies, textMayIdentify } from "./identifying.js";
import { idsAtSeveralSites } from "./ids-at-several-sites.js";
import {
  comparisonSideInjured,
  earlierInjuryContradicts,
  eventBothHands,
  noteNamesOtherHand,
  onlyOtherSideImaged,
} from "./laterality.js";
import type { LinkRule } from "./link-rule.js";
import { nearDuplicates, personIdsAlike, readingTwice } from "./near-duplicates.js";
import { personContradicts, sameFingerAgain, samePersonTwice, siteUnknown } from "./persons.js";
import {
  gaveUpWithoutDate,
  gradeWithoutSource,
  levelAtVisits,
  siteDefinitionMissing,
  treatmentAfterReturn,
  treatmentThroughSurgery,
  visitBeforeFirst,
  visitsGoBack,
} from "./sequences.js";
import { siteIdsAlike } from "./site-names.js";
import { surgeryInGrade1, surgeryTwice, treatmentOverlaps } from "./treatments.js";
import { distanceTenfold, distanceUnitDoubtful, raterUnitDoubtful } from "./units.js";

/** The rules over several rows that ask and set nothing aside, in the order of their queries. */
export const linkRules: readonly LinkRule[] = [
  siteUnknown,
  siteIdsAlike,
  idsAtSeveralSites,
  sameFingerAgain,
  samePersonTwice,
  personIdsAlike,
  nearDuplicates,
  personContradicts,
  earlierInjuryContradicts,
  eventBothHands,
  afterLastContact,
  visitContradicts,
  completedWithoutMilestone,
  gaveUpWithoutDate,
  visitsGoBack,
  visitBeforeFirst,
  levelAtVisits,
  siteDefinitionMissing,
  gradeWithoutSource,
  gradeFourNeedsMore,
  surgeryInGrade1,
  surgeryTwice,
  treatmentOverlaps,
  treatmentAfterReturn,
  treatmentThroughSurgery,
  distanceUnitDoubtful,
  raterUnitDoubtful,
  distanceTenfold,
  readingTwice,
  loadedBelowRest,
  firstDistanceAfterTreatment,
  sidesEqual,
  pulleyNotInjured,
  distanceAgainstGrade,
  bowstringingAgainstDistance,
  onlyOtherSideImaged,
  comparisonSideInjured,
  noteNamesOtherHand,
  scoreScaleDoubtful,
  digitsPreferred,
  returnsOnWeeks,
  returnsOnOneWeekday,
  returnsOnFirstOrFifteenth,
  distanceDrifts,
  gradeShareDrifts,
  pseudonymIdentifies,
  textMayIdentify,
];
