import type { RoundFit } from "../../../src/statistics/pooling/rounds/fit-of-rounds.js";
import {
  acceleratedAt,
  deletionsAt,
  hazardsAt,
  roundLaws,
} from "../../../src/statistics/pooling/rounds/index.js";
import { climbed } from "../../reference/statistics/pooling/climb.js";
import type { Figures } from "../figures-of-reference.js";
import type { Row, SetOfRows } from "./draw-rows.js";

const covariatesOf = (rows: readonly Row[]) => ({
  names: ["group", "age"],
  columns: [rows.map(({ group }) => group), rows.map(({ age }) => age)],
});

function hazardColumns(rows: readonly Row[], late: boolean) {
  const of = (name: "time" | "event" | "stratum" | "person" | "entry") => rows.map((row) => row[name]);
  return {
    times: of("time"),
    events: of("event"),
    strata: of("stratum"),
    clusters: of("person"),
    ...(late && { entries: of("entry") }),
    covariates: covariatesOf(rows),
  };
}

function hazards({ sites, late }: SetOfRows, ties: "efron" | "breslow"): RoundFit {
  return climbed(
    {
      sums: (own, point, squares) => hazardsAt(hazardColumns(own, late), { point, ties, squares }),
      deletions: (own, { point, score, information }) =>
        deletionsAt(hazardColumns(own, late), { point, ties, score, information }),
    },
    { sites, start: [0, 0], names: ["group", "age"], intercepts: "none", positive: null },
  );
}

function accelerated({ sites }: SetOfRows, law: (typeof roundLaws)[number]): RoundFit {
  const size = sites.length;
  return climbed(
    {
      sums: (own, point, squares) =>
        acceleratedAt(
          {
            left: own.map(({ left }) => left),
            right: own.map(({ right }) => right ?? Number.POSITIVE_INFINITY),
            clusters: own.map(({ person }) => person),
            covariates: covariatesOf(own),
          },
          { point, law, squares },
        ),
    },
    {
      sites,
      start: [...sites.map(() => 4), 0, 0, 1],
      names: [...sites.map((_, site) => `site ${site}`), "group", "age", "1 / scale"],
      intercepts: "by-site",
      positive: size + 2,
    },
  );
}

function figuresOf(fit: RoundFit, name: string, asked: readonly string[]): [string, number | null][] {
  const found = asked.map((one) => fit.parameters.find((parameter) => parameter.name === one)!);
  const isFound = fit.converged && found.every(({ coefficient }) => coefficient !== null);
  const of = (figure: string, value: (one: (typeof found)[number]) => number | null) =>
    found.map((one, i): [string, number | null] => [`${name}:${figure}/${i}`, isFound ? value(one) : null]);
  return [
    [`${name}:log-likelihood/0`, isFound ? fit.logLikelihood : null],
    ...of("coefficient", ({ coefficient }) => coefficient),
    ...of("error", ({ standardError }) => standardError),
    ...of("robust", ({ robustStandardError }) => robustStandardError),
    ...of("corrected", ({ correctedStandardError }) => correctedStandardError),
  ];
}

/** Our figures of a set under the names of the reference script. */
export function oursOf(set: SetOfRows): Figures {
  return new Map([
    ...(["efron", "breslow"] as const).flatMap((ties) =>
      figuresOf(hazards(set, ties), `hazards, ${ties}`, ["group", "age"]),
    ),
    ...roundLaws.flatMap((law) =>
      figuresOf(accelerated(set, law), `accelerated, ${law}`, ["site 0", "group", "age"]),
    ),
  ]);
}
