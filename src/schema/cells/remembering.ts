import type { Reading } from "./reading.js";

/** How many cell texts of a column are remembered: sheets repeat themselves. */
const remembered = 5_000;

/** A reader that reads each text once, as far as it remembers. */
export function remembering(read: (text: string) => Reading): (text: string) => Reading {
  const known = new Map<string, Reading>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const reading = read(text);
    if (known.size < remembered) known.set(text, reading);
    return reading;
  };
}
