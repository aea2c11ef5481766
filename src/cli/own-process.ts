import { getHeapStatistics } from "node:v8";
import { type ExitCode, exitCodes } from "./exit-codes.js";

// An engine that runs out of memory ends its process with a dump and cannot be stopped from doing so. Work that may
// need more than there is goes on in a process of its own, so that this one is left to say what happened.

/** What a command is about to read. */
export interface Load {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** Heap that reading, checking and reporting take at their most for each byte of a table, from measurements. */
const heapPerByte = { text: 20, workbook: 200 } as const;
/** What the toolkit itself takes, bytes. */
const toolkit = 150_000_000;
/** More than this share of the memory there is may be too much: needs differ with what the rows hold. */
const surelyEnough = 0.5;

/** Says to the process that it is one of its own, and whether the progress line can be seen. */
const mark = "PULLEY_OUTCOMES_OWN_PROCESS";

/** Thrown before anything is said or written: the same command is to be run in a process of its own. */
export class OwnProcessNeeded extends Error {
  override readonly name = "OwnProcessNeeded";
  constructor(
    readonly loads: readonly Load[],
    readonly needed: number,
  ) {
    super("a process of its own is needed");
  }
}

/** @throws OwnProcessNeeded where the tables might need more memory than this process may use */
export function mustHaveRoomFor(loads: readonly Load[]): void {
  if (process.env[mark] !== undefined) return;
  const needed = loads.reduce((sum, load) => sum + neededFor(load), toolkit);
  if (needed > surelyEnough * getHeapStatistics().heap_size_limit) throw new OwnProcessNeeded(loads, needed);
}

const neededFor = ({ bytes }: Load): number => {
  const isArchive = bytes[0] === 0x50 && bytes[1] === 0x4b;
  return bytes.length * (isArchive ? heapPerByte.workbook : heapPerByte.text);
};

/** Whether the progress line is seen by a person, though it may go through another process. */
export const isProgressSeen = (): boolean => process.stderr.isTTY === true || process.env[mark] === "seen";

/** How the engine begins to say that its memory has run out; everything behind it is the dump. */
const dumpBegins = /\n?<--- Last few GCs|FATAL ERROR: |\n?#\n# Fatal/;
/** What an engine that gave up leaves as exit code, where the system knows no signals. */
const abortCodes: readonly (number | null)[] = [134, 0x80000003, 0xc0000409];

/** Runs the same command in a process of its own, which speaks for itself unless memory runs out. */
export async function runInOwnProcess(needed: OwnProcessNeeded): Promise<ExitCode> {
  // imported where it is needed: every command starts by way of this file
  const { spawn } = await import("node:child_process");
  const child = spawn(process.execPath, [...process.execArgv, ...process.argv.slice(1)], {
    stdio: ["inherit", "inherit", "pipe"],
    env: { ...process.env, [mark]: process.stderr.isTTY ? "seen" : "unseen" },
  });
  // whoever interrupts the command interrupts both; what the other one says about it comes first
  process.on("SIGINT", () => undefined);
  process.on("SIGTERM", () => child.kill("SIGTERM"));
  let isDumping = false;
  child.stderr.on("data", (chunk: Buffer) => {
    if (isDumping) return;
    const text = chunk.toString();
    const dump = text.search(dumpBegins);
    isDumping = dump !== -1;
    process.stderr.write(isDumping ? text.slice(0, dump) : chunk);
  });
  const { code, signal } = await new Promise<{ code: number | null; signal: string | null }>(
    (ended, failed) => {
      child.on("error", failed);
      child.on("close", (exitCode, endedBy) => ended({ code: exitCode, signal: endedBy }));
    },
  );
  if (signal === null && code !== null && !isDumping && !abortCodes.includes(code)) return code as ExitCode;
  if (isDumping || signal === "SIGABRT" || abortCodes.includes(code)) {
    process.stderr.write(outOfMemory(needed));
    return exitCodes.input;
  }
  process.stderr.write(
    signal === "SIGKILL"
      ? `The operating system stopped the command: on most computers this happens when all memory is in use.\n${remedies(needed)}`
      : `The command was stopped by ${signal}.\n`,
  );
  return signal === "SIGKILL" ? exitCodes.input : exitCodes.fault;
}

const megabytes = (bytes: number): number => Math.ceil(bytes / 1_000_000);

function outOfMemory(needed: OwnProcessNeeded): string {
  const allowed = megabytes(getHeapStatistics().heap_size_limit);
  return `The command ran out of memory: it may use ${allowed} MB.\n${remedies(needed)}`;
}

function remedies({ loads, needed }: OwnProcessNeeded): string {
  const files = loads.map(({ file, bytes }) => `"${file}" (${megabytes(bytes.length)} MB)`);
  return [
    `  About ${megabytes(needed)} MB are needed for ${files.join(", ")}.`,
    `  If the computer has more memory, allow the command to use it: write NODE_OPTIONS=--max-old-space-size=${megabytes(1.5 * needed)} before the command.`,
    "  A CSV file can also be checked row by row, with little memory: pulley-outcomes check FILE --table NAME.",
    "Nothing was written.\n",
  ].join("\n");
}
