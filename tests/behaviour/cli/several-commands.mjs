// Runs several commands one after the other in this process, as strict or loose as it was started; says what came of each.
// The one argument is a list of lists of words, as JSON.
import process from "node:process";

const main = new URL("../../../dist/command/main.js", import.meta.url);
const { write } = process.stdout;
const { write: writeError } = process.stderr;
const said = [];
for (const [at, words] of JSON.parse(process.argv[2]).entries()) {
  let stderr = "";
  process.argv = [process.execPath, main.pathname, ...words];
  process.exitCode = undefined;
  process.stdout.write = (_, done) => {
    done?.();
    return true;
  };
  process.stderr.write = (text) => {
    stderr += text;
    return true;
  };
  // a module anew each time, as in a process that has just started
  await import(`${main.href}?run=${at}`);
  Object.assign(process.stdout, { write });
  Object.assign(process.stderr, { write: writeError });
  said.push({ code: process.exitCode ?? 0, stderr });
}
process.exitCode = 0;
process.stdout.write(JSON.stringify(said));
