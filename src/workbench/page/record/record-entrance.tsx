import type { RecordInPage } from "./use-record.js";

/** The way from the path to the record, for those who have no spreadsheet. */
export function RecordEntrance({
  kept,
  onOpen,
}: {
  readonly kept: RecordInPage;
  readonly onOpen: () => void;
}) {
  const isThere = kept.offered !== null || !kept.isEmpty;
  return (
    <p class="or">
      {kept.offered === null
        ? "No spreadsheet yet? "
        : "This browser has kept a record from before, as you asked it to. "}
      <button type="button" onClick={onOpen}>
        {isThere ? "Go on with the record" : "Keep a record as you treat"}
      </button>
    </p>
  );
}
