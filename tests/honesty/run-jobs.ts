import { Worker } from "node:worker_threads";
import type { Job } from "./job.js";
import type { Tallies } from "./tally.js";

/** Runs the jobs over worker threads, each worker one at a time, and gives the outcomes in the order of the jobs. */
export async function runJobs(
  jobs: readonly Job[],
  options: { readonly workers: number; readonly onDone: (done: number) => void },
): Promise<readonly Tallies[]> {
  const outcomes = new Array<Tallies>(jobs.length);
  let next = 0;
  let done = 0;
  const serve = async (): Promise<void> => {
    const worker = new Worker(new URL("./worker.js", import.meta.url));
    try {
      while (next < jobs.length) {
        const at = next++;
        outcomes[at] = await answerOf(worker, jobs[at]!);
        options.onDone(++done);
      }
    } finally {
      await worker.terminate();
    }
  };
  await Promise.all(Array.from({ length: options.workers }, serve));
  return outcomes;
}

function answerOf(worker: Worker, job: Job): Promise<Tallies> {
  return new Promise((resolve, reject) => {
    worker.once("error", reject);
    worker.once("message", (tallies: Tallies) => {
      worker.off("error", reject);
      resolve(tallies);
    });
    worker.postMessage(job);
  });
}
