import path from "node:path";
import { stripVTControlCharacters } from "node:util";
import { root } from "./root.mjs";

/** How much of what a failed test says is repeated at the end, lines. */
const lines = 10;
/** Lines that say nothing: empty ones, and where the runner called the test. */
const idle = /^\s*$|^\s+at (?:.*node_modules|.*node:|new Promise)/u;

/**
 * What a run of the tests that need no browser came to, by its report: how many, the names of those that failed and of
 * those that passed only at their second try, with what they said.
 */
export function tallyOfTests({ numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults }) {
  const tally = { passed: numPassedTests, failed: numFailedTests, skipped: numPendingTests + numTodoTests, faults: [], again: [] };
  for (const { name, status, message, assertionResults } of testResults) {
    const file = path.relative(root, name);
    // One that could not be read has no tests to fail.
    if (assertionResults.length === 0 && status === "failed") tally.faults.push(faultOf(file, message));
    for (const test of assertionResults) {
      const fault = faultOf(`${file} › ${test.fullName}`, test.failureMessages.at(-1));
      if (test.status === "failed") tally.faults.push(fault);
      else if (test.meta?.triedAgain) tally.again.push(fault);
    }
  }
  return tally;
}

/** The same of the browser's tests, by the report of their runner. */
export function tallyOfBrowser({ stats, suites, errors = [] }) {
  const tally = { passed: stats.expected + stats.flaky, failed: stats.unexpected, skipped: stats.skipped, faults: errors.map(({ message }) => faultOf("the browser's runner", message)), again: [] };
  const read = ({ title, specs = [], suites: inner = [] }, above) => {
    for (const spec of specs) for (const { status, projectName, results } of spec.tests) {
      const fault = faultOf(`[${projectName}] ${[...above, title, spec.title].join(" › ")}`, results.flatMap(({ errors: said }) => said).at(-1)?.message);
      if (status === "unexpected") tally.faults.push(fault);
      if (status === "flaky") tally.again.push(fault);
    }
    for (const suite of inner) read(suite, [...above, title]);
  };
  for (const suite of suites) read(suite, []);
  return tally;
}

const faultOf = (name, said = "") => ({ name, said: stripVTControlCharacters(said).trim().split("\n").filter((line) => !idle.test(line)).slice(0, lines) });

/** Under a heading, each with what it said. */
export function listOf(heading, faults) {
  return [heading, ...faults.flatMap(({ name, said }) => [`  ${name}`, ...said.map((line) => `      ${line}`)])].join("\n");
}
