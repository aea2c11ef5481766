import type { AskAboutFile } from "../../text/ask-about-file.js";
import { columnLetters } from "../column-letters.js";
import type { MergedArea } from "../grid.js";

/** Asks about each joined area whose value was given to several records. */
export function mentionJoined(areas: readonly MergedArea[], ask: AskAboutFile): void {
  for (const { firstRow, lastRow, firstColumn } of areas) {
    ask({
      code: "cells-joined",
      severity: "look-at",
      row: firstRow,
      column: columnLetters(firstColumn),
      facts: { rows: `${firstRow} to ${lastRow}` },
    });
  }
}
