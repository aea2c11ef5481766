import { statfs } from "node:fs/promises";
import { join, sep } from "node:path";
import type { Place } from "./placed.js";
import { refusal } from "./refusal.js";

/** Folders under which the system shows itself: processes, devices, settings. */
const systemFolders = ["/proc", "/sys", "/dev"];

/**
 * File systems that hold no files of a person, by the number that Linux gives them (the "magic" numbers of statfs(2) and
 * the kernel's magic.h, from memory).
 */
const systemKinds: ReadonlySet<number> = new Set([
  0x9fa0, // processes
  0x62656572, // the system's own settings
  0x1cd1, // terminals
  0x27e0eb, // control groups
  0x63677270,
  0x64626720, // debugging
  0x74726163,
  0x73636673, // security modules
  0xf97cff8c,
  0xcafe4a11, // programs in the kernel
  0x62656570, // kernel configuration
  0x6165676c, // crash records
  0xde5e81e4, // firmware variables
  0x19800202, // message queues
  0x42494e4d, // kinds of programs
  0x65735543, // connections to user-space disks
]);

/** Names that are devices on Windows, in every folder. */
const deviceName = /^(con|prn|aux|nul|com\d|lpt\d)(\..*)?$/i;

/** @throws CommandError where the place is a view of the running system and not a disk */
export async function refuseOddDisk(place: Omit<Place, "found">, elsewhere: string): Promise<void> {
  if (await isSystemPlace(place)) {
    throw refusal(
      `"${place.given}" belongs to a file system of the operating system that keeps no files.`,
      elsewhere,
    );
  }
}

async function isSystemPlace({ parent, name, below }: Omit<Place, "found">): Promise<boolean> {
  if (process.platform === "win32") {
    return [name, ...below.split(sep)].some((part) => deviceName.test(part));
  }
  const path = join(parent, name);
  if (systemFolders.some((folder) => path === folder || path.startsWith(`${folder}/`))) return true;
  if (process.platform !== "linux") return false;
  // a target that is there may be another file system than the folder around it
  for (const each of [path, parent]) {
    const type = await statfs(each).then(
      (found) => found.type,
      () => null,
    );
    if (type !== null && systemKinds.has(type)) return true;
  }
  return false;
}
