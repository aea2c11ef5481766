import type { CurveResult, OtherEnd, Results } from "../../study/results.js";
import { estimateColumns } from "./curves.js";
import { type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

interface EndOfCurve {
  readonly curve: CurveResult;
  readonly end: OtherEnd;
}
type OfEnd<K extends "points" | "landmarks"> = ParentAndChild<EndOfCurve, OtherEnd[K][number]>;

/** The share that came to each other end than a return, over time and at the landmarks. */
export function otherEndTables({ curves }: Results): FlatTable[] {
  const ends = unfold(
    curves.flatMap((family) => family.curves),
    (curve) => curve.other_ends,
  ).map(({ parent: curve, child: end }): EndOfCurve => ({ curve, end }));
  const of = {
    family: ({ parent }: { readonly parent: EndOfCurve }) => parent.curve.family,
    group: ({ parent }: { readonly parent: EndOfCurve }) => parent.curve.label,
    end: ({ parent }: { readonly parent: EndOfCurve }) => parent.end.end,
    injuries: ({ parent }: { readonly parent: EndOfCurve }) => parent.end.n,
  };
  return [
    flatTable("other-ends", {
      things: unfold(ends, ({ end }) => end.points),
      columns: {
        ...of,
        day: ({ child }: OfEnd<"points">) => child.day,
        share: ({ child }: OfEnd<"points">) => child.share,
        share_lower: ({ child }: OfEnd<"points">) => child.lower,
        share_upper: ({ child }: OfEnd<"points">) => child.upper,
      },
    }),
    flatTable("other-ends-landmarks", {
      things: unfold(ends, ({ end }) => end.landmarks),
      columns: {
        ...of,
        week: ({ child }: OfEnd<"landmarks">) => child.week,
        day: ({ child }: OfEnd<"landmarks">) => child.day,
        ...estimateColumns<OfEnd<"landmarks">>("share", ({ child }) => child.share),
      },
    }),
  ];
}
