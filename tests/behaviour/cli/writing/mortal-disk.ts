/*
 * The file system of a run that is killed at one of its calls: from then on no call answers, so that no line of the run
 * is reached any more. Its process number is one that nobody has.
 */

/** When a run is killed: before or after its call of this number, or in the middle of writing a file. */
export interface Death {
  readonly call: number;
  readonly when: "before" | "after" | "middle";
}

export const moments = ["before", "after", "middle"] as const;

interface State {
  death: Death | null;
  calls: number;
  isDead: boolean;
  onDeath: () => void;
  /** A disk that knows no second names for files. */
  withoutLinks: boolean;
  /** Done before a call, to play somebody else. */
  onCall: ((name: string, path: string) => void) | null;
}

export const state: State = {
  death: null,
  calls: 0,
  isDead: false,
  onDeath: () => undefined,
  withoutLinks: false,
  onCall: null,
};

const changing = ["mkdir", "rename", "link", "unlink", "rmdir", "rm", "chmod"] as const;
const silence = new Promise<never>(() => undefined);

type Act = () => Promise<unknown>;

/** Does a changing call, unless the run dies at it. */
async function counted(act: Act, middle: Act | null = null): Promise<unknown> {
  if (state.isDead) return silence;
  state.calls += 1;
  const death = state.death?.call === state.calls ? state.death.when : null;
  if (death === "before") return die();
  if (death === "middle") {
    if (middle !== null) await middle();
    return die();
  }
  const done = act();
  if (death !== "after") return done;
  await done.catch(() => undefined);
  return die();
}

function die(): Promise<never> {
  state.isDead = true;
  state.onDeath();
  return silence;
}

type Promises = typeof import("node:fs/promises");
type Handle = Awaited<ReturnType<Promises["open"]>>;

/** The module of the file system with every changing call counted. */
export function mortal(real: Promises): Promises {
  const patched: Record<string, unknown> = { ...real };
  for (const name of changing) {
    const call = real[name] as (...words: unknown[]) => Promise<unknown>;
    patched[name] = (...words: unknown[]) => {
      state.onCall?.(name, String(words[0]));
      const isRefused = name === "link" && state.withoutLinks;
      return counted(isRefused ? refuseLink : () => call(...words));
    };
  }
  // signs of life come at times of their own, and from runs that were killed here too
  patched.utimes = async () => undefined;
  patched.open = async (path: string, flags: string, mode?: number) => {
    if (flags === "r") return state.isDead ? silence : opened(real.open(path, flags));
    return handleOf((await counted(() => opened(real.open(path, flags, mode)))) as Handle);
  };
  return { ...patched, default: patched } as unknown as Promises;
}

const handles = new Set<Handle>();

async function opened(opening: Promise<Handle>): Promise<Handle> {
  const handle = await opening;
  handles.add(handle);
  return handle;
}

/** Closes the files that killed runs had open, as the system does when a process ends. */
export async function closeLeftOpen(): Promise<void> {
  const left = [...handles];
  handles.clear();
  // one that is closed already may be closed again
  await Promise.all(left.map((handle) => handle.close()));
}

const refuseLink: Act = () => Promise.reject(Object.assign(new Error("no links"), { code: "EPERM" }));

const handleOf = (handle: Handle) => ({
  writeFile: (content: string | Uint8Array) => {
    const bytes = Buffer.from(content as string);
    return counted(
      () => handle.writeFile(bytes),
      async () => {
        await handle.writeFile(bytes.subarray(0, bytes.length / 2));
        await handle.close();
      },
    );
  },
  // what survives a loss of power is not what these tests ask
  sync: async () => undefined,
  close: () => handle.close(),
});
