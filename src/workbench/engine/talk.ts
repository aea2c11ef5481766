import { talkChoices, talkOver } from "../../report/talk/index.js";
import type { Machine } from "../../run/machine.js";
import type { Results } from "../../study/results.js";
import { BringError } from "./bring.js";
import type { NamedBytes, TalkView } from "./tasks.js";

/** What a page to talk over can be about. */
export const talkViews = (results: Results): readonly TalkView[] =>
  talkChoices(results).map(({ name, n, whyNot }) => ({
    name,
    n: String(n),
    whyNot: whyNot === null ? null : `${whyNot.why} ${whyNot.instead}`,
  }));

/**
 * A page to talk over as a file, the same as the command line writes.
 *
 * @throws BringError that says why there is none
 */
export async function talkFile(
  results: Results,
  { name, machine }: { readonly name: string; readonly machine: Machine },
): Promise<NamedBytes> {
  const { version, sha256 } = machine;
  const made = await talkOver(results, { name, version, sha256, fontCss: machine.fontCss() });
  if (!made.made) throw new BringError(`No page is made. ${made.why}\n  ${made.instead}`);
  return { name: made.path, bytes: new TextEncoder().encode(made.page) };
}
