// `npm run up`: see stages/up.mjs. Only what an old Node can read stands here.
import { checkNode } from "./node-version.mjs";

checkNode();
import("./stages/up.mjs").then(function (stage) {
  return stage.up(process.argv.slice(2));
});
