import type { ComponentChildren } from "preact";
import { syntheticLine } from "../../../words/cautions.js";
import type { PooledView } from "../../engine/pooling/pooling-tasks.js";
import type { NamedBytes } from "../../engine/tasks.js";
import { DropArea } from "../drop-area.js";
import { Paper } from "../paper.js";
import { saveFile } from "../save-file.js";
import { PoolFiles } from "./pool-files.js";
import type { PoolInPage } from "./use-pool.js";
import "./pooling.css";

interface PoolPageProps {
  readonly pool: PoolInPage;
  readonly isBusy: boolean;
  /** What did not work, where something did not. */
  readonly trouble: ComponentChildren;
}

/** Where a coordinator pools the summaries of several sites. */
export function PoolPage({ pool, isBusy, trouble }: PoolPageProps) {
  const { files, view, refused } = pool;
  return (
    <section class="pool" aria-labelledby="pool-title">
      <h2 id="pool-title" tabIndex={-1}>
        One answer from several sites
      </h2>
      <p>
        Each site makes a summary of its own patients, at the last step of the path or with{" "}
        <code>contribute</code> on the command line. Bring the summaries here to pool them. No row of a
        patient is in them, and none is needed.
      </p>
      <DropArea accept=".json" isBusy={isBusy} onFiles={pool.add}>
        <strong>Drop the summaries here,</strong> or choose them: one JSON file for each site, or files in
        which several were merged. More can be added later.
      </DropArea>
      {refused.length === 0 ? null : (
        <div class="trouble" role="alert">
          <strong>
            {refused.length === 1
              ? "This file cannot be used and was not taken in."
              : "These files cannot be used and were not taken in."}
          </strong>
          {refused.map(({ name, refusal }) => (
            <pre key={name}>{refusal}</pre>
          ))}
        </div>
      )}
      {trouble}
      {files.length === 0 || view === null ? null : (
        <>
          <PoolFiles files={view.files} isBusy={isBusy} onTakeOut={(place) => void pool.takeOut(place)} />
          <p class="hint">
            Sites whose fingerprints differ were not asked the same and cannot be pooled. What a site left out
            because few people are behind it stays left out here.
          </p>
          {view.refusal === null ? null : (
            <div class="trouble" role="alert">
              <strong>These summaries cannot be pooled as they are.</strong>
              <pre>{view.refusal}</pre>
            </div>
          )}
          {view.pooled === null ? null : <Pooled pooled={view.pooled} pool={pool} isBusy={isBusy} />}
        </>
      )}
    </section>
  );
}

interface PooledProps extends Pick<PoolPageProps, "pool" | "isBusy"> {
  readonly pooled: PooledView;
}

/** The pooled answer, the report behind it, and what can be saved. */
function Pooled({ pooled, pool, isBusy }: PooledProps) {
  const save = async (made: Promise<NamedBytes | null>, type: string) => {
    const file = await made;
    if (file !== null) saveFile(file, type);
  };
  return (
    <>
      {pooled.isSynthetic ? <p class="synthetic">{syntheticLine}</p> : null}
      <Paper sections={pooled.first} />
      <p class="go-on">
        <button
          type="button"
          class="main"
          disabled={isBusy}
          onClick={() => void save(pool.report(), "application/zip")}
        >
          Save the pooled report
        </button>
        <button type="button" disabled={isBusy} onClick={() => void save(pool.merged(), "application/json")}>
          Save all summaries in one file
        </button>
      </p>
      <p class="hint">
        The report is one archive: report.html opens in any browser, with figures, tables and the summaries
        beside it, from which the command line recomputes it, byte for byte. The one file of all summaries can
        be pooled with others later: a region can merge its sites before a country pools its regions.
      </p>
      <details class="whole">
        <summary>The whole pooled report</summary>
        <Paper sections={pooled.further} />
      </details>
    </>
  );
}
