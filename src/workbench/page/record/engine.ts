import type { TaskName, Tasks } from "../../engine/tasks.js";

/** The engine in its worker, as the record calls it. */
export type Engine = <Name extends TaskName>(
  task: Name,
  input: Parameters<Tasks[Name]>[0],
) => Promise<Awaited<ReturnType<Tasks[Name]>>>;
