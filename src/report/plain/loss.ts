import type { LossDifference, LossShare, Results } from "../../study/results.js";
import { lossOfDifference, lossOfShare } from "../../words/after-loss.js";

/** How far those lost could move the main figure: of each comparison, or of everybody where nothing is compared. */
export function lossSentences({ loss_bounds: bounds, plan }: Results): string[] {
  if (bounds === null) return [];
  const { differences, shares } = bounds;
  const asked = { plan, bounds };
  return differences.length > 0
    ? mainOf(differences).map((difference) => lossOfDifference(difference, asked))
    : ofEverybody(shares).map((share) => lossOfShare(share, asked));
}

/** What is drawn: the figures of those sentences, where somebody was lost and there is a figure. */
export function lossShown({
  differences,
  shares,
}: NonNullable<Results["loss_bounds"]>): readonly (LossDifference | LossShare)[] {
  const isDrawn = ({ as_followed }: LossDifference | LossShare) => as_followed.value !== null;
  return differences.length > 0
    ? mainOf(differences).filter((one) => isDrawn(one) && one.tipping !== null)
    : ofEverybody(shares).filter((one) => isDrawn(one) && one.line !== null);
}

const ofEverybody = (shares: readonly LossShare[]): readonly LossShare[] =>
  shares.filter(({ family }) => family === "all");

/** Of each pair the difference like for like, or as the groups are where that cannot be given. */
function mainOf(differences: readonly LossDifference[]): readonly LossDifference[] {
  const pairs = new Map<string, LossDifference>();
  for (const one of differences) {
    const pair = JSON.stringify([one.compared, one.reference]);
    if (one.as_followed.value !== null || !pairs.has(pair)) pairs.set(pair, one);
  }
  return [...pairs.values()];
}
