import { Worker } from "node:worker_threads";
import type { Drawings, Drawn, Kind, ToDraw } from "./drawing-worker.js";
import { figureAsPng } from "./render-png.js";
import { renderSvg } from "./render-svg.js";

/** Whoever waits for a drawing. */
interface Waiting<K extends Kind> {
  readonly take: (to: Drawings[K]["to"]) => void;
  readonly fail: (error: unknown) => void;
}

type Draw<K extends Kind> = (from: Drawings[K]["from"]) => Promise<Drawings[K]["to"]>;

/** The threads of this process, which serve all its reports. */
const threads: { [K in Kind]?: Draw<K> } = {};
/** How each of them is ended, whatever it draws. */
const running = new Set<Worker>();

/** A thread that draws one kind. It keeps the process from its end only while somebody waits. */
function startThread<K extends Kind>(kind: K): Draw<K> {
  const thread = new Worker(new URL("./drawing-worker.js", import.meta.url), { workerData: kind });
  const waiting = new Map<number, Waiting<K>>();
  let sent = 0;
  const found = (number: number): Waiting<K> | undefined => {
    const one = waiting.get(number);
    waiting.delete(number);
    if (waiting.size === 0) thread.unref();
    return one;
  };
  thread.on("message", (drawn: Drawn) => {
    const one = found(drawn.number);
    if ("to" in drawn) one?.take(drawn.to);
    else one?.fail(drawn.error);
  });
  running.add(thread);
  thread.on("exit", () => running.delete(thread));
  thread.on("error", (error) => {
    delete threads[kind];
    for (const number of [...waiting.keys()]) found(number)?.fail(error);
  });
  // last: a listener for messages keeps the process from its end as well
  thread.unref();
  return (from) =>
    new Promise((take, fail) => {
      const number = sent++;
      if (waiting.size === 0) thread.ref();
      waiting.set(number, { take, fail });
      thread.postMessage({ number, from } satisfies ToDraw);
    });
}

/** The thread of a kind; one that failed is replaced by a new one. */
function threadOf<K extends Kind>(kind: K): Draw<K> {
  const known = threads[kind] as Draw<K> | undefined;
  if (known) return known;
  const started = startThread(kind);
  Object.assign(threads, { [kind]: started });
  return started;
}

/** What draws in threads of their own. */
export interface DrawingBeside {
  readonly drawSvg: Draw<"svg">;
  readonly drawPng: Draw<"png">;
}

/**
 * Starts the threads that draw: one compiles and draws figures, the other turns them into pixels. They load what they need while a
 * study is read, and draw beside each other. Run from its source, as some tests do, there is no file that a thread could start with.
 */
export function drawingBeside(): DrawingBeside {
  if (import.meta.url.endsWith(".ts")) return { drawSvg: renderSvg, drawPng: figureAsPng };
  threadOf("svg");
  threadOf("png");
  return {
    drawSvg: (figure) => threadOf("svg")(figure),
    drawPng: (svg) => threadOf("png")(svg),
  };
}

/** Ends the threads of this process, where it is not to draw after all. */
export async function stopThreads(): Promise<void> {
  for (const kind of Object.keys(threads) as Kind[]) delete threads[kind];
  await Promise.all(Array.from(running, (thread) => thread.terminate()));
}
