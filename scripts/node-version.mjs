// Written in the syntax of old Nodes on purpose: it has to run there to refuse in words.
import { readFileSync } from "fs";

/** Ends the process with one line where this Node is older than the one package.json asks for. */
export function checkNode() {
  var file = new URL("../package.json", import.meta.url);
  var wanted = JSON.parse(readFileSync(file, "utf8")).engines.node.replace(">=", "");
  var need = wanted.split(".").map(Number);
  var have = process.versions.node.split(".").map(Number);
  if (have[0] > need[0] || (have[0] === need[0] && have[1] >= need[1])) return;
  console.error("Padwright needs Node.js " + wanted + " or newer and this is " + process.versions.node + ": install a newer one and run the command again.");
  process.exit(1);
}
