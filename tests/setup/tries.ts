import { afterEach } from "vitest";

declare module "vitest" {
  interface TaskMeta {
    /** Whether the test failed once in this run before; the report has it, so that what passes only then can be named. */
    triedAgain?: true;
  }
}

afterEach(({ task }) => {
  if (task.result?.retryCount) task.meta.triedAgain = true;
});
