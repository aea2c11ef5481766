import { leavingParts } from "../../../report/pooling/leaving-page.js";
import type { Machine } from "../../../run/machine.js";
import type { StudyInput } from "../../../run/open-study.js";
import { contributionOf } from "../../../run/pooling/contribution.js";
import { usualSmallestCell } from "../../../study/small-cells/index.js";
import { type NamedBytes, namedBytesOf } from "../named-bytes.js";
import { sectionView } from "../section-view.js";
import type { ContributionView } from "./pooling-tasks.js";

/** What leaves the building is about nobody of a small group: the choice that the command line makes as well where none is made. */
const smallCells = { choice: "leave-out", smallest: usualSmallestCell } as const;

/** The parts in words: what leaves, why nobody can be recognised, what was held back, what to do before it leaves. */
const isReadFirst = (id: string): boolean => ["short", "why", "held-back", "before"].includes(id);

/**
 * What one site contributes to a pool, the same files as the command line writes.
 *
 * @param site as the others of the pool know it
 * @throws SiteError where the tables hold nothing of that site; RunError where nothing may be told
 */
export async function contributionView(
  input: StudyInput,
  { site, machine }: { readonly site: string; readonly machine: Machine },
): Promise<ContributionView> {
  const { summary, files, file, summaryFile, pageFile } = await contributionOf(
    input,
    { site, smallCells },
    machine,
  );
  const parts = leavingParts({ summary, file });
  const named = (name: string): NamedBytes => namedBytesOf(files.find(({ path }) => path === name)!);
  return {
    site: summary.site,
    summary: named(summaryFile),
    page: named(pageFile),
    fingerprint: summary.agreed.sha256,
    first: parts.filter(({ id }) => isReadFirst(id)).map(sectionView),
    figures: parts.filter(({ id }) => !isReadFirst(id)).map(sectionView),
  };
}
