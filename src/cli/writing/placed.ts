import type { BigIntStats } from "node:fs";

/** Where something will be put. */
export interface Place {
  /** The path as a person wrote it, for messages. */
  readonly given: string;
  /** The folder that is there already, links resolved. */
  readonly parent: string;
  /** The name that will appear in it, or is there. */
  readonly name: string;
  /** What lies below that name, where folders above the target are missing as well; else "". */
  readonly below: string;
  /** What stands at the target now; null where nothing does. */
  readonly existing: BigIntStats | null;
}
