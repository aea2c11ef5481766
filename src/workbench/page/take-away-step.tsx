import type { NamedBytes } from "../engine/tasks.js";

interface TakeAwayProps {
  readonly isBusy: boolean;
  readonly onTake: () => Promise<NamedBytes | null>;
}

export function TakeAwayStep({ isBusy, onTake }: TakeAwayProps) {
  const take = async () => {
    const file = await onTake();
    if (file === null) return;
    const url = URL.createObjectURL(new Blob([file.bytes as BlobPart], { type: "application/zip" }));
    const link = document.createElement("a");
    link.href = url;
    link.download = file.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
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
    </>
  );
}
