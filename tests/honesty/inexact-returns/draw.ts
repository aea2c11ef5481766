import { deriveCohort } from "../../../src/cohort/derive.js";
import { linkTables } from "../../../src/cohort/link.js";
import { readCohort } from "../../../src/ingest/index.js";
import { curveFamily } from "../../../src/study/curves.js";
import { compared, everybody } from "../../../src/study/groups.js";
import { landmarkDifference } from "../../../src/study/measures/landmark-difference.js";
import { pairsOf } from "../../../src/study/pairs.js";
import { readPlan } from "../../../src/study/read-plan.js";
import type { Estimate } from "../../../src/study/results.js";
import { knownReturnsOf } from "../../../src/study/spans/known-returns.js";
import { specificationOf } from "../../../src/study/specification.js";
import { chanceOf } from "../cohorts/chance.js";
import { type Program, treatments } from "../cohorts/program.js";
import { drawFiles, type Files } from "../cohorts/tables.js";
import { halfBackOn, mainLandmark, type Truth, trueCurve } from "../cohorts/truth.js";

/** How far a figure lies from the truth, and whether its interval holds it; null where there is no figure or no interval. */
export interface Found {
  readonly error: number | null;
  readonly holds: boolean | null;
}

export const paths = ["days", "spans"] as const;
export type Path = (typeof paths)[number];

/** One cohort under both paths, with everything that a rule may look at. */
export interface Drawn {
  readonly program: string;
  readonly n: number;
  readonly wideShare: number | null;
  readonly meanWide: number | null;
  readonly mostOpen: number | null;
  readonly mostMoved: number | null;
  readonly byRule: Path;
  readonly figures: Readonly<Record<string, Readonly<Record<Path, Found>>>>;
}

/** Shares and their difference in percentage points, times in days. */
export function drawOne(
  program: Program,
  { n, stream, truth }: { readonly n: number; readonly stream: number; readonly truth: Truth },
): Drawn {
  const { records, specification } = recordsOf(
    drawFiles(program, { n, chance: chanceOf(program.name, { n, stream }) }),
  );
  const byDays = { ...specification, path: "days" as const };
  const grouped = compared(records, byDays);
  const known = knownReturnsOf({ all: everybody(records, byDays), compared: grouped }, specification);
  const found = paths.map((path) => {
    const grouping = path === "days" ? grouped : compared(records, { ...specification, path });
    const { curves } = curveFamily(grouping, specification);
    const [pair] = pairsOf(grouping, specification);
    const difference = landmarkDifference.estimate(pair!, specification).adjusted.find(({ main }) => main)!;
    const truly = treatments.map((treatment) => trueCurve(truth, treatment, "as it is"));
    const alike = treatments.map((treatment) =>
      trueCurve(truth, treatment, gradesIn(difference.strata_used ?? [])),
    );
    return new Map<string, Found>([
      ...treatments.flatMap((treatment, i): [string, Found][] => {
        const curve = curves.find(({ label }) => label === treatment)!;
        const share = curve.landmarks.find(({ day }) => day === mainLandmark)!.returned;
        const half = curve.quantiles.find((one) => one.share === 0.5)!.days;
        return [
          [
            `share back by week 13, ${treatment}`,
            beside(share, { truth: truly[i]![mainLandmark]!, unit: 100 }),
          ],
          [`half back, ${treatment}`, beside(half, { truth: halfBackOn(truly[i]!)!, unit: 1 })],
        ];
      }),
      [
        "difference by week 13",
        beside(difference.estimate, {
          truth: alike[0]![mainLandmark]! - alike[1]![mainLandmark]!,
          unit: 100,
        }),
      ],
    ]);
  });
  const own = known.groups[0]!;
  return {
    program: program.name,
    n,
    wideShare: own.wide_share,
    meanWide: own.mean_wide_days,
    mostOpen: known.most_open,
    mostMoved: known.most_moved,
    byRule: known.path,
    figures: Object.fromEntries(
      [...found[0]!.keys()].map((figure) => [
        figure,
        { days: found[0]!.get(figure)!, spans: found[1]!.get(figure)! },
      ]),
    ),
  };
}

const gradesIn = (strata: readonly string[]) =>
  (["2", "3", "4a"] as const).filter(
    (grade) => strata.length === 0 || strata.some((stratum) => stratum.endsWith(grade)),
  );

function recordsOf(files: Files) {
  const plan = readPlan("study.yaml", files.study);
  const sources = (["injuries", "treatments", "visits"] as const).flatMap((table) => {
    const text = files[table];
    return text === null ? [] : [{ table, file: `${table}.csv`, bytes: new TextEncoder().encode(text) }];
  });
  const read = readCohort(sources, {
    closedOn: plan.data.closed_on ?? null,
    thresholdMm: plan.distance.threshold_mm,
    dateOrder: plan.data.date_order,
  });
  const specification = specificationOf(plan);
  return { specification, records: deriveCohort(linkTables(read.tables), specification.question).records };
}

function beside(
  { value, lower, upper }: Estimate,
  { truth, unit }: { readonly truth: number; readonly unit: number },
): Found {
  return {
    error: value === null ? null : unit * (value - truth),
    holds:
      lower === null && upper === null ? null : (lower ?? -Infinity) <= truth && truth <= (upper ?? Infinity),
  };
}
