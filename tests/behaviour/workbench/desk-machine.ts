import { thisMachine } from "../../../src/cli/machine.js";
import { keyBytes } from "../../../src/privacy/index.js";
import type { DeskMachine } from "../../../src/workbench/engine/copy.js";

/** This computer as a page, that draws no pixels and whose new key is always the same. */
export const deskMachine = async (): Promise<DeskMachine> => ({
  ...(await thisMachine()),
  drawPng: () => Promise.resolve(new Uint8Array()),
  newKey: () => Uint8Array.from({ length: keyBytes }, (_, i) => i + 1),
});
