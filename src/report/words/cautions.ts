/** Beneath everything that shows return times. */
export const cautionLine =
  "General information about a group of past patients, not advice for one finger. A licensed clinician who has examined the hand decides. " +
  "Loading too early can turn a partial tear into a complete one. Local codes, ethics approval and data-protection rules prevail.";

/** Beneath everything that sorts injuries by a distance. */
export const distanceCautionLine =
  "A threshold sorts records; it does not diagnose. Published thresholds differ by a factor of more than two.";

export const syntheticLine = "SYNTHETIC \u2013 invented data, no patient stands behind any number";

/** What this report is and is not. */
export const cautions: readonly string[] = [
  "The figures describe a group of past patients. They are not a diagnosis, not advice on treatment and not a forecast for one finger.",
  "A licensed clinician who has examined the hand decides. A sudden pop, bowstringing that can be seen, numbness, loss of motion or fever need prompt care.",
  "Loading too early can turn a partial tear into a complete one. That others were back by a week is no reason to be.",
  "The usual windows of the grades are general guidance (common practice, no source). To lie outside a window proves nothing.",
  "Unless chance allotted the treatments, a difference is associated with a treatment and not shown to be caused by it. An interval that includes no difference means that these data cannot tell; it does not mean that there is none.",
  "Small numbers: read the interval before the figure, and rank neither clinicians nor sites by it.",
  "A distance threshold sorts records; it does not diagnose. Published thresholds differ by a factor of more than two.",
  "This is not a medical device and was not validated for use at the bedside. It is not meant for decisions on insurance or on fitness to compete.",
  "Local law, professional codes, ethics approval, consent and data-protection rules prevail. Before the report leaves the site, somebody responsible looks for small groups in which a person could be recognised.",
  "Injuries before the end of growth need separate thought: the growth plate may be hurt, and consent is another matter.",
  "Named scores belong to their owners; whoever uses one sees to its licence.",
  "Invented data carry the word SYNTHETIC and say nothing about patients.",
];
