import type { NamedBytes, TalkView } from "../engine/tasks.js";
import { saveFile } from "./save-file.js";
import { TalkOver } from "./talk-over.js";

interface TakeAwayProps {
  readonly isBusy: boolean;
  readonly talk: readonly TalkView[];
  readonly onTake: () => Promise<NamedBytes | null>;
  readonly onTalk: (group: string) => Promise<NamedBytes | null>;
}

export function TakeAwayStep({ isBusy, talk, onTake, onTalk }: TakeAwayProps) {
  const take = async () => {
    const file = await onTake();
    if (file !== null) saveFile(file, "application/zip");
  };
  return (
    <>
      <p>
        One archive with the report (report.html opens in any browser), its figures and tables, your data, and
        the study file, mapping and answers behind it. The command line recomputes the report from them, byte
        for byte.
      </p>
      <p class="caution">
        The archive holds your data as you brought them: keep it where patient data may be kept, and share the
        report alone.
      </p>
      <p class="go-on">
        <button type="button" class="main" disabled={isBusy} onClick={() => void take()}>
          Save the archive
        </button>
      </p>
      <TalkOver talk={talk} isBusy={isBusy} onTalk={onTalk} />
    </>
  );
}
