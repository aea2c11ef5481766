import type { Figure } from "./figure.js";

/** A figure of some rows, and whether it fits its page. */
export interface Fitting {
  readonly figure: Figure;
  readonly fits: boolean;
}

/**
 * The figures that hold all rows, each as many as fit its page, in their order; a row that fits none stands alone. The first keeps the
 * id of the figure, the others are numbered after it.
 */
export function inParts<Row>(
  rows: readonly Row[],
  draw: (rows: readonly Row[]) => Fitting,
): readonly Figure[] {
  const parts: Figure[] = [];
  let kept: readonly Row[] = [];
  for (const row of rows) {
    if (kept.length > 0 && !draw([...kept, row]).fits) {
      parts.push(draw(kept).figure);
      kept = [];
    }
    kept = [...kept, row];
  }
  parts.push(draw(kept).figure);
  return parts.map(numbered);
}

const numbered = (figure: Figure, i: number): Figure =>
  i === 0 ? figure : { ...figure, id: `${figure.id}-part-${i + 1}` };
