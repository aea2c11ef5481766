import { useState } from "preact/hooks";
import type { ContributionView } from "../../engine/pooling/pooling-tasks.js";
import { Paper } from "../paper.js";
import { saveFile } from "../save-file.js";
import "./pooling.css";

interface ContributeProps {
  /** The sites that the tables name. */
  readonly sites: readonly string[];
  readonly isBusy: boolean;
  readonly onContribute: (site: string) => Promise<ContributionView | null>;
}

/** So many digits of a fingerprint tell two apart. */
const digitsShown = 16;

/** The site's summary for a study of several sites: everything in it is seen before it is saved. */
export function ContributePart({ sites, isBusy, onContribute }: ContributeProps) {
  const [named, setNamed] = useState(sites[0] ?? "");
  const [view, setView] = useState<ContributionView | null>(null);
  const name = (site: string) => {
    setNamed(site);
    setView(null);
  };
  const look = async () => setView(await onContribute(named.trim()));
  return (
    <section class="talk" aria-labelledby="contribute-title">
      <h3 id="contribute-title">A summary for a study of several sites</h3>
      <p>
        Several clinics can have one answer without passing rows around: each gives one file of figures with
        their errors, and whoever coordinates pools the files. It holds no row, no date and no id, and what
        fewer than five people are behind stays here. You see everything in it before you save it; nothing is
        sent.
      </p>
      <form
        class="go-on"
        onSubmit={(event) => {
          event.preventDefault();
          void look();
        }}
      >
        <SiteNamed sites={sites} named={named} isBusy={isBusy} onName={name} />
        <button type="submit" class="main" disabled={isBusy || named.trim() === ""}>
          See what would leave
        </button>
      </form>
      {view === null ? null : <Leaving view={view} />}
    </section>
  );
}

interface SiteNamedProps extends Pick<ContributeProps, "sites" | "isBusy"> {
  readonly named: string;
  readonly onName: (site: string) => void;
}

/** Of which site the summary is: the tables say it, or leave a choice, or say nothing of it. */
function SiteNamed({ sites, named, isBusy, onName }: SiteNamedProps) {
  if (sites.length === 1)
    return (
      <span>
        Site: <strong>{sites[0]}</strong>
      </span>
    );
  if (sites.length === 0)
    return (
      <label>
        Your site, by the name that the others know{" "}
        <input
          type="text"
          value={named}
          disabled={isBusy}
          onInput={({ currentTarget }) => onName(currentTarget.value)}
        />
      </label>
    );
  return (
    <label>
      The site, of those in the tables{" "}
      <select value={named} disabled={isBusy} onChange={({ currentTarget }) => onName(currentTarget.value)}>
        {sites.map((site) => (
          <option key={site} value={site}>
            {site}
          </option>
        ))}
      </select>
    </label>
  );
}

/** What would leave, and the files. */
function Leaving({
  view: { site, first, figures, summary, page, fingerprint },
}: {
  readonly view: ContributionView;
}) {
  return (
    <>
      <p role="status" class="found">
        Nothing has left yet. This is what the summary of the site "{site}" would tell.
      </p>
      <Paper sections={first} />
      <details class="whole">
        <summary>Everything in the file, figure by figure</summary>
        <Paper sections={figures} />
      </details>
      <p class="caution">
        Save the page for the ethics board first, and have it read. Law, consent, ethics approval and the
        rules of your site decide whether the summary may leave.
      </p>
      <p class="go-on">
        <button type="button" onClick={() => saveFile(page, "text/html")}>
          Save the page for the ethics board
        </button>
        <button type="button" class="main" onClick={() => saveFile(summary, "application/json")}>
          Save the summary
        </button>
      </p>
      <p class="hint">
        Fingerprint of what all sites are asked: <code>{fingerprint.slice(0, digitsShown)}</code>. The sites
        of a pool must have the same: take the question from their common study file, at the step "Ask".
        Whoever coordinates brings all summaries to "Pool several sites" at the first step.
      </p>
    </>
  );
}
