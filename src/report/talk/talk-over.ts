import type { Results } from "../../study/results.js";
import { eitherOf } from "../../words/phrases.js";
import { markedName } from "../tables.js";
import { allInjuries, groupCalled, type TalkGroup, talkGroups } from "./groups.js";
import { type TalkInput, talkPage } from "./talk-page.js";
import { type WhyNot, whyNotOfGroup, whyNotOfStudy } from "./why-not.js";

/** A group that a page can be asked for, and why there is none. */
export interface TalkChoice {
  readonly name: string;
  readonly n: TalkGroup["n"];
  readonly whyNot: WhyNot | null;
}

/** A page that was made, or why it was not and what could be asked instead. */
export type Talk =
  | { readonly made: true; readonly name: string; readonly path: string; readonly page: string }
  | { readonly made: false; readonly why: string; readonly instead: string };

/** Every group of a study, with what is in the way of a page about it; all injuries alone, where it is in the way of every page. */
export function talkChoices(results: Results): readonly TalkChoice[] {
  const whyNot = whyNotOfStudy(results);
  if (whyNot !== null) return [{ name: allInjuries, n: results.accounting.analysis.analysed, whyNot }];
  return talkGroups(results).map((group) => ({
    name: group.name,
    n: group.n,
    whyNot: whyNotOfGroup(group, results),
  }));
}

/**
 * A page to talk over with a climber: one A4 of twenty dots a week, for one group. It is not made where it could mislead.
 *
 * @param results of a study, small cells written or left out
 * @param asked name of the group, as `talkChoices` lists them; version, fonts and digest as a report takes them
 * @returns the page as HTML with a name for its file; the same input gives the same bytes
 */
export async function talkOver(
  results: Results,
  { name, ...made }: { readonly name: string } & Omit<TalkInput, "results" | "group">,
): Promise<Talk> {
  const inEveryWay = whyNotOfStudy(results);
  if (inEveryWay !== null) return { made: false, why: inEveryWay.why, instead: inEveryWay.instead };
  const group = groupCalled(name, talkGroups(results));
  if (group === undefined)
    return {
      made: false,
      why: `The study has no group “${name}”.`,
      instead: possible(results),
    };
  const obstacle = whyNotOfGroup(group, results);
  if (obstacle !== null)
    return { made: false, why: obstacle.why, instead: `${obstacle.instead} ${possible(results)}` };
  const page = await talkPage({ ...made, results, group });
  return {
    made: true,
    name: group.name,
    path: `${markedName(fileNameOf(group), results.plan.synthetic)}.html`,
    page,
  };
}

/** What can be asked for. */
function possible(results: Results): string {
  const names = talkChoices(results).flatMap(({ name, whyNot: obstacle }) =>
    obstacle === null ? [name] : [],
  );
  return names.length === 0
    ? "There is no group of this study that a page can be about."
    : `A page can be about ${eitherOf(names.map((name) => `“${name}”`))}.`;
}

/** "talk-grade-3-ring"; letters that a file system may not take are left out. */
const fileNameOf = ({ features, name }: TalkGroup): string =>
  features.length === 0
    ? "talk"
    : `talk-${name
        .toLowerCase()
        .replaceAll(/[^a-z0-9]+/gu, "-")
        .replaceAll(/^-|-$/gu, "")
        .slice(0, 60)}`;
