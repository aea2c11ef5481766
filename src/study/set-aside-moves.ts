import type { ExactCurve, ExactResults } from "./exact-results.js";
import type { Warning } from "./results.js";
import type { Specification } from "./specification.js";
import type { SoFar } from "./warn.js";

/** How many injuries a share is of, and the share back by the main landmark. */
interface Share {
  readonly n: number;
  readonly back: number;
}

/**
 * How far injuries whose rows were set aside could move the main figure, whatever these rows hold: the share of everybody if none or all of them
 * were back; a difference of the groups as they are if all of them were back in one group and none in the other, parted between the two as moves it most.
 * Each row counts as an injury, also where several tell of one, so that it moves by no more than this.
 *
 * @returns null where the figure itself is not known
 */
export function movedBySetAside(
  { accounting, curves }: Pick<SoFar, "accounting" | "curves">,
  { landmarks, comparison }: Pick<Specification, "landmarks" | "comparison">,
): Warning["could_move"] {
  const main = landmarks.find(({ isMain }) => isMain);
  if (main === undefined) return null;
  const m = injuriesSetAside(accounting);
  const sharesOf = (family: ExactCurve["family"]): ReadonlyMap<string, Share> =>
    new Map(
      (curves.find((one) => one.family === family)?.curves ?? []).flatMap((curve) => {
        const back = curve.landmarks.find(({ day }) => day === main.day)?.returned.value ?? null;
        return back === null || curve.n === 0 ? [] : [[curve.label, { n: curve.n, back }]];
      }),
    );
  const compared = sharesOf("compared");
  const reference = compared.get(comparison.reference);
  const others = comparison.labels.flatMap((label) =>
    label === comparison.reference ? [] : (compared.get(label) ?? []),
  );
  if (reference !== undefined && others.length > 0) {
    const points = Math.max(...others.map((other) => mostApart([other, reference], m)));
    return { points, how: "set-aside-opposed" };
  }
  const points = [...sharesOf("all").values()].map((all) => Math.max(...movedBy(all, m)));
  return points.length === 0 ? null : { points: Math.max(...points), how: "set-aside-alike" };
}

/** A row that repeats an earlier one in every cell is no other injury: that one is used. */
function injuriesSetAside({ tables }: ExactResults["accounting"]): number {
  return tables
    .filter(({ table }) => table === "injuries" || table === "single_sheet")
    .flatMap(({ reasons }) => reasons)
    .reduce((sum, { code, n }) => (code === "row-repeated" ? sum : sum + n), 0);
}

/** How far down a share moves if none, and how far up if all, of so many more injuries were back. */
const movedBy = ({ n, back }: Share, more: number): readonly [down: number, up: number] => [
  (back * more) / (n + more),
  ((1 - back) * more) / (n + more),
];

/** How far the difference of two shares moves at most, in either direction. */
function mostApart([one, other]: readonly [Share, Share], m: number): number {
  let most = 0;
  for (let k = 0; k <= m; k++) {
    const [down, up] = movedBy(one, k);
    const [otherDown, otherUp] = movedBy(other, m - k);
    most = Math.max(most, up + otherDown, down + otherUp);
  }
  return most;
}
