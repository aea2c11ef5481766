import { measureOf } from "../../study/measures/index.js";
import type { EffectResult, Results } from "../../study/results.js";
import { associationLine, undecidedLine } from "../../words/cautions.js";
import { howToPool } from "../../words/definitions.js";
import { intervalName, intervalWords, valueWords } from "../../words/estimates.js";
import { comparisonName, measureWords, unitOf } from "../../words/measures.js";
import { share } from "../../words/numbers.js";
import { capital, listed, lowered } from "../../words/phrases.js";
import { frailtySentences, ratesWords } from "../../words/pooling/site-answers.js";
import { reasonWords } from "../../words/reasons.js";
import { groupName, labelOf, milestoneWords } from "../../words/terms.js";
import { byDay, weeks } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { type Content, html, type Safe } from "../escape.js";
import { bullets, caution, heading } from "../layout/blocks.js";
import { figuresIn } from "../layout/figure.js";
import { shareStrip } from "../layout/strip.js";
import { type Column, type Row, type RowGroup, table } from "../layout/table.js";

type Sites = NonNullable<Results["sites"]>;

/** Each site's own answer beside the joined one, the joined one without each site, and the frailty of the sites. */
export function bySiteSection(context: ReportContext): Section | null {
  const { results } = context;
  const { sites, plan, definitions } = results;
  if (sites === null) return null;
  const isJoined = definitions === null || definitions.pooled;
  return section(
    "by-site",
    html`<p>${isJoined ? "The joined answer counts every injury once and compares groups within each site only." : `The sites mean different things by the return, so they are not joined. ${howToPool}`} A site of few injuries has a wide interval: an answer of its own that lies far from the joined one is no sign by itself that the site differs. ${undecidedLine} ${associationLine(labelOf(plan.compare.by))}</p>
${figuresIn(context, "by-site")}${sharesTable(results, isJoined)}${differencesTable(sites, results)}${frailties(sites, plan)}${caution()}`,
  );
}

const numbers = (head: Content): Column => ({ head, align: "numbers" });

/** Share back and mean time of everybody, site by site. */
function sharesTable({ sites, curves, plan }: Results, isJoined: boolean): Safe {
  const { back, name } = milestoneWords[plan.question.milestone];
  const interval = intervalName(plan.confidence_level);
  const joined = curves.find(({ family }) => family === "all")?.curves[0];
  const rowOf = (label: string, own: Omit<Sites["answers"][number], "site" | "cells" | "effects">): Row => {
    const returned = own.landmarks.find(({ week }) => week === plan.main_landmark_weeks)!.returned;
    const { days } = own.restricted_mean;
    return [
      label,
      own.n,
      own.persons,
      own.events,
      returned.value === null
        ? reasonWords(returned.reason)
        : html`<strong>${share(returned.value)}</strong>`,
      intervalWords(returned, "share"),
      shareStrip(returned),
      valueWords(days, "days"),
      intervalWords(days, "days"),
    ];
  };
  return table({
    caption: `Everybody, by site: ${back} by ${weeks(plan.main_landmark_weeks)}, and mean time to ${name} up to ${weeks(plan.horizon_weeks)}`,
    columns: [
      { head: "Site" },
      numbers("Injuries"),
      numbers("People"),
      numbers("Returns"),
      numbers("Share back"),
      numbers(interval),
      { head: "From 0 to 100\u00a0%" },
      numbers("Mean days"),
      numbers(interval),
    ],
    groups: [
      { heading: null, rows: sites!.answers.map((own) => rowOf(own.site, own)) },
      { heading: null, rows: isJoined && joined !== undefined ? [rowOf("All sites", joined)] : [] },
    ],
    note: "Intervals allow for several injuries of one person. Sites differ in the injuries that they see: these shares are of all injuries of a site, whatever their grade.",
  });
}

/** The main differences of each site alone, of all sites, and of all without each. */
function differencesTable({ answers, without }: Sites, { effects, plan }: Results): Safe[] {
  const main = [...effects, ...answers.flatMap((own) => own.effects)].filter(
    (effect) => effect.main && measureOf(effect.measure).outcome === "return",
  );
  const measures = new Map(main.map((effect) => [measureAndDay(effect), effect]));
  return [...measures.values()].map((effect) => {
    const { compared, reference, at_day } = effect;
    const named = (label: string) => groupName(label, plan.compare.by);
    const find = (among: readonly EffectResult[]) => {
      const same = among.filter((one) => one.main && measureAndDay(one) === measureAndDay(effect));
      return same.find(({ adjusted_for }) => adjusted_for.length > 0) ?? same[0];
    };
    const joined = find(effects);
    const [part, noPart] = [true, false].map((isPart) =>
      without.filter((one) => isPart !== isSame(find(one.effects), joined)),
    ) as [Sites["without"], Sites["without"]];
    const rows = (
      list: readonly { readonly site: string; readonly effects: readonly EffectResult[] }[],
      label: (site: string) => string,
    ) => list.map(({ site, effects: own }): Row => effectRow(label(site), find(own)));
    const groups: RowGroup[] = [
      { heading: "Each site by itself", rows: rows(answers, (site) => site) },
      {
        heading: "The sites together",
        rows: effects.length === 0 ? [] : [effectRow("all sites", joined)],
      },
      { heading: "The sites together, without one", rows: rows(part, (site) => `without ${site}`) },
    ];
    return table({
      caption: `${capital(comparisonName(named(compared), named(reference)))}: ${lowered(measureWords[effect.measure].compares(at_day === null ? "" : byDay(at_day)))}`,
      columns: [
        { head: "Sites" },
        numbers("Injuries"),
        numbers("Difference or ratio"),
        numbers(intervalName(plan.confidence_level)),
        { head: "Adjusted for" },
      ],
      groups,
      note: `Injuries: those that the comparison uses. Where a site has too few of both groups in every stratum, it has no adjusted answer of its own and is not in the joined one.${noPart.length === 0 ? "" : ` Left out, these change nothing: ${listed(noPart.map(({ site }) => site))}.`}`,
    });
  });
}

/** Whether two effects are of the same injuries with the same figures: then a site that was left out had no part. */
const isSame = (one: EffectResult | undefined, other: EffectResult | undefined): boolean =>
  JSON.stringify([one?.n, one?.estimate]) === JSON.stringify([other?.n, other?.estimate]);

const measureAndDay = ({ measure, compared, reference, at_day }: EffectResult): string =>
  JSON.stringify([measure, compared, reference, at_day]);

function effectRow(label: string, effect: EffectResult | undefined): Row {
  if (effect === undefined) return [label, "\u2013", "not compared", null, null];
  const { n, estimate, adjusted_for } = effect;
  const unit = unitOf(effect);
  const all =
    typeof n.compared === "number" && typeof n.reference === "number" ? n.compared + n.reference : n.compared;
  return [
    label,
    all,
    valueWords(estimate, unit),
    intervalWords(estimate, unit),
    adjusted_for.length === 0 ? "none" : adjusted_for.map(labelOf).join(", "),
  ];
}

function frailties({ frailty }: Sites, plan: Results["plan"]): Safe | null {
  if (frailty.length === 0) return null;
  return html`${heading("Rates of return that vary between sites")}<p>In the place of a stratum, each site has a rate of return of its own around a common mean. Sites too small to be strata take part as well. Injuries of one person are counted as independent here.</p>
${bullets(
  frailty.map(
    (one) =>
      html`${frailtySentences(one, plan)}${one.rates.length === 0 ? null : html` Rates relative to the mean site, drawn towards 1: ${ratesWords(one)}.`}`,
  ),
)}`;
}
