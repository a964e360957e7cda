// `node scripts/with-database.mjs [--kept] FILE.ts ...`: see stages/with-database.mjs. Only what an old Node can read stands here.
import { checkNode } from "./node-version.mjs";

checkNode();
import("./stages/with-database.mjs").then(function (stage) {
  return stage.runWithDatabase(process.argv.slice(2));
});
