import { Worker } from "node:worker_threads";
import type { Drawn, ToDraw } from "./png-worker.js";
import { figureAsPng } from "./render-png.js";

/** Whoever waits for a drawing. */
interface Waiting {
  readonly draw: (png: Uint8Array) => void;
  readonly fail: (error: unknown) => void;
}

/**
 * Draws pictures in a thread of its own. To pack the pixels of a picture takes about as long as to draw a chart, and the library does it where
 * it is called: beside, the next chart is drawn meanwhile. The thread keeps the process from its end only while somebody waits.
 */
function startThread(): (svg: string) => Promise<Uint8Array> {
  const thread = new Worker(new URL("./png-worker.js", import.meta.url));
  thread.unref();
  const waiting = new Map<number, Waiting>();
  let sent = 0;
  const take = (number: number): Waiting | undefined => {
    const one = waiting.get(number);
    waiting.delete(number);
    if (waiting.size === 0) thread.unref();
    return one;
  };
  thread.on("message", (drawn: Drawn) => {
    const one = take(drawn.number);
    if ("png" in drawn) one?.draw(drawn.png);
    else one?.fail(drawn.error);
  });
  thread.on("error", (error) => {
    drawInThread = null;
    for (const number of [...waiting.keys()]) take(number)?.fail(error);
  });
  return (svg) =>
    new Promise((draw, fail) => {
      const number = sent++;
      if (waiting.size === 0) thread.ref();
      waiting.set(number, { draw, fail });
      thread.postMessage({ number, svg } satisfies ToDraw);
    });
}

/** One thread serves all reports of a process. Run from its source, as some tests do, there is no file that a thread could start with. */
let drawInThread: ((svg: string) => Promise<Uint8Array>) | null = null;

/** A figure of a report as PNG, drawn beside whatever else is done. */
export function figureAsPngBeside(svg: string): Promise<Uint8Array> {
  if (import.meta.url.endsWith(".ts")) return figureAsPng(svg);
  drawInThread ??= startThread();
  return drawInThread(svg);
}
