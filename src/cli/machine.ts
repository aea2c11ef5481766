import { createHash } from "node:crypto";
import { fingerprintOf as fingerprintBy } from "../run/fingerprint.js";
import type { Fingerprint, Machine } from "../run/index.js";
import { engineName, toolkitVersion } from "./version.js";

export const sha256 = (content: string | Uint8Array): string =>
  createHash("sha256").update(content).digest("hex");

/** Size and SHA-256 of a file's bytes. */
export const fingerprintOf = (name: string, content: string | Uint8Array): Fingerprint =>
  fingerprintBy({ name, content }, sha256);

/** This computer, as a page without figures asks for it. */
export async function pageMachine(): Promise<Pick<Machine, "sha256" | "fontCss" | "version">> {
  const { fontFaceCss } = await import("../report/font-files.js");
  return { sha256, fontCss: fontFaceCss, version: toolkitVersion() };
}

/** This computer, as a run asks for it; what draws is loaded only here. */
export async function thisMachine(): Promise<Machine> {
  const { drawingBeside } = await import("../report/drawing-threads.js");
  return { ...(await pageMachine()), ...drawingBeside(), engine: engineName() };
}
