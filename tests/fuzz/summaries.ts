import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { readCohort } from "../../src/ingest/index.js";
import { poolSummaries, readSummaries, summariesText, summariseSite } from "../../src/pooling/index.js";
import { InputError } from "../../src/schema/input-error.js";
import type { Generator } from "../../src/statistics/shared/random.js";
import { readPlan } from "../../src/study/index.js";
import { oneOf, spoiltBytes } from "./kinds.js";

export const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");

/** Summaries of two invented sites, each with a risk-set table; the working folder is that of the project. */
export function soundSummaries(): { readonly sound: string; readonly other: string } {
  const folder = "synthetic-data/three-sites";
  const plan = readPlan("study.yaml", readFileSync(`${folder}/study.yaml`, "utf8"));
  const sources = (["injuries", "treatments", "imaging", "visits", "sites"] as const).map((table) => ({
    table,
    file: `${table}.csv`,
    bytes: readFileSync(`${folder}/synthetic-${table}.csv`),
  }));
  const read = readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: plan.distance.threshold_mm,
    personIds: plan.data.person_ids,
  });
  const textOf = (site: string) =>
    summariesText([
      summariseSite(
        { read, plan },
        {
          site,
          smallCells: { choice: "written", smallest: 5 },
          riskSets: { binDays: 7, coarser: false },
          version: "0",
          sha256,
        },
      ),
    ]);
  return { sound: textOf("site-a"), other: textOf("site-c") };
}

/** What may stand in place of a value: of another kind, without limit, huge, or a name that every object has. */
const awkward: readonly unknown[] = [
  null,
  true,
  "",
  "[left out]",
  "__proto__",
  "\u202e",
  -1,
  0.5,
  1e308,
  -1e308,
  9007199254740992,
  [],
  {},
  [[null]],
  { constructor: 1 },
  "x".repeat(5_000),
];

type Place = { readonly holder: Record<PropertyKey, unknown>; readonly key: PropertyKey };

/** Every value of a JSON tree, by the object or list that holds it. */
function* placesIn(value: unknown): Iterable<Place> {
  if (typeof value !== "object" || value === null) return;
  const holder = value as Record<PropertyKey, unknown>;
  for (const key of Array.isArray(value) ? value.keys() : Object.keys(value)) {
    yield { holder, key };
    yield* placesIn(holder[key]);
  }
}

/** A sound file with some of its values changed, left out, doubled or given keys of their own; or with its bytes spoilt. */
export function spoiltSummary(sound: string, draw: Generator): string {
  if (draw.integer(4) === 0)
    return new TextDecoder().decode(spoiltBytes(new TextEncoder().encode(sound), draw));
  const value = JSON.parse(sound) as unknown;
  for (let slip = draw.integer(4); slip >= 0; slip--) {
    const { holder, key } = oneOf(draw, [...placesIn(value)]);
    const how = draw.integer(5);
    if (how < 3) holder[key] = structuredClone(oneOf(draw, awkward));
    else if (how === 3) delete holder[key];
    else if (Array.isArray(holder)) holder.push(structuredClone(holder[key as number]));
    else
      Object.defineProperty(holder, oneOf(draw, ["__proto__", "toString", "patient"]), {
        value: 1,
        enumerable: true,
        writable: true,
        configurable: true,
      });
  }
  return JSON.stringify(value);
}

/**
 * Reads a spoilt file of summaries and pools what it holds with a sound one. Holds that it is refused by a message that names the file, or
 * gives pooled results without a number that is none.
 *
 * @throws Error that says what did not hold
 */
export function judgeSummary(
  { sound, other }: { readonly sound: string; readonly other: string },
  { draw, sha256 }: { readonly draw: Generator; readonly sha256: (text: string) => string },
): "refused" | "pooled" {
  const text = spoiltSummary(sound, draw);
  try {
    const read = [
      ...readSummaries({ file: "spoilt.json", text }, { sha256 }),
      ...readSummaries({ file: "other.json", text: other }, { sha256 }),
    ];
    const written = JSON.stringify(poolSummaries(read, { version: "0", sha256 }));
    if (/NaN|Infinity/.test(written)) throw new Error("pooled results hold a number that is none");
    return "pooled";
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    // a site of a name of its own, or of another study, is refused as one of several sites
    if (!/spoilt\.json|site/.test(error.message)) throw new Error(`unnamed: ${error.message}`);
    if (error.message.length > 40_000) throw new Error("a message of more than 40,000 letters");
    return "refused";
  }
}
