import { foundText } from "../../../schema/ask.js";
import type { AskAboutFile } from "../../text/ask-about-file.js";
import type { ListedSheet } from "./sheet-list.js";

const compared = (name: string) => name.trim().toLowerCase();
const namesOf = (sheets: readonly ListedSheet[]) =>
  foundText(sheets.map(({ name }) => `"${name}"`).join(", "));

/**
 * The sheet to read: the one that is named (else one whose name differs in letter case and outer spaces only), or the
 * first that holds anything and is not hidden. Others that hold something are mentioned.
 */
export function chooseSheet(
  sheets: readonly ListedSheet[],
  { named, ask }: { named: string | null; ask: AskAboutFile },
): ListedSheet | null {
  const filled = sheets.filter(({ isEmpty }) => !isEmpty);
  if (named !== null) {
    const alike = sheets.filter(({ name }) => compared(name) === compared(named));
    const found = sheets.find(({ name }) => name === named) ?? (alike.length === 1 ? alike[0]! : null);
    if (found === null || found.isEmpty) {
      const facts = { others: namesOf(filled) };
      ask({ code: found === null ? "sheet-missing" : "sheet-empty", severity: "stop", found: named, facts });
      return null;
    }
    return found;
  }
  const chosen = filled.find(({ isHidden }) => !isHidden) ?? filled[0];
  if (chosen === undefined) {
    ask({ code: "file-empty", severity: "stop" });
    return null;
  }
  const others = filled.filter((sheet) => sheet !== chosen);
  if (others.length > 0) {
    ask({
      code: "sheets-not-read",
      severity: "look-at",
      found: chosen.name,
      facts: { others: namesOf(others) },
    });
  }
  return chosen;
}
