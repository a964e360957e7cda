// `npm test` and `npm run check`: see stages/test.mjs. Only what an old Node can read stands here.
import { checkNode } from "./node-version.mjs";

checkNode();
import("./stages/test.mjs").then(function (stage) {
  return stage.test(process.argv.slice(2));
});
