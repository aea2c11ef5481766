import { useState } from "preact/hooks";
import type { PoolView, SummaryFileView } from "../../engine/pooling/pooling-tasks.js";
import type { NamedBytes } from "../../engine/tasks.js";

/** What the page asks of the engine about a pool. */
export interface PoolingEngine {
  readonly view: (files: readonly NamedBytes[]) => Promise<PoolView | null>;
  readonly report: (files: readonly NamedBytes[]) => Promise<NamedBytes | null>;
  readonly merged: (files: readonly NamedBytes[]) => Promise<NamedBytes | null>;
}

interface Pool {
  readonly files: readonly NamedBytes[];
  readonly view: PoolView | null;
  /** Files of the last drop that were no summaries; nothing of them is kept. */
  readonly refused: readonly SummaryFileView[];
}

const nothing: Pool = { files: [], view: null, refused: [] };

/** The summaries that were brought, with what they come to. Only files that are summaries are held. */
export function usePool(engine: PoolingEngine) {
  const [pool, setPool] = useState(nothing);
  const lookAt = async (files: readonly NamedBytes[]): Promise<void> => {
    if (files.length === 0) return setPool(nothing);
    const view = await engine.view(files);
    if (view === null) return;
    const isTaken = (i: number) => view.files[i]!.refusal === null;
    setPool({
      files: files.filter((_, i) => isTaken(i)),
      view: { ...view, files: view.files.filter((_, i) => isTaken(i)) },
      refused: view.files.filter((_, i) => !isTaken(i)),
    });
  };
  return {
    ...pool,
    add: (brought: readonly NamedBytes[]) =>
      lookAt([
        ...pool.files,
        ...brought.filter((file) => !pool.files.some((before) => isSame(before, file))),
      ]),
    takeOut: (place: number) => lookAt(pool.files.filter((_, i) => i !== place)),
    report: () => engine.report(pool.files),
    merged: () => engine.merged(pool.files),
    forget: () => setPool(nothing),
  };
}

export type PoolInPage = ReturnType<typeof usePool>;

const isSame = (one: NamedBytes, other: NamedBytes): boolean =>
  one.bytes.length === other.bytes.length && one.bytes.every((byte, i) => byte === other.bytes[i]);
