import { checkColumn } from "../../shared/arguments.js";
import type { Reason } from "../../shared/figure.js";
import { checkColumnNames, list, needed, number, type OptionsOf, readOptions } from "../../shared/options.js";
import { type VisitColumns, type Visits, visitColumnsNames } from "./columns.js";
import type { EndModel } from "./end-model.js";
import type { IncidenceBetweenVisits, ModelOfEnd } from "./incidence-types.js";
import { patternsOf } from "./patterns.js";
import { groupOutputs, knotsFor } from "./standardised-outputs.js";
import {
  boundedFigure,
  missing,
  type RecoverableFigure,
  recoveredDifference,
  type VisitFigure,
} from "./visit-figures.js";
import { modelOptions, reachOf, spreadOf, type VisitModels, visitModelsOf } from "./visit-models.js";
import { variancesOf } from "./visit-variances.js";

const incidenceOptions = {
  /** Times at which shares are wanted, above 0. */
  times: needed(list<ArrayLike<number>>()),
  /** Up to where mean times are taken, and beyond which no median is given. Default: the last time in the data. */
  horizon: number("positive"),
  ...modelOptions,
};

export interface IncidenceBetweenVisitsOptions extends OptionsOf<typeof incidenceOptions> {}

/**
 * Share of people with one end by given times, its median and mean time without it, from ends known only between visits (or to the day, or not
 * at all), other ends counted as not having it: for each group with everybody's covariates, and the differences between groups.
 *
 * Each end has an accelerated model of the time to it as if no other came (cause-specific hazards); F(t) = integral of f(u) x product of the other
 * ends' shares without end. Rows with another end stop counting when that came, at the mean of its interval where it is known only between
 * visits. Of the end asked about the law is chosen by AIC, and whether groups share it and its spread or have each a model of their own (where
 * that is better by more than 2 in AIC and each group has ten such ends); the other ends have an exponential, Weibull or log-normal law,
 * with groups and covariates where five such ends a coefficient were seen, else each group by itself without covariates. An end never seen in
 * a group does not come there. Late entry is carried through in every likelihood: figures then speak of those still without an end
 * at entry, as if all had been followed from time 0.
 *
 * Everybody's covariates are set under each group in turn and the shares averaged (g-formula). Variance by the delta method from the models'
 * covariance, or their scores summed within clusters, and from the spread of the averaged shares; times units / (units - parameters), with
 * Student's t. Limits on the logit (shares; mean as a part of the horizon) or logarithm (median); those of differences recovered from them, and their p from
 * the level at which a limit comes to 0.
 *
 * Measured on simulated visits at weeks 6, 12, 24 and 39 (README.md): where it does not hold and what was tried besides.
 *
 * @param columns see VisitColumns
 * @returns no groups with the reason of the end whose model has no estimates; `beyond-follow-up` for times after the last day on which
 *   somebody in the group was still followed without an end (or with, where all had one); `not-reached` for a median after that or after the horizon
 * @throws ArgumentError naming the column and index at fault, or the option
 * @source models: Kalbfleisch & Prentice 2002, The Statistical Analysis of Failure Time Data, chapters 3 and 8; standardised: Robins 1986, Math
 *   Model 7:1393; law: Akaike 1974, IEEE Trans Automat Contr 19:716; recovered limits: Zou & Donner 2008, Stat Med 27:1693
 * @example
 * incidenceBetweenVisits({ left: [0, 42, 42, 84], right: [42, 84, 84, null] }, { times: [60] }).groups[0].n // => 4
 */
export function incidenceBetweenVisits(
  columns: VisitColumns,
  options: IncidenceBetweenVisitsOptions,
): IncidenceBetweenVisits {
  checkColumnNames(visitColumnsNames, { columns });
  const { end, laws, level, ...asked } = readOptions(incidenceOptions, options);
  checkColumn({ name: "times", values: asked.times }, "positive");
  const times = Array.from(asked.times);
  return incidenceUnder(visitModelsOf(columns, { end, laws, level, horizon: asked.horizon }), { times });
}

/** The same from models that were fitted. */
export function incidenceUnder(
  prepared: VisitModels,
  asked: { readonly times: readonly number[] },
): IncidenceBetweenVisits {
  const { models, end, horizon, level, reason } = prepared;
  const told = { end, horizon: horizon > 0 ? horizon : null, models: models.map(toldOf), level, reason };
  return reason === null
    ? { ...told, ...figuresOf(prepared, asked) }
    : { ...told, groups: [], differences: [] };
}

const toldOf = ({ pieces, ...told }: EndModel): ModelOfEnd => ({
  ...told,
  fits: pieces.map(({ fit }) => fit),
});

/** Figures of the groups and of their differences. */
function figuresOf(
  prepared: VisitModels,
  { times }: { readonly times: readonly number[] },
): Pick<IncidenceBetweenVisits, "groups" | "differences"> {
  const { visits, models, end, horizon } = prepared;
  const own = models.findIndex((model) => model.end === end);
  const { patterns, of: patternOf } = patternsOf(visits);
  const knots = knotsFor(times, horizon);
  const computed = visits.groups.map((_, group) => groupOutputs(patterns, { models, own, group, knots }));
  const spread = spreadOf(prepared);
  const from = { visits, patternOf };
  const figures = computed.map((of, i) => {
    const variance = variancesOf([{ sign: 1, of }], from);
    const reach = reachOf(visits, i);
    return of.outputs
      .map((_, o) => o)
      .reduce<RecoverableFigure[]>((list, o) => {
        const value = of.outputs[o]!;
        const time = times[o] ?? (o === times.length ? horizon : value);
        const top = o < times.length ? 1 : o === times.length ? horizon : Number.POSITIVE_INFINITY;
        if (o > times.length && !(value <= Math.min(reach, horizon))) list.push(without("not-reached"));
        else if (time > reach) list.push(without("beyond-follow-up"));
        else list.push(boundedFigure(value, { ...spread(variance[o]!), top }));
        return list;
      }, []);
  });
  const laidOut = <Figure extends VisitFigure>(list: readonly Figure[]) => ({
    shares: times.map((time, o) => ({ time, ...list[o]! })),
    restrictedMean: list[times.length]!,
    median: list[times.length + 1]!,
  });
  return {
    groups: visits.groups.map((group, i) => ({
      group,
      ...countsOf(visits, { place: i, end }),
      ...laidOut(figures[i]!.map(({ figure }) => figure)),
    })),
    differences: visits.groups.flatMap((group, i) =>
      visits.groups.slice(0, i).map((against, other) => {
        const variance = variancesOf(
          [
            { sign: 1, of: computed[i]! },
            { sign: -1, of: computed[other]! },
          ],
          from,
        );
        const list = figures[i]!.map((one, o) =>
          recoveredDifference([one, figures[other]![o]!], spread(variance[o]!)),
        );
        return { group, against, ...laidOut(list) };
      }),
    ),
  };
}

const without = (reason: Reason): RecoverableFigure => ({ figure: missing(reason), limitsAt: null });

function countsOf(visits: Visits, of: { place: number; end: number }): { n: number; events: number } {
  let [n, events] = [0, 0];
  for (let row = 0; row < visits.n; row++) {
    if (visits.group[row] !== of.place) continue;
    n++;
    if (visits.ends[row] === of.end) events += visits.weights[row]!;
  }
  return { n, events };
}
