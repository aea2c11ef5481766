// Loaded with --import into a real run of the command: kills it, or holds it, at one of the calls that change the disk.
// FAULT is {"call": "rename", "path": end of the path, "when": "before" or "after", "hold": file or absent}.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

const { call, path, when, hold } = JSON.parse(process.env.FAULT);
const real = fs.promises[call];
const pause = new Int32Array(new SharedArrayBuffer(4));

/** The end of this run; or, where it is to be held, a pause until the file "<hold>.go" is there. */
function fault() {
  if (hold === undefined) process.kill(process.pid, "SIGKILL");
  fs.writeFileSync(`${hold}.reached`, "");
  while (!fs.existsSync(`${hold}.go`)) Atomics.wait(pause, 0, 0, 20);
}

let done = false;
fs.promises[call] = async (...words) => {
  const isIt = !done && String(words[0]).endsWith(path);
  if (isIt) done = true;
  if (isIt && when === "before") fault();
  const result = await real(...words);
  if (isIt && when === "after") fault();
  return result;
};
syncBuiltinESMExports();
