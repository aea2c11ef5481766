import { basename, dirname, join, relative, sep } from "node:path";
import { jsonText, oneLine } from "../../schema/index.js";
import { day } from "../../schema/settings/texts.js";
import { readPlan } from "../../study/read-plan.js";
import { sealedPlanSchema, sealPlan } from "../../study/sealed/sealed-plan.js";
import { CommandError, type ExitCode, exitCodes } from "../exit-codes.js";
import { sha256 } from "../machine.js";
import { readSettingsFile } from "../read-input.js";
import type { Terminal } from "../terminal.js";
import { refuseFile, writeNewFile } from "../writing/index.js";

export interface SealOptions {
  readonly on: string;
  readonly into?: string;
  readonly replace?: boolean;
}

/** Seals what a study file asks, on the day that is stated. */
export async function seal(
  study: string,
  { on, into, replace }: SealOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  if (!day.safeParse(on).success)
    throw new CommandError(
      exitCodes.usage,
      `--on "${oneLine(on)}" is no day.\n  Write the day on which the plan is sealed as YYYY-MM-DD, such as 2026-01-05.`,
    );
  const name = basename(study);
  const { text } = await readSettingsFile(study, {
    what: "study file",
    by: "on the command line",
    name,
    notice: terminal.notice,
  });
  const plan = readPlan(name, text);
  const path = into ?? join(dirname(study), "sealed-plan.json");
  const writing = {
    inputs: [study],
    elsewhere: replace
      ? "Choose another name with --into"
      : "Choose another name with --into, or add --replace",
    mayReplace: replace === true ? isSealedPlan : null,
  };
  await refuseFile(path, writing);
  const sealed = sealPlan(plan, { on, sha256 });
  await writeNewFile(path, jsonText(sealed), writing);
  terminal.say(
    [
      `Sealed: ${path}${plan.synthetic ? " (of a SYNTHETIC study)" : ""}`,
      `  Day, as you state it: ${on}`,
      `  Fingerprint: ${sealed.sha256}`,
      "  Give the file, or the fingerprint, to somebody who can say later when it was received: the file itself cannot show it.",
      `  Then name it in the study file: "sealed: ${relative(dirname(study), path).replaceAll(sep, "/")}".`,
    ].join("\n"),
  );
  return exitCodes.done;
}

/** Whether a file that would be replaced is a sealed plan. */
function isSealedPlan(text: string): boolean {
  try {
    return sealedPlanSchema.safeParse(JSON.parse(text)).success;
  } catch {
    return false;
  }
}
