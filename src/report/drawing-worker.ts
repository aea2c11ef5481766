import { parentPort, workerData } from "node:worker_threads";
import type { Figure } from "../charts/figure.js";
import { practiceFigure } from "../charts/practice-figure.js";
import { figureAsPng } from "./render-png.js";
import { renderSvg } from "./render-svg.js";

// A thread that draws: see drawing-threads.ts. Several are asked for at once, so that each goes back under its number.

/** What a thread draws: figures as SVG, or SVG as PNG. */
export interface Drawings {
  readonly svg: { readonly from: Figure; readonly to: string };
  readonly png: { readonly from: string; readonly to: Uint8Array };
}
export type Kind = keyof Drawings;

/** What is sent for each drawing. */
export interface ToDraw {
  readonly number: number;
  readonly from: Drawings[Kind]["from"];
}

/** What is sent back. */
export type Drawn = { readonly number: number } & (
  | { readonly to: Drawings[Kind]["to"] }
  | { readonly error: unknown }
);

const draw = {
  svg: renderSvg,
  png: figureAsPng,
} as const satisfies { [K in Kind]: (from: Drawings[K]["from"]) => Promise<Drawings[K]["to"]> };

/** Loads what draws and draws once, while the study is read: the first drawing of a process takes several times as long as the next. */
const practise = {
  svg: () => renderSvg(practiceFigure()),
  png: () => figureAsPng('<svg xmlns="http://www.w3.org/2000/svg" width="1" height="1"/>'),
} as const satisfies Record<Kind, () => Promise<unknown>>;

const kind = workerData as Kind;
await practise[kind]();

parentPort!.on("message", async ({ number, from }: ToDraw) => {
  try {
    const to = await draw[kind](from as never);
    const moved = typeof to === "string" ? [] : [to.buffer as ArrayBuffer];
    parentPort!.postMessage({ number, to } satisfies Drawn, moved);
  } catch (error) {
    parentPort!.postMessage({ number, error } satisfies Drawn);
  }
});
