import { keyText, readKeyText, type SecretKey } from "../../privacy/index.js";
import type { Machine } from "../../run/machine.js";
import type { OutputFile } from "../../run/manifest.js";
import type { StudyInput } from "../../run/open-study.js";
import { RunError } from "../../run/run-error.js";
import { copyFiles, copyOf, settingsFor } from "../../run/sharing/shared-copy.js";
import { BringError } from "./bring.js";
import type { NamedBytes } from "./tasks.js";

/** The key by which a copy renames people; it stays at the site. */
export const keyFile = "sharing.key";

/** What a page adds to a machine: the only chance in what the toolkit writes is in a new key. */
export interface DeskMachine extends Machine {
  readonly newKey: () => SecretKey;
}

/** @throws BringError where the file that was brought is no key */
export function keyIn({ bytes }: NamedBytes): SecretKey {
  const read = readKeyText(new TextDecoder().decode(bytes));
  if ("key" in read) return read.key;
  throw new BringError(
    `${keyFile}: the file ${read.fault}.\n  Bring the key of your earlier copies, or none.`,
  );
}

/** The files of a de-identified copy with the key that it was made by, or why there is none. */
export async function copyWithKey(
  input: StudyInput,
  { key, machine }: { readonly key: SecretKey; readonly machine: DeskMachine },
): Promise<readonly OutputFile[] | { readonly notice: string }> {
  const settings = settingsFor(input.plan);
  try {
    const files = await copyFiles(copyOf(input, { key, settings }), { plan: input.plan, settings }, machine);
    return [
      ...files.map(({ path, content }) => ({ path: `copy/${path}`, content })),
      { path: keyFile, content: keyText(key) },
    ];
  } catch (error) {
    if (error instanceof RunError) return { notice: `There is no copy to share. ${error.message}` };
    throw error;
  }
}
