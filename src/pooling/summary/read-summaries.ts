import { z } from "zod";
import { counted } from "../../schema/counted.js";
import { oneLine } from "../../schema/hidden-characters.js";
import { jsonText } from "../../schema/json-text.js";
import { inOrder } from "../../schema/ordered-keys.js";
import { problemsOf } from "../../schema/settings/settings-problems.js";
import { visible } from "../../schema/words/wording.js";
import { agreedFingerprint } from "./agreed.js";
import { contradictionsIn } from "./contradictions.js";
import { type SiteSummary, siteSummarySchema, summaryFormat } from "./site-summary.js";
import { SummaryError } from "./summary-error.js";

export const mergedFormat = "pulley-outcomes merged summaries 1";

/** Sites a file may hold: it bounds what a file can ask for. */
const mostSites = 1_000;

/** Summaries of several sites in one file, in the order of their names; pooling it is pooling its sites. */
export const mergedSummariesSchema = z
  .strictObject({
    format: z.literal(mergedFormat),
    sites: z.array(siteSummarySchema).min(1).max(mostSites),
  })
  .describe("Summaries of several sites");

/** A summary and the file that it came in, for messages. */
export interface ReadSummary {
  readonly file: string;
  readonly summary: SiteSummary;
}

/** So many problems of a file are told at once. */
const mostTold = 20;

/**
 * Reads a file of one site's summary, or of several sites' merged.
 *
 * @param given file: its name, for messages; text: JSON
 * @throws SummaryError naming the file and the place of what is wrong; nothing is guessed or filled in
 */
export function readSummaries(
  { file, text }: { readonly file: string; readonly text: string },
  { sha256 }: { readonly sha256: (text: string) => string },
): readonly ReadSummary[] {
  const value = jsonOf(file, text);
  const format = formatOf(value);
  if (format !== summaryFormat && format !== mergedFormat) throw new SummaryError(notASummary(file, format));
  const schema = format === summaryFormat ? siteSummarySchema : mergedSummariesSchema;
  const read = schema.safeParse(value);
  if (!read.success) throw refusal(file, problemsIn(read.error.issues, { schema, value }));
  const sites = "sites" in read.data ? read.data.sites : [read.data];
  return sites.map((summary, i) => {
    const at = "sites" in read.data ? `sites.${i}.` : "";
    const found = [...alteredIn(summary, sha256), ...contradictionsIn(summary)];
    if (found.length > 0)
      throw refusal(
        file,
        found.map((one) => ({ ...one, at: `${at}${one.at}` })),
      );
    return { file, summary };
  });
}

/** The text of one summary, or of several merged: the same summaries give the same bytes, whatever the order. */
export function summariesText(summaries: readonly SiteSummary[]): string {
  const sites = summaries.map(canonical).sort((one, other) => (one.site < other.site ? -1 : 1));
  return jsonText(sites.length === 1 ? sites[0] : { format: mergedFormat, sites });
}

/** Keys in the order of the schema, those of the agreed part in that of the alphabet. */
function canonical(summary: SiteSummary): SiteSummary {
  const { agreed, ...rest } = siteSummarySchema.parse(summary);
  const file = inOrder(agreed.file) as SiteSummary["agreed"]["file"];
  return siteSummarySchema.parse({ ...rest, agreed: { ...agreed, file } });
}

function jsonOf(file: string, text: string): unknown {
  try {
    return JSON.parse(text.startsWith("\uFEFF") ? text.slice(1) : text);
  } catch (error) {
    const place = /position (\d+)/.exec(String(error))?.[1];
    const before = place === undefined ? null : text.slice(0, Number(place)).split("\n");
    const where = before === null ? "" : `, line ${before.length}, column ${before.at(-1)!.length + 1}`;
    throw new SummaryError(
      `${oneLine(file)}${where}: this is not JSON.\n  Ask the site for the file again: it was cut off or changed on the way.`,
    );
  }
}

const formatOf = (value: unknown): string | null => {
  const format =
    typeof value === "object" && value !== null ? (value as { readonly format?: unknown }).format : null;
  return typeof format === "string" ? format : null;
};

const notASummary = (file: string, format: string | null): string =>
  format !== null && /^pulley-outcomes (site summary|merged summaries) /.test(format)
    ? `${oneLine(file)}: "format" is "${visible(format, 80)}", and this version reads "${summaryFormat}" and "${mergedFormat}".\n  Have all sites make their summaries with one version of the toolkit.`
    : `${oneLine(file)}: this is not a summary of a site.\n  Name the files that "pulley-outcomes contribute" has written at the sites.`;

interface Problem {
  readonly at: string;
  readonly what: string;
}

function problemsIn(
  issues: readonly z.core.$ZodIssue[],
  { schema, value }: { readonly schema: z.ZodType; readonly value: unknown },
): readonly Problem[] {
  const about = {
    form: { schema, what: "a summary" },
    place: () => ({ line: null, column: null }),
    written: value,
  };
  return issues
    .slice(0, mostTold)
    .flatMap((issue) => problemsOf(issue, about))
    .map(({ at, expected, correction }) => ({ at, what: `${expected} ${correction}` }));
}

/** The fingerprint is that of the agreed part, or the file was changed by hand. */
function alteredIn({ agreed }: SiteSummary, sha256: (text: string) => string): readonly Problem[] {
  return agreedFingerprint(agreed.file, sha256) === agreed.sha256
    ? []
    : [
        {
          at: "agreed.sha256",
          what: "is not the fingerprint of the agreed study file beside it: one of the two was changed.",
        },
      ];
}

function refusal(file: string, problems: readonly Problem[]): SummaryError {
  const told = problems
    .slice(0, mostTold)
    .map(({ at, what }) => `${oneLine(file)}: "${at}": ${visible(what, 600)}`);
  const more = problems.length - told.length;
  return new SummaryError(
    [
      ...told,
      ...(more > 0 ? [`and ${counted(more, "further problem", "further problems")}.`] : []),
      "  Ask the site for the file as the toolkit wrote it; a summary is not to be changed by hand.",
    ].join("\n"),
  );
}
