import type { Drawing } from "../report/render-figures.js";

/** What a run asks of the machine it runs on: a door gives it, and nothing else of the machine reaches a run. */
export interface Machine {
  /** Digest in hexadecimal digits. */
  readonly sha256: (content: string | Uint8Array) => string;
  /** Draws a figure as PNG, at the resolution of a report. */
  readonly drawPng: Drawing["drawPng"];
  /** Draws a figure as SVG, where not the code of the report is to do it. */
  readonly drawSvg?: Drawing["drawSvg"] & {};
  /** Style rules that bring the bundled font along. */
  readonly fontCss: () => string;
  /** What computes, such as "node 22.23.3 on linux x64". */
  readonly engine: string;
  /** Version of the toolkit. */
  readonly version: string;
}

/** Whoever waits, and is told what a run does now and what it found on the way. */
export interface Listener {
  /** The step that a run has come to. */
  readonly progress: (step: string) => void;
  /** What a person should know besides the result. */
  readonly notice: (text: string) => void;
}
