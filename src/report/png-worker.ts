import { parentPort } from "node:worker_threads";
import { figureAsPng } from "./render-png.js";

// A thread that draws pictures: see png-thread.ts. Several are drawn at once, so that each goes back under its number.

/** What is sent for each picture. */
export interface ToDraw {
  readonly number: number;
  readonly svg: string;
}

/** What is sent back. */
export type Drawn = { readonly number: number } & (
  | { readonly png: Uint8Array }
  | { readonly error: unknown }
);

parentPort!.on("message", async ({ number, svg }: ToDraw) => {
  try {
    const png = await figureAsPng(svg);
    parentPort!.postMessage({ number, png } satisfies Drawn, [png.buffer as ArrayBuffer]);
  } catch (error) {
    parentPort!.postMessage({ number, error } satisfies Drawn);
  }
});
