import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { testedModule } from "../../../tested-module.js";

const statistics = fileURLToPath(new URL("../../../../src/statistics/", import.meta.url));

/** The indexes of the layer, the one of the whole layer among them, by their path in it. */
export const indexes: readonly string[] = readdirSync(statistics, { recursive: true, encoding: "utf8" })
  .map((path) => path.replaceAll("\\", "/"))
  .filter((path) => path.endsWith("index.ts"))
  .sort();

export const pathOf = (index: string): string => `${statistics}${index}`;

export interface Exported {
  readonly name: string;
  /** The first index that has it. */
  readonly index: string;
  readonly of: unknown;
}

/** Every function that an index of the layer exports, once. */
export async function exported(): Promise<readonly Exported[]> {
  const found = new Map<unknown, Exported>();
  for (const index of indexes) {
    for (const [name, of] of Object.entries(await testedModule(`statistics/${index}`)))
      if (typeof of === "function" && !found.has(of)) found.set(of, { name, index, of });
  }
  return [...found.values()];
}
