import {
  allSitesName,
  answerWords,
  estimateColumn,
  furtherSiteName,
  injuriesColumn,
  limitsWords,
  siteColumn,
  weightColumn,
  weightWords,
} from "../words/figures/pooled-sites.js";
import type { PooledShown, SiteAnswer } from "../words/pooling/pooled-shown.js";
import { lineHeight } from "./marks.js";
import type { Margins } from "./page.js";
import { lines, roughWidth } from "./rough-width.js";
import type { Theme } from "./theme.js";

/** A row of the figure: a site, or one of the two of the pooled answer. */
export interface SiteLine {
  readonly name: readonly string[];
  readonly injuries: string;
  readonly weight: string;
  readonly answer: readonly string[];
  readonly height: number;
  readonly bold: boolean;
}

export interface Columns {
  readonly margins: Margins;
  readonly width: number;
  readonly name: number;
  /** Ends of the columns of numbers, which are set to the right. */
  readonly injuries: number;
  readonly weight: number;
  readonly answer: number;
}

const answerWidth = ({ font }: Theme): number => font.small * 13;
const nameWidth = ({ width }: Theme): number => width * 0.22;

function lineOf(
  { name, injuries, weight, answer }: { name: string; injuries: string; weight: string; answer: string },
  { theme, bold, room }: { theme: Theme; bold: boolean; room: number },
): SiteLine {
  const { small } = theme.font;
  const look = { size: small, weight: bold ? "bold" : "normal" } as const;
  const names = lines(name, { width: nameWidth(theme), ...look });
  const answers = lines(answer, { width: answerWidth(theme), ...look });
  const most = Math.max(names.length, answers.length);
  return {
    name: names,
    injuries,
    weight,
    answer: answers,
    height: Math.round((most - 1) * lineHeight(small) + small * room),
    bold,
  };
}

export function siteLine(
  site: SiteAnswer,
  { shown, theme, tight }: { shown: PooledShown; theme: Theme; tight: boolean },
): SiteLine {
  const texts = {
    name: site.site,
    injuries: String(site.injuries),
    weight: weightWords(site.weight),
    answer: answerWords(site, shown),
  };
  return lineOf(texts, { theme, bold: false, room: tight ? 1.5 : 2 });
}

export function pooledLines(shown: PooledShown, theme: Theme): readonly [SiteLine, SiteLine] {
  const { pooled } = shown;
  const answer = answerWords({ ...pooled.interval, estimate: pooled.estimate }, shown);
  const further = limitsWords(pooled.prediction, shown);
  const look = { theme, room: theme.height === null ? 2.1 : 1.6 };
  return [
    lineOf(
      { name: allSitesName, injuries: String(pooled.injuries), weight: "", answer },
      { ...look, bold: true },
    ),
    lineOf({ name: furtherSiteName, injuries: "", weight: "", answer: further }, { ...look, bold: false }),
  ];
}

export function columnsOf(rows: readonly SiteLine[], shown: PooledShown, theme: Theme): Columns {
  const { small } = theme.font;
  const widest = (texts: readonly string[], weight: "normal" | "bold" = "normal") =>
    Math.max(0, ...texts.map((text) => roughWidth(text, small, weight)));
  const name = widest([siteColumn, ...rows.flatMap((row) => row.name)], "bold");
  const injuries = widest([injuriesColumn, ...rows.map((row) => row.injuries)]);
  const weight = widest([weightColumn, ...rows.map((row) => row.weight)]);
  const answer = widest([estimateColumn(shown), ...rows.flatMap((row) => row.answer)], "bold");
  const margins = {
    left: Math.round(small + name + small + injuries + 1.6 * small),
    right: Math.round(1.6 * small + weight + 1.2 * small + answer + small),
  };
  const width = theme.width - margins.left - margins.right;
  return {
    margins,
    width,
    name: small - margins.left,
    injuries: -1.6 * small,
    weight: width + 1.6 * small + weight,
    answer: width + 1.6 * small + weight + 1.2 * small,
  };
}
