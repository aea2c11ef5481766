import { parentPort } from "node:worker_threads";
import { type Job, runJob } from "./job.js";

parentPort!.on("message", (job: Job) => parentPort!.postMessage(runJob(job)));
