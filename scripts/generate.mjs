// `npm run generate`: makes the typed database client after a change to prisma/schema.prisma.
import { checkNode } from "./node-version.mjs";

checkNode();
import("./stages/run.mjs").then(function (stage) {
  return stage.makeReady();
});
