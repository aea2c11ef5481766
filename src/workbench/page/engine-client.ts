import { bytesOfBase64 } from "../browser/base64.js";
import type { Assets } from "../browser/machine.js";
import type { FromWorker, ToWorker } from "../browser/messages.js";
import type { Brought, ColumnsView, TaskName, Tasks } from "../engine/tasks.js";

/** What could not be used, in the words of the engine. */
export class Refused extends Error {
  constructor(
    message: string,
    /** Whether something that was brought is at fault; else the toolkit itself has failed. */
    readonly isInput: boolean,
  ) {
    super(message);
  }
}

/** Somebody stopped what was going on. */
export class Stopped extends Error {}

/** Tasks that change what lies on the desk: they are done once more in a new worker. */
const changing: ReadonlySet<TaskName> = new Set<TaskName>([
  "bring",
  "invent",
  "columns",
  "settle",
  "ask",
  "agree",
]);

/** Whoever asks for nothing for so long reads, in thousandths of a second. */
const pause = 150;

const textOf = (id: string): string => document.getElementById(id)!.textContent!;

async function unpacked(id: string): Promise<Uint8Array> {
  const stream = new Blob([bytesOfBase64(textOf(id))]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** A task that changed what lies on the desk, with what it was given. */
export interface TaskDone {
  readonly task: TaskName;
  readonly input: unknown;
}

interface Waiting {
  readonly resolve: (result: never) => void;
  readonly reject: (error: Error) => void;
}

/** The engine in its worker, as the page calls it. One task at a time; stopping one leaves the desk as it was before. */
export function engineClient(progress: (step: string) => void) {
  let worker: Promise<Worker> | null = null;
  let waiting = new Map<number, Waiting>();
  let count = 0;
  let log: TaskDone[] = [];
  let preparing: ReturnType<typeof setTimeout> | undefined;
  let step: string | null = null;

  const start = async (): Promise<Worker> => {
    const code = await unpacked("engine");
    const made = new Worker(URL.createObjectURL(new Blob([code as BlobPart], { type: "text/javascript" })));
    made.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => void hear(made, data));
    made.addEventListener("error", ({ message }) => {
      for (const { reject } of waiting.values()) reject(new Refused(message, false));
      waiting.clear();
    });
    send(made, { kind: "start", assets: JSON.parse(textOf("assets")) as Assets });
    return made;
  };

  const hear = async (from: Worker, message: FromWorker): Promise<void> => {
    if (message.kind === "progress") {
      step = message.step;
      return progress(step);
    }
    if (message.kind === "needs-pixels")
      return send(from, { kind: "pixels", code: await unpacked("pixels") });
    const { resolve, reject } = waiting.get(message.id)!;
    waiting.delete(message.id);
    if (waiting.size === 0) step = null;
    if (message.kind === "done") resolve(message.result as never);
    else reject(new Refused(message.message, message.isInput));
  };

  const send = (to: Worker, message: ToWorker): void => to.postMessage(message);

  const call = async <Name extends TaskName>(
    task: Name,
    input: Parameters<Tasks[Name]>[0],
  ): Promise<Awaited<ReturnType<Tasks[Name]>>> => {
    clearTimeout(preparing);
    worker ??= start();
    const to = await worker;
    const id = ++count;
    return new Promise((resolve, reject) => {
      waiting.set(id, { resolve: resolve as Waiting["resolve"], reject });
      send(to, { kind: "run", id, task, input });
    });
  };

  return {
    /** What the engine is doing, also where it was not waited for until now; null while it does nothing or has not said what. */
    step: (): string | null => step,
    /** Starts the engine before it is needed. */
    warm: (): void => {
      worker ??= start();
    },
    /** Has the answer computed while nothing else is asked for. */
    prepare: (): void => {
      clearTimeout(preparing);
      // what goes wrong is told when the answer is asked for
      preparing = setTimeout(() => void call("prepare", undefined as never).catch(() => undefined), pause);
    },
    run: async <Name extends TaskName>(task: Name, input: Parameters<Tasks[Name]>[0]) => {
      const result = await call(task, input);
      if (task === "bring" || task === "invent") log = [];
      if (changing.has(task)) log.push({ task, input });
      return result;
    },
    /** Ends what is going on, and lays the desk out again as it was before. */
    stop: async (): Promise<void> => {
      const old = worker;
      [worker, step] = [null, null];
      const stopped = waiting;
      waiting = new Map();
      (await old)?.terminate();
      for (const { reject } of stopped.values()) reject(new Stopped());
      for (const { task, input } of log) await call(task, input as never);
    },
    /** What has changed the desk so far, in turn. */
    log: (): readonly TaskDone[] => [...log],
    /** Lays an empty desk out by what changed it before, and gives what was brought. */
    layOut: async (before: readonly TaskDone[]): Promise<Brought> => {
      let brought: Brought | null = null;
      for (const { task, input } of before) {
        const result = await call(task, input as never);
        if (task === "bring" || task === "invent") brought = result as Brought;
        if (task === "columns") brought = { kind: "sheet", columns: result as ColumnsView };
      }
      log = [...before];
      return brought!;
    },
    forget: async (): Promise<void> => {
      clearTimeout(preparing);
      (await worker)?.terminate();
      [worker, waiting, log, step] = [null, new Map(), [], null];
    },
  };
}

export type EngineClient = ReturnType<typeof engineClient>;
