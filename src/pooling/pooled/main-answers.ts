import type { PooledAnswer } from "./pooled-results.js";

/**
 * Marks the answers that the first page speaks of: everybody, then each comparison, at the main landmark and over the horizon; like for like
 * where that is there, else as they are.
 */
export function withFirstPage(answers: readonly Omit<PooledAnswer, "first_page">[]): PooledAnswer[] {
  const isMain = ({ main, measure }: Omit<PooledAnswer, "first_page">) => main && measure !== "other_end";
  const adjusted = new Set(
    answers.filter((one) => isMain(one) && one.adjusted_for.length > 0).map(({ compared }) => compared),
  );
  return answers.map((answer) => {
    const { family, of, adjusted_for, compared } = answer;
    const isBest = of === "comparison" && (adjusted_for.length > 0 || !adjusted.has(compared));
    return { ...answer, first_page: isMain(answer) && (family === "all" || isBest) };
  });
}
