import { counted } from "../schema/counted.js";
import type { Plan } from "../study/index.js";
import { CommandError, exitCodes } from "./exit-codes.js";

/**
 * Refuses a study of several sites where a command is for the one that holds the rows.
 *
 * @param plan of the study
 * @param whatFor what each site does by itself instead, as a sentence
 * @throws CommandError where the study names sites
 */
export function refuseSeveralSites({ data }: Plan, whatFor: string): void {
  if (data.from_sites === undefined) return;
  throw new CommandError(
    exitCodes.input,
    `This study is of ${counted(data.from_sites.length, "site", "sites")} that ${data.from_sites.length === 1 ? "is" : "are"} named under data.from_sites, and this command is for the site that holds the rows.\n  ${whatFor}`,
  );
}
