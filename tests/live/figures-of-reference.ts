import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Figures by name; null where there is none. */
export type Figures = ReadonlyMap<string, number | null>;

/**
 * Hands a file to a script of the reference, in a folder of its own, and reads the figures that it writes: set, name, value.
 *
 * @throws Error with the script's last words if it fails
 */
export function figuresOfReference(
  script: string,
  file: { readonly name: string; readonly text: string },
): ReadonlyMap<number, Figures> {
  const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-live-"));
  try {
    writeFileSync(join(folder, file.name), file.text);
    const ran = spawnSync("Rscript", [script, folder], { encoding: "utf8", maxBuffer: 1 << 26 });
    if (ran.status !== 0) throw new Error(`Rscript stopped: ${ran.stderr.trim().slice(-2000)}`);
    const found = new Map<number, Map<string, number | null>>();
    for (const line of readFileSync(join(folder, "figures.tsv"), "utf8").split("\n").filter(Boolean)) {
      const [set, name, value] = line.split("\t") as [string, string, string];
      const own = found.get(Number(set)) ?? new Map<string, number | null>();
      found.set(Number(set), own.set(name, value === "NA" ? null : Number(value)));
    }
    return found;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
