import "./without-eval.js";
import { InputError } from "../../schema/input-error.js";
import { deskOn } from "../engine/desk.js";
import type { TaskName, Tasks } from "../engine/tasks.js";
import { browserMachine } from "./machine.js";
import type { FromWorker, ToWorker } from "./messages.js";

// The engine in a thread of its own: the page stays alive while it works, and can stop it.

const say = (message: FromWorker, transfer: Transferable[] = []): void => {
  (postMessage as (message: unknown, transfer: Transferable[]) => void)(message, transfer);
};

let tasks: Tasks | null = null;
/** The task that runs, and those that wait for it: one at a time, in the order in which they were asked for. */
let queue: Promise<void> = Promise.resolve();
let givePixels: (code: Uint8Array) => void = () => undefined;

addEventListener("message", ({ data }: MessageEvent<ToWorker>) => {
  if (data.kind === "start") {
    const pixels = new Promise<Uint8Array>((resolve) => {
      givePixels = resolve;
    });
    const machine = browserMachine(data.assets, () => {
      say({ kind: "needs-pixels" });
      return pixels;
    });
    tasks = deskOn(machine, (step) => say({ kind: "progress", step }));
  } else if (data.kind === "pixels") givePixels(data.code);
  else queue = queue.then(() => run(data.id, { task: data.task, input: data.input }));
});

async function run(
  id: number,
  { task, input }: { readonly task: TaskName; readonly input: unknown },
): Promise<void> {
  try {
    const result = await (tasks![task] as (input: unknown) => Promise<unknown>)(input);
    say({ kind: "done", id, result });
  } catch (error) {
    // a fault of ours is told as one: whoever reads it must not look for it in the data
    const isInput = error instanceof InputError;
    const message = error instanceof Error ? error.message : String(error);
    say({ kind: "failed", id, isInput, message });
  }
}
