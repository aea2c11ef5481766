import type { LossUnder } from "../../statistics/survival/between-visits/after-loss/loss-under.js";
import type { VisitFigure } from "../../statistics/survival/between-visits/index.js";
import { missing } from "../estimates.js";
import type { Group } from "../groups.js";
import {
  type DifferenceAfterLossRow,
  factors,
  isLostBefore,
  type LossAsked,
  line,
  type ShareAfterLossRow,
  tippingTold,
} from "../loss-asked.js";
import type { Pair } from "../pairs.js";
import type { Estimate, ReasonCode } from "../results-parts.js";
import { estimateOfVisits, type Modelled } from "./model.js";
import type { SpansOfPair } from "./pair.js";

interface GroupOfModel {
  readonly modelled: Modelled;
  readonly group: Group;
  readonly place: number;
}

/** Shares and differences under the model of spans, if those lost were unlike those followed. */
export interface LossInSpans {
  readonly shareOf: (of: GroupOfModel) => ShareAfterLossRow;
  /** As the groups are, and like for like where something is held equal. */
  readonly differencesOf: (pair: Pair, spans: SpansOfPair) => DifferenceAfterLossRow[];
}

/** What loss could do to figures of the model of spans, which stays as it was fitted. */
export function lossInSpans(asked: LossAsked): LossInSpans {
  const found = new Map<Modelled, LossUnder | null>();
  const underModel = (modelled: Modelled, cells: readonly number[] | null): LossUnder | null => {
    const own = found.has(modelled)
      ? found.get(modelled)!
      : modelled.afterLoss({ isLost: isLostBefore(asked), cells, day: asked.day, factors, line });
    found.set(modelled, own);
    return own;
  };
  return {
    shareOf: ({ modelled, ...of }) => shareInSpans({ ...of, under: underModel(modelled, null) }, asked),
    differencesOf: (pair, { crude, model, places, adjusted }) => {
      const both = { compared: pair.compared.records, reference: pair.reference.records };
      const asTheyAre = differenceInSpans(
        { pair, both, difference: crude, held: [], places, under: () => underModel(model, null) },
        asked,
      );
      if (adjusted === null) return [asTheyAre];
      const { records, cells, fields } = adjusted;
      const nobody = records.compared.length + records.reference.length === 0;
      const difference = nobody ? "no-overlap" : adjusted.model.difference(0, 1);
      const alike = {
        pair,
        both: records,
        difference,
        held: fields,
        places: { compared: 0, reference: 1 },
        under: () => underModel(adjusted.model, cells),
      };
      return [asTheyAre, differenceInSpans(alike, asked)];
    },
  };
}

function shareInSpans(
  { group, place, under }: Omit<GroupOfModel, "modelled"> & { readonly under: LossUnder | null },
  asked: LossAsked,
): ShareAfterLossRow {
  const { label, records, modelled } = group;
  const lost = records.filter(isLostBefore(asked)).length;
  const common = { label, n: records.length, lost };
  if (modelled === null || typeof modelled === "string" || under === null) {
    const figure = missing(typeof modelled === "string" ? modelled : "no-events");
    const points = factors.map((factor) => ({ factor, figure }));
    return { ...common, none_back: figure, as_followed: figure, all_back: figure, points, line: null };
  }
  const { none, all, points, crossing } = under.shareOf(place);
  const as_followed = estimateOfVisits(modelled.shares.find(({ time }) => time === asked.day)!);
  return {
    ...common,
    none_back: estimateOfVisits(none),
    as_followed,
    all_back: estimateOfVisits(all),
    points: pointsOf(points, as_followed),
    line: tippingTold(crossing),
  };
}

/** The figure at each factor; at 1 that of the report, of which the walk through the states differs by its steps. */
const pointsOf = (
  points: readonly (VisitFigure & { readonly factor: number })[],
  as_followed: Estimate,
): ShareAfterLossRow["points"] =>
  points.map(({ factor, ...figure }) => ({
    factor,
    figure: factor === 1 ? as_followed : estimateOfVisits(figure),
  }));

interface Compared {
  readonly pair: Pair;
  readonly both: Readonly<Record<"compared" | "reference", Group["records"]>>;
  readonly difference: SpansOfPair["crude"];
  /** Fields held equal. */
  readonly held: readonly string[];
  readonly places: SpansOfPair["places"];
  readonly under: () => LossUnder | null;
}

function differenceInSpans(
  { pair, both, difference, held, places, under }: Compared,
  asked: LossAsked,
): DifferenceAfterLossRow {
  const lostOf = (records: Group["records"]): number => records.filter(isLostBefore(asked)).length;
  const common = {
    compared: pair.compared.label,
    reference: pair.reference.label,
    adjusted_for: [...held],
    lost: { compared: lostOf(both.compared), reference: lostOf(both.reference) },
  };
  const found = typeof difference === "string" ? null : under();
  if (typeof difference === "string" || found === null) {
    const reason: ReasonCode = typeof difference === "string" ? difference : "no-events";
    const figure = missing(reason);
    const points = factors.map((factor) => ({ factor, figure }));
    return { ...common, lowest: figure, as_followed: figure, highest: figure, points, tipping: null };
  }
  const { lowest, highest, points, tipping } = found.differenceOf(places.compared, places.reference);
  const as_followed = estimateOfVisits(difference.shares.find(({ time }) => time === asked.day)!);
  return {
    ...common,
    lowest: estimateOfVisits(lowest),
    as_followed,
    highest: estimateOfVisits(highest),
    points: pointsOf(points, as_followed),
    tipping: tippingTold(tipping),
  };
}
