import type { NamedBytes } from "../named-bytes.js";
import type { SectionView } from "../section-view.js";

// What the page asks about summaries of sites: one's own to give away, and those of several sites to pool.

/** What a site's summary would tell, and the files of it. */
export interface ContributionView {
  readonly site: string;
  /** The one file that is given away, and the page about it for an ethics board. */
  readonly summary: NamedBytes;
  readonly page: NamedBytes;
  /** Of what all sites of the pool are asked. */
  readonly fingerprint: string;
  /** The parts of the page about what leaves: what everybody is to read, and every figure. */
  readonly first: readonly SectionView[];
  readonly figures: readonly SectionView[];
}

/** A site in a file that was brought. */
export interface SiteInFile {
  readonly site: string;
  /** As the site tells them: small counts are left out. */
  readonly injuries: string;
  readonly persons: string;
  readonly version: string;
  readonly fingerprint: string;
}

export interface SummaryFileView {
  readonly name: string;
  readonly sites: readonly SiteInFile[];
  /** Why the file cannot be used; null where it can. */
  readonly refusal: string | null;
}

/** Files together: what each is, and the pooled answer of those that are summaries, or why there is none. */
export interface PoolView {
  readonly files: readonly SummaryFileView[];
  readonly refusal: string | null;
  readonly pooled: PooledView | null;
}

export interface PooledView {
  readonly isSynthetic: boolean;
  readonly sites: number;
  /** The sections that answer, with their figure, and the others of the pooled report. */
  readonly first: readonly SectionView[];
  readonly further: readonly SectionView[];
}

/** The page holds the files of a pool and gives them with each task: nothing of them stays with the engine. */
export interface PoolingTasks {
  poolView: (files: readonly NamedBytes[]) => Promise<PoolView>;
  /** The pooled report as one archive. */
  poolReport: (files: readonly NamedBytes[]) => Promise<NamedBytes>;
  /** All summaries in one file, for the next level. */
  poolMerged: (files: readonly NamedBytes[]) => Promise<NamedBytes>;
}
