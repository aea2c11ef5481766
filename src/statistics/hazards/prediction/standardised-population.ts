import { ArgumentError, checkColumn, checkNumber, checkSameLength } from "../../shared/arguments.js";
import { checkCovariates } from "../../shared/covariates.js";
import type { HazardModel } from "../fit/model.js";
import { logHazardOf, type StratumTable } from "./baseline-table.js";
import type { SettledRows } from "./standardised-functionals.js";
import type { Population, Setting, StandardisedOptions } from "./standardised-types.js";

/** @throws ArgumentError for an unknown covariate or a population that does not fit the model */
export function checkOptions(model: HazardModel, options: StandardisedOptions): void {
  const { names } = model.fit;
  checkColumn({ name: "times", values: options.times }, "not negative");
  if (options.settings.length === 0)
    throw new ArgumentError({
      argument: "settings",
      index: null,
      expected: "at least one setting",
      found: "none",
    });
  options.settings.forEach(({ values }, i) => {
    for (const [name, value] of Object.entries(values)) {
      if (!names.includes(name))
        throw new ArgumentError({
          argument: "settings",
          index: i,
          expected: `values of the model's covariates (${names.join(", ")})`,
          found: `"${name}"`,
        });
      checkNumber({ name: `settings[${i}].values.${name}`, value }, "finite");
    }
  });
  const { population } = options;
  if (!population) return;
  const { covariates, weights, strata } = population;
  const first = {
    name: `covariate "${covariates.names[0]}"`,
    values: covariates.columns.length === 0 ? [] : covariates.columns[0]!,
  };
  checkCovariates(covariates, first);
  if (covariates.names.join("\n") !== names.join("\n"))
    throw new ArgumentError({
      argument: "population.covariates.names",
      index: null,
      expected: `the model's covariates in order (${names.join(", ")})`,
      found: covariates.names.join(", "),
    });
  for (const [name, values, kind] of [
    ["population.weights", weights, "not negative"],
    ["population.strata", strata, "code"],
  ] as const) {
    if (values === undefined) continue;
    checkSameLength({ name, values }, first);
    checkColumn({ name, values }, kind);
  }
}

/** Rows of the population that belong to a stratum, under a setting. */
export function settle(
  model: HazardModel,
  table: StratumTable,
  settings: { readonly population: Population; readonly setting: Setting; readonly whole: number },
): SettledRows {
  const { population, setting, whole } = settings;
  const { centre, scale } = model.layout;
  const { names, columns } = population.covariates;
  const n = columns[0]?.length ?? 0;
  const several = model.layout.strata.length > 1;
  const rows = Array.from({ length: n }, (_, row) => row).filter(
    (row) => !several || population.strata?.[row] === table.stratum,
  );
  const z = columns.map((column, j) =>
    Float64Array.from(rows, (row) => ((setting.values[names[j]!] ?? column[row]!) - centre[j]!) / scale[j]!),
  );
  const own = new Float64Array(z.length);
  const ratio = Float64Array.from(rows, (_, i) => {
    z.forEach((column, j) => {
      own[j] = column[i]!;
    });
    return Math.exp(logHazardOf(model, own));
  });
  const share = Float64Array.from(rows, (row) => ((population.weights?.[row] ?? 1) as number) / whole);
  return { table, share, ratio, z };
}

/** @throws ArgumentError for a row whose stratum the model does not know */
export function checkPopulationStrata({ layout }: HazardModel, { strata, covariates }: Population): void {
  const known = new Set(layout.strata);
  const n = covariates.columns[0]?.length ?? 0;
  for (let row = 0; row < n; row++)
    if (strata === undefined || !known.has(strata[row]!))
      throw new ArgumentError({
        argument: "population.strata",
        index: strata === undefined ? null : row,
        expected: "a stratum of the model for each row",
        found: strata === undefined ? "none" : strata[row],
      });
}
