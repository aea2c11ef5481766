import type { PooledAnswer, PooledResults } from "../../pooling/pooled/index.js";
import { intervalName } from "../../words/estimates.js";
import { pValue, rounded, share } from "../../words/numbers.js";
import { capital } from "../../words/phrases.js";
import { heldBackName } from "../../words/pooling/leaving.js";
import {
  pooledComparisonWords,
  pooledGroupName,
  pooledMeasureWords,
  pooledReasonWords,
  pooledUnit,
} from "../../words/pooling/pooled-answers.js";
import { countWords, mainAnswers, pooledLimits } from "../../words/pooling/pooled-plain.js";
import { digitsOf, unitAfter } from "../../words/units.js";
import { type Content, html, type Safe } from "../escape.js";
import { type Column, type Row, type RowGroup, table } from "../layout/table.js";

const numbers = (head: string): Column => ({ head, align: "numbers" });

/** The name of an answer as the heading of a table. */
export function pooledAnswerName(answer: PooledAnswer, { agreed }: PooledResults): string {
  const measure = pooledMeasureWords(answer, agreed.file);
  const of =
    answer.of === "group"
      ? pooledGroupName(answer, agreed.file.compare.by)
      : pooledComparisonWords(answer, agreed.file);
  return `${capital(measure)}: ${of}`;
}

function valueCell(value: number | null, answer: PooledAnswer): string {
  if (value === null) return "\u2013";
  const unit = pooledUnit(answer);
  const digits = digitsOf(value, { unit });
  return digits + unitAfter(digits, unit);
}

/** Every site beside the pooled answer, for the answers that the first page speaks of. */
export const siteTables = (results: PooledResults): Safe =>
  html`${mainAnswers(results).map((answer) => siteTable(answer, results))}`;

function siteTable(answer: PooledAnswer, results: PooledResults): Safe {
  const level = results.agreed.file.confidence_level;
  const { common, random } = answer;
  const total = [
    countWords(answer.n, { one: "injury", many: "injuries", sites: answer.used }),
    countWords(answer.persons, { one: "person", many: "people", sites: answer.used }),
    countWords(answer.events, { one: "return", many: "returns", sites: answer.used }),
  ];
  const pooled = (name: string, figure: typeof common, weight: Content): Row => [
    html`<strong>${name}</strong>`,
    ...total,
    html`<strong>${valueCell(figure.value, answer)}</strong>`,
    pooledLimits(figure, answer) ?? pooledReasonWords(figure.reason),
    weight,
  ];
  const predicted = pooledLimits(random.prediction, answer);
  return table({
    caption: pooledAnswerName(answer, results),
    columns: [
      { head: "Site" },
      numbers("Injuries"),
      numbers("People"),
      numbers("Came back"),
      numbers(answer.of === "group" ? "Figure" : "Difference"),
      numbers(intervalName(level)),
      numbers("Part in the answer"),
    ],
    groups: [
      {
        heading: null,
        rows: answer.sites.map(
          (site): Row => [
            site.site,
            site.n ?? "\u2013",
            site.persons ?? "\u2013",
            site.events ?? "\u2013",
            valueCell(site.value, answer),
            site.reason === null ? (pooledLimits(site, answer) ?? "") : pooledReasonWords(site.reason),
            share(site.weight),
          ],
        ),
      },
      {
        heading: "Pooled",
        rows: [
          pooled("Sites like these (random effects)", random, ""),
          pooled("These sites, taken for alike (common effect)", common, ""),
        ],
      },
    ],
    note:
      predicted === null
        ? `No prediction interval: ${pooledReasonWords(random.prediction.reason)}.`
        : `A further site of the same kind is expected between these: ${predicted} (prediction interval).`,
  });
}

/** Every pooled answer: groups and comparisons by landmark. */
export function answersTables(results: PooledResults): Safe {
  const { answers, agreed } = results;
  const level = agreed.file.confidence_level;
  const columns = [
    { head: "What" },
    numbers("Sites"),
    numbers("Injuries"),
    numbers("Sites like these (random effects)"),
    numbers(intervalName(level)),
    numbers("Prediction interval"),
    numbers("These sites, taken for alike (common effect)"),
    numbers(intervalName(level)),
  ];
  const rowOf = (answer: PooledAnswer): Row => [
    capital(pooledMeasureWords(answer, agreed.file)),
    answer.used,
    countWords(answer.n, { one: "injury", many: "injuries", sites: answer.used }),
    valueCell(answer.random.value, answer),
    pooledLimits(answer.random, answer) ?? pooledReasonWords(answer.random.reason),
    pooledLimits(answer.random.prediction, answer) ?? pooledReasonWords(answer.random.prediction.reason),
    valueCell(answer.common.value, answer),
    pooledLimits(answer.common, answer) ?? pooledReasonWords(answer.common.reason),
  ];
  const grouped = (of: PooledAnswer["of"], name: (answer: PooledAnswer) => string): RowGroup[] => {
    const own = answers.filter((answer) => answer.of === of);
    return [...new Set(own.map(name))].map((heading) => ({
      heading: capital(heading),
      rows: own.filter((answer) => name(answer) === heading).map(rowOf),
    }));
  };
  return html`${table({
    caption: "Groups",
    columns,
    groups: grouped("group", (answer) => pooledGroupName(answer, agreed.file.compare.by)),
  })}${table({
    caption: "Differences between groups: percentage points, and days",
    columns,
    groups: grouped("comparison", (answer) => pooledComparisonWords(answer, agreed.file)),
    note: "With something held equal, each site compares only the strata with enough injuries of both groups, at its own mix of these.",
  })}`;
}

const number = (value: number | null, decimals = 2): string =>
  value === null ? "\u2013" : rounded(value, { decimals });

/** Spread between sites, by both estimators, with Q and I-squared. */
export function spreadTable(results: PooledResults): Safe {
  return html`<p>Shares are pooled on the logit, differences of shares as shares, mean days in days; tau is the standard deviation between the sites' true figures on that scale. With few sites all of these are rough, and a tau of 0 is no sign that sites agree.</p>
${table({
  caption: "Spread between the sites",
  columns: [
    { head: "Answer" },
    numbers("Sites"),
    numbers("tau, restricted likelihood"),
    numbers("tau, Paule and Mandel"),
    numbers("Variance between sites, limits"),
    numbers("Q (df)"),
    numbers("p of Q"),
    numbers("I-squared (limits)"),
  ],
  groups: [
    {
      heading: null,
      rows: mainAnswers(results).map((answer): Row => {
        const { random, paule_mandel, heterogeneity, used } = answer;
        const { q, df, p, i_squared } = heterogeneity;
        const { lower, upper } = random.spread.tau_squared;
        return [
          pooledAnswerName(answer, results),
          used,
          number(random.spread.tau),
          number(paule_mandel.spread.tau),
          lower === null || upper === null ? "\u2013" : `${number(lower)} to ${number(upper)}`,
          q === null ? "\u2013" : `${number(q)} (${df})`,
          p === null ? "\u2013" : pValue(p),
          i_squared.value === null
            ? "\u2013"
            : `${share(i_squared.value)}${i_squared.lower === null || i_squared.upper === null ? "" : ` (${share(i_squared.lower)} to ${share(i_squared.upper)})`}`,
        ];
      }),
    },
  ],
})}`;
}

/** The answers of the first page without each site in turn. */
export const withoutTables = (results: PooledResults): Safe =>
  results.sites.length < 2
    ? html`<p>With one site there is nothing to leave out.</p>\n`
    : table({
        caption: "Without one site",
        columns: [
          { head: "Site left out" },
          numbers("Sites like these (random effects)"),
          numbers(intervalName(results.agreed.file.confidence_level)),
        ],
        groups: mainAnswers(results).map((answer) => ({
          heading: pooledAnswerName(answer, results),
          rows: answer.without.map(
            (one): Row => [
              one.site,
              valueCell(one.value, answer),
              pooledLimits(one, answer) ?? pooledReasonWords("too-few-sites"),
            ],
          ),
        })),
      });

/** What each site gave, and what it held back. */
export const contributionsTable = ({ sites, agreed }: PooledResults): Safe =>
  table({
    caption: "What each site gave",
    columns: [
      { head: "Site" },
      numbers("Injuries"),
      numbers("People"),
      numbers("Came back"),
      { head: "Held back" },
      { head: "Small cells" },
      { head: "Version" },
      { head: "Summary (SHA-256, first 16)" },
    ],
    groups: [
      {
        heading: null,
        rows: sites.map(
          (one): Row => [
            one.site,
            one.n ?? "\u2013",
            one.persons ?? "\u2013",
            one.events ?? "\u2013",
            one.held_back.length === 0
              ? "nothing"
              : one.held_back.map((each) => heldBackName(each, agreed)).join("; "),
            one.small_cells.choice === "written"
              ? "written"
              : `fewer than ${one.small_cells.smallest} people: left out`,
            one.toolkit_version,
            one.summary_sha256.slice(0, 16),
          ],
        ),
      },
    ],
    note: "A site that leaves small cells out rounds its counts to a multiple of the smallest.",
  });
