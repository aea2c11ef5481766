import type { PooledAnswer, PooledResults } from "../../pooling/pooled/index.js";
import { intervalName } from "../../words/estimates.js";
import { pValue, rounded } from "../../words/numbers.js";
import {
  changeWords,
  characteristicName,
  characteristicValue,
  explainedSentences,
  stepWords,
} from "../../words/pooling/explained.js";
import { pooledReasonWords } from "../../words/pooling/pooled-answers.js";
import { mainAnswers } from "../../words/pooling/pooled-plain.js";
import { html, type Safe } from "../escape.js";
import { behind, bullets } from "../layout/blocks.js";
import { type Column, type Row, table } from "../layout/table.js";
import { pooledAnswerName } from "./pooled-tables.js";

const numbers = (head: string): Column => ({ head, align: "numbers" });
const none = "\u2013";

/** Whether what the sites are goes with what they find, and whether small sites answer otherwise. */
export function explainedPart(results: PooledResults): Safe {
  const { lines } = results.explained;
  return html`${bullets(explainedSentences(results))}${behind("Characteristic by characteristic", html`${characteristicsTable(results)}${lines.length === 0 ? null : html`${linesTable(results)}${smallSitesTable(results)}`}`)}`;
}

const characteristicsTable = ({ explained }: PooledResults): Safe =>
  table({
    caption: "What the sites are",
    columns: [
      { head: "Site" },
      ...explained.characteristics.map(({ characteristic }) => numbers(characteristicName(characteristic))),
    ],
    groups: [
      {
        heading: null,
        rows: (explained.characteristics[0]?.sites ?? []).map(
          ({ site }, i): Row => [
            site,
            ...explained.characteristics.map((each) => characteristicValue(each, each.sites[i]!.value)),
          ],
        ),
      },
    ],
    note: `From the sites' summaries. ${none}: not stated, not recorded, or held back because too few people are behind it.`,
  });

const answerOf = ({ answers }: PooledResults, wanted: string): PooledAnswer =>
  answers.find(({ id }) => id === wanted)!;

function linesTable(results: PooledResults): Safe {
  const { explained, agreed } = results;
  return table({
    caption: "Each main answer on each characteristic by itself",
    columns: [
      { head: "Characteristic" },
      { head: "By so much" },
      numbers("Sites"),
      numbers(`Change of the answer (${intervalName(agreed.file.confidence_level)})`),
      numbers("p"),
      numbers("tau without and with the line"),
    ],
    groups: mainAnswers(results).map((answer) => ({
      heading: pooledAnswerName(answer, results),
      rows: explained.lines
        .filter((line) => line.answer === answer.id)
        .map((line): Row => {
          const each = explained.characteristics.find(
            ({ characteristic }) => characteristic === line.characteristic,
          )!;
          return [
            characteristicName(line.characteristic),
            stepWords(each),
            line.sites,
            line.reason === null
              ? changeWords(line, answer)
              : line.reason === "collinear"
                ? "the same at all sites"
                : pooledReasonWords(line.reason),
            line.p === null ? none : pValue(line.p),
            line.tau === null || line.tau_without === null
              ? none
              : `${rounded(line.tau_without, { decimals: 2 })}, ${rounded(line.tau, { decimals: 2 })}`,
          ];
        }),
    })),
    note: "Shares: the odds are multiplied by so much. tau: spread between the sites on the scale of pooling, which a line that explains why sites differ would make smaller.",
  });
}

function smallSitesTable(results: PooledResults): Safe {
  const { explained, agreed } = results;
  return table({
    caption: "Whether small sites answer otherwise",
    columns: [
      { head: "Answer" },
      numbers("Sites"),
      numbers("Change per unit of the standard error"),
      numbers(intervalName(agreed.file.confidence_level)),
      numbers("p"),
    ],
    groups: [
      {
        heading: null,
        rows: explained.small_sites.map(({ answer: id, sites, slope, lower, upper, p, reason }): Row => {
          return [
            pooledAnswerName(answerOf(results, id), results),
            sites,
            slope === null ? pooledReasonWords(reason) : rounded(slope, { decimals: 2 }),
            lower === null || upper === null
              ? none
              : `${rounded(lower, { decimals: 2 })} to ${rounded(upper, { decimals: 2 })}`,
            p === null ? none : pValue(p),
          ];
        }),
      },
    ],
    note: "0: small sites, whose standard errors are large, answer as large ones do. That small sites answer otherwise can come from what they see, from how they follow people, or from which sites take part.",
  });
}
