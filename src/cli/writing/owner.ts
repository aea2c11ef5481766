import { createHash } from "node:crypto";
import { readFileSync, readlinkSync } from "node:fs";
import { stat } from "node:fs/promises";
import { hostname } from "node:os";
import { setTimeout as pause } from "node:timers/promises";
import { codeOf } from "../reason-of.js";

/**
 * Which process writes: computer, number of the process and its beginning, as `computer-number-beginning`. Numbers of
 * processes are used again; the beginning tells two processes of one number apart. It is 0 where it cannot be known.
 */
export type Owner = string;

/** What the name of an owner looks like. */
export const ownerPattern = "[0-9a-f]{8}-[0-9]{1,12}-[0-9a-f]{1,8}";

/** A run that lives shows it this often, by the time on its marker, milliseconds. */
const beatEvery = 1_000;
/** Where only these signs tell, a run that has shown none for so long has ended, milliseconds. */
const silence = 15_000;
const lookEvery = 250;

/** This process. */
export const thisProcess = (): Owner => `${computer()}-${process.pid}-${beginningOf(process.pid) ?? "0"}`;

/**
 * Whether the run that an owner names has ended. Known at once for a process of this computer; otherwise its marker is
 * watched for a sign of life.
 *
 * @param marker the file whose time a living run keeps changing
 */
export async function hasEnded(
  owner: Owner,
  marker: string,
  { patience = silence }: { readonly patience?: number } = {},
): Promise<boolean> {
  const [host = "", number = "", beginning = ""] = owner.split("-");
  if (host === computer()) {
    const pid = Number(number);
    if (!isThere(pid)) return true;
    const now = beginningOf(pid);
    if (now !== null && beginning !== "0") return now !== beginning;
  }
  return isSilent(marker, patience);
}

/** The times that a living run gives its marker one after another, whole seconds: only that they change matters. */
export const nextBeat = (beat: number): number => (beat + 1) % 1_000_000;
export const beatInterval = beatEvery;

async function isSilent(marker: string, patience: number): Promise<boolean> {
  const timeOf = () =>
    stat(marker).then(
      ({ mtimeMs }) => mtimeMs,
      () => null,
    );
  const first = await timeOf();
  for (let waited = 0; waited < patience && first !== null; waited += lookEvery) {
    await pause(lookEvery);
    if ((await timeOf()) !== first) return false;
  }
  return true;
}

const shortHash = (text: string): string => createHash("sha256").update(text).digest("hex").slice(0, 8);

/** This computer, and on Linux the group of processes that see each other's numbers. */
function computer(): string {
  let group = "";
  try {
    group = readlinkSync("/proc/self/ns/pid");
  } catch {
    // only Linux has such groups
  }
  return shortHash(`${hostname()} ${group}`);
}

function isThere(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // a process of somebody else is there and may not be asked
    return codeOf(error) === "EPERM";
  }
}

/** When a process began, as a short name; null where the system does not tell. */
function beginningOf(pid: number): string | null {
  try {
    const boot = readFileSync("/proc/sys/kernel/random/boot_id", "utf8").trim();
    const line = readFileSync(`/proc/${pid}/stat`, "utf8");
    // fields after the name in brackets: state first, beginning twentieth (proc(5))
    const fields = line.slice(line.lastIndexOf(")") + 2).split(" ");
    const isEnded = ["Z", "X"].includes(fields[0]!);
    return isEnded ? "ended" : shortHash(`${boot} ${fields[19]}`);
  } catch {
    return null;
  }
}
