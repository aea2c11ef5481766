import { useState } from "preact/hooks";
import type { ContributionView } from "../engine/pooling/pooling-tasks.js";
import type { Archive, NamedBytes, TalkView } from "../engine/tasks.js";
import { ContributePart } from "./pooling/contribute-part.js";
import { saveFile } from "./save-file.js";
import { TalkOver } from "./talk-over.js";

interface TakeAwayProps {
  readonly isBusy: boolean;
  readonly talk: readonly TalkView[];
  readonly onTake: () => Promise<Archive | null>;
  /** The sites that the tables name. */
  readonly sites: readonly string[];
  readonly onContribute: (site: string) => Promise<ContributionView | null>;
  readonly onTalk: (group: string) => Promise<NamedBytes | null>;
}

export function TakeAwayStep({ isBusy, talk, sites, onTake, onTalk, onContribute }: TakeAwayProps) {
  const [notice, setNotice] = useState<string | null>(null);
  const take = async () => {
    const file = await onTake();
    if (file === null) return;
    setNotice(file.notice);
    saveFile(file, "application/zip");
  };
  return (
    <>
      <p>
        One archive with the report (report.html opens in any browser), its figures and tables, your data, and
        the study file, mapping and answers behind it. The command line recomputes the report from them, byte
        for byte.
      </p>
      <p class="caution">
        The archive holds your data as you brought them, and the key of the copy: keep it where patient data
        may be kept. What may leave the site is the folder "report", and, once somebody has read
        disclosure.html in it, the folder "copy": the same data de-identified. Bring sharing.key along the
        next time, so that people keep their names in later copies.
      </p>
      <p class="go-on">
        <button type="button" class="main" disabled={isBusy} onClick={() => void take()}>
          Save the archive
        </button>
      </p>
      {notice === null ? null : (
        <p class="caution" role="status">
          {notice}
        </p>
      )}
      <TalkOver talk={talk} isBusy={isBusy} onTalk={onTalk} />
      <ContributePart sites={sites} isBusy={isBusy} onContribute={onContribute} />
    </>
  );
}
