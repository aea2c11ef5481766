import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";

/** A version of each supported line; of the first two the lowest that is supported. */
export const versions = ["20.19.0", "22.12.0", "24.21.0", "26.12.1"] as const;

/**
 * Installs an engine from the package registry by the ordinary client, in a folder of its own.
 *
 * @returns the path of its binary; null where it cannot be had, or cannot run here
 */
export function install(version: string, folder: string): string | null {
  const name = `node-${process.platform}-${process.arch}`;
  const place = join(folder, version);
  spawnSync("npm", [
    "install",
    "--silent",
    "--no-audit",
    "--no-fund",
    "--prefix",
    place,
    `${name}@${version}`,
  ]);
  const binary = join(place, "node_modules", name, "bin", "node");
  if (!existsSync(binary)) return null;
  const { stdout } = spawnSync(binary, ["--version"], { encoding: "utf8" });
  return stdout?.trim() === `v${version}` ? binary : null;
}
