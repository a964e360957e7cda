import { spawn } from "node:child_process";
import { Fault, Interrupted, explain } from "./fault.mjs";
import { root } from "./root.mjs";

const children = new Set();
let interrupted = false;

/** How long a program may take to put things in order before it is ended outright. */
const patience = 3000;

/** Ends every program that this command is waiting for, with those that it started. */
export function interruptPrograms() {
  interrupted = true;
  for (const child of children) signalGroup(child, "SIGTERM");
  setTimeout(() => {
    for (const child of children) signalGroup(child, "SIGKILL");
  }, patience).unref();
}

function signalGroup(child, signal) {
  try {
    process.kill(process.platform === "win32" ? child.pid : -child.pid, signal);
  } catch {
    child.kill(signal);
  }
}

process.once("exit", () => {
  for (const child of children) signalGroup(child, "SIGKILL");
});

let tellOfStart = () => undefined;

/** Has `tell` told the number of each program that is started, so that it can be noted. */
export function onProgramStart(tell) {
  tellOfStart = tell;
}

/** Throws where the person has stopped the command. */
export function stopIfInterrupted() {
  if (interrupted) throw new Interrupted();
}

/**
 * Runs a program in this clone to its end. `show: true` lets it write to the terminal; else its output is kept and
 * only told of where it fails. After `limit` milliseconds it is ended. Returns `{ code, output }`; with `what` ("The packages could not be installed") a
 * failure is thrown as one line.
 */
export function runProgram(program, args, { env, show = false, what, limit } = {}) {
  stopIfInterrupted();
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, {
      cwd: root,
      env: env ?? process.env,
      timeout: limit,
      // A group of its own, so that all of it can be ended together.
      detached: process.platform !== "win32",
      stdio: ["ignore", show ? "inherit" : "pipe", show ? "inherit" : "pipe"],
      shell: process.platform === "win32" && program === "npm",
    });
    children.add(child);
    if (child.pid) tellOfStart(child.pid);
    let output = "";
    const keep = (chunk) => (output = (output + chunk).slice(-200_000));
    child.stdout?.on("data", keep);
    child.stderr?.on("data", keep);
    child.once("error", (error) => {
      children.delete(child);
      reject(what ? (explain(what, error.message) ?? new Fault(`${what}: ${error.message}.`)) : error);
    });
    child.once("close", (code, signal) => {
      children.delete(child);
      if (interrupted) return reject(new Interrupted());
      if (code === 0 || !what) return resolve({ code: code ?? 1, output });
      reject(explain(what, `${output} ${signal ?? ""}`) ?? new Fault(`${what}:\n${tail(output)}`));
    });
  });
}

/** Runs a script of an installed package with this Node. */
export const runNode = (args, options) => runProgram(process.execPath, args, options);

/** Runs npm: the one that started this command where there is one. */
export function runNpm(args, options) {
  const own = process.env.npm_execpath;
  return own?.endsWith(".js") ? runNode([own, ...args], options) : runProgram("npm", args, options);
}

const tail = (text) => text.trim().split("\n").slice(-25).map((line) => `    ${line}`).join("\n");
