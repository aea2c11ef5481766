/** The shortest caution on times of return, where there is room for one line. */
export const generalLine = "General information about a group of past patients, not advice for one finger.";
const deciderLine = "A licensed clinician who has examined the hand decides.";
const loadingLine = "Loading too early can turn a partial tear into a complete one.";
const promptCareLine =
  "A sudden pop, visible bowstringing, numbness, loss of motion or fever need prompt care.";
const noReasonLine = "That others had returned by a given week is no reason to return.";
const localRulesLine = "Local codes, ethics approval and data-protection rules prevail.";

/** Inside every figure that shows return times: a figure travels without its page. */
export const figureCaution = `${generalLine} ${deciderLine}`;

/** Beneath everything that shows return times. */
export const cautionLine = `${figureCaution} ${loadingLine} ${localRulesLine}`;

/** Further down a page that has said it in full. */
export const cautionAgainLine = "General information about a group, not advice for one finger.";

/** Beneath and inside everything that sorts injuries by a distance. */
export const distanceCautionLine =
  "A distance threshold sorts records; it does not diagnose. Published thresholds differ by a factor of more than two.";

/** The mark on every figure of invented data. */
export const syntheticMark = "SYNTHETIC DATA";

/** What the mark means: at the head of a page, at the foot of a figure, in the first sentence of the answer. */
export const syntheticLine = `${syntheticMark.replace(" ", "\u00a0")}: invented, no patient stands behind any number.`;

/** Beside everything that draws or lists the usual windows of the grades. */
export const windowCaution =
  "The usual windows of the grades are general guidance (common practice, no source). A time outside a window proves nothing.";

/** What an interval that includes no difference means. */
export const undecidedLine =
  "An interval that includes no difference means that these data cannot tell; it does not mean that there is none.";

/** What a difference between groups that were not randomised means. */
export const associationLine = (by: string): string =>
  `Differences are associated with the ${by}; they are not shown to be caused by it.`;

/** What this report is and is not. */
export const cautions: readonly string[] = [
  "The figures describe a group of past patients. They are not a diagnosis, not advice on treatment and not a forecast for one finger.",
  `${deciderLine} ${promptCareLine}`,
  `${loadingLine} ${noReasonLine}`,
  windowCaution,
  `Unless treatments were allocated at random, a difference is associated with a treatment and not shown to be caused by it. ${undecidedLine}`,
  "Small numbers: read the interval before the estimate, and rank neither clinicians nor sites by it.",
  distanceCautionLine,
  "This is not a medical device and was not validated for use at the bedside. It is not meant for decisions on insurance or on fitness to compete.",
  "Local law, professional codes, ethics approval, consent and data-protection rules prevail. Before the report leaves the site, somebody responsible must look for small groups in which a person could be recognised.",
  "Injuries before the end of growth need separate consideration: the growth plate may be injured, and consent follows other rules.",
  "Named scores belong to their owners; whoever uses one is responsible for its licence.",
  "Invented data carry the word SYNTHETIC and say nothing about patients.",
];

/** On a page that a climber takes home. */
export const cautionsToClimber: readonly string[] = [
  generalLine,
  deciderLine,
  `${loadingLine} ${noReasonLine}`,
  promptCareLine,
  "If you are still growing, other rules apply: the growth plate of the finger may be injured.",
  localRulesLine,
];
