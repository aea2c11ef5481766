import { settingsText } from "../ingest/text/settings-text.js";
import { oneLine } from "../schema/hidden-characters.js";
import type { SealedPlan } from "../study/sealed/sealed-plan.js";
import type { Machine } from "./machine.js";
import { RunError } from "./run-error.js";

/**
 * Reads a sealed plan.
 *
 * @throws RunError where it is none, or says another thing than when it was sealed
 */
export async function readSealed(
  { file, bytes }: { readonly file: string; readonly bytes: Uint8Array },
  { sha256 }: Pick<Machine, "sha256">,
): Promise<SealedPlan> {
  const { isWhole, sealedPlanSchema } = await import("../study/sealed/sealed-plan.js");
  const read = sealedPlanSchema.safeParse(jsonOf(settingsText(file, bytes).text));
  const name = oneLine(file);
  if (!read.success) {
    const place = read.error.issues[0]!.path.join(".");
    throw new RunError(
      `${name}${place === "" ? "" : `, at "${oneLine(place)}"`}: this is no sealed plan of this version of the toolkit.\n  Name under "sealed" the file that "pulley-outcomes seal" wrote, or leave the key out.`,
    );
  }
  if (!isWhole(read.data, sha256))
    throw new RunError(
      `${name} was altered after it was sealed: its fingerprint is not that of what it says.\n  Take the file as it was handed over or deposited.`,
    );
  return read.data;
}

/** What a text says as JSON; nothing where it is none. */
function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
