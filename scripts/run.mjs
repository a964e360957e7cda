// `node scripts/run.mjs FILE.ts ...`: see stages/run.mjs. Only what an old Node can read stands here.
import { checkNode } from "./node-version.mjs";

checkNode();
import("./stages/run.mjs").then(function (stage) {
  return stage.runTypeScript(process.argv.slice(2));
});
