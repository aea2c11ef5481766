import type { LossDifference, LossShare, Results } from "../../study/results.js";
import { estimateColumns } from "./curves.js";
import { type ColumnsOf, type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

type LossBounds = NonNullable<Results["loss_bounds"]>;

/** A share or a difference under what is supposed of those lost, as one kind of row. */
interface Figure extends Pick<LossDifference, "lowest" | "as_followed" | "highest" | "points" | "tipping"> {
  readonly figure: "share" | "difference";
  readonly family: LossShare["family"] | null;
  readonly compared: string;
  readonly reference: string | null;
  readonly adjusted_for: string;
  readonly lost: LossShare["lost"];
  readonly lost_of_reference: LossShare["lost"] | null;
}

const figuresOf = ({ shares, differences }: LossBounds): Figure[] => [
  ...shares.map(
    ({ family, label, lost, none_back, all_back, line, ...one }): Figure => ({
      ...one,
      figure: "share",
      family,
      compared: label,
      reference: null,
      adjusted_for: "",
      lost,
      lost_of_reference: null,
      lowest: none_back,
      highest: all_back,
      tipping: line,
    }),
  ),
  ...differences.map(
    ({ adjusted_for, lost, ...one }): Figure => ({
      ...one,
      figure: "difference",
      family: null,
      adjusted_for: adjusted_for.join(" "),
      lost: lost.compared,
      lost_of_reference: lost.reference,
    }),
  ),
];

const names: ColumnsOf<Figure> = {
  figure: ({ figure }) => figure,
  family: ({ family }) => family,
  group: ({ compared }) => compared,
  reference: ({ reference }) => reference,
  adjusted_for: ({ adjusted_for }) => adjusted_for,
};

/** The main figures if those lost were unlike those followed: worst, as estimated and best, and by each factor. */
export function afterLossTables({ loss_bounds: bounds }: Results): FlatTable[] {
  const figures = bounds === null ? [] : figuresOf(bounds);
  const ofPoint: ColumnsOf<ParentAndChild<Figure, Figure["points"][number]>> = {
    ...Object.fromEntries(
      Object.entries(names).map(([name, cellOf]) => [name, ({ parent }) => cellOf(parent)]),
    ),
    factor: ({ child }) => child.factor,
    ...estimateColumns<ParentAndChild<Figure, Figure["points"][number]>>(
      "estimate",
      ({ child }) => child.figure,
    ),
  };
  return [
    flatTable("after-loss", {
      things: figures,
      columns: {
        ...names,
        day: () => bounds!.day,
        lost: ({ lost }) => lost,
        lost_of_reference: ({ lost_of_reference }) => lost_of_reference,
        ...estimateColumns<Figure>("worst", ({ lowest }) => lowest),
        ...estimateColumns<Figure>("as_followed", ({ as_followed }) => as_followed),
        ...estimateColumns<Figure>("best", ({ highest }) => highest),
        factor_that_changes_it: ({ tipping }) => tipping?.factor ?? null,
        from: ({ tipping }) => tipping?.from ?? null,
        to: ({ tipping }) => tipping?.to ?? null,
        holds_in_both_extremes: ({ tipping }) => (tipping === null ? null : String(tipping.holds_at_bounds)),
      },
    }),
    flatTable("after-loss-factors", { things: unfold(figures, ({ points }) => points), columns: ofPoint }),
  ];
}
