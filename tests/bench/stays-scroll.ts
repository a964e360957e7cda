import { chromium, type Page } from "@playwright/test";
import { sessionCookie } from "@/lib/store/accounts/auth";
import { findBrowser } from "../../scripts/stages/browser.mjs";
import { digits, spreadOf, told } from "./measure";

type Aim = (what: string, met: boolean, measured: string) => void;

/** A task longer than this is one that a hand notices, ms; shorter ones the browser does not tell of. */
const LONG = 50;
const FRAME = 1000 / 60;

interface Way {
  readonly name: string;
  /** What the wheel turns in each frame, pixels across and down. */
  readonly step: (frame: number) => { readonly x: number; readonly y: number };
  readonly frames: number;
}

const WAYS: readonly Way[] = [
  { name: "down the sites by wheel", step: () => ({ x: 0, y: 100 }), frames: 120 },
  { name: "along the year by wheel", step: () => ({ x: 100, y: 0 }), frames: 100 },
  { name: "back across both", step: () => ({ x: -90, y: -110 }), frames: 130 },
  { name: "in leaps to and fro", step: (frame) => ({ x: frame % 2 ? -2400 : 2800, y: frame % 2 ? -3400 : 4200 }), frames: 60 },
];

/** Scrolls the page of nights in Chromium as people do, and tells every task that held the browser up. */
export async function reportScrolling(address: string, session: string, aim: Aim): Promise<void> {
  const executablePath = await findBrowser(() => undefined);
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
  try {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    await context.addCookies([{ name: sessionCookie, value: encodeURIComponent(session), url: new URL(address).origin }]);
    const page = await context.newPage();
    await page.addInitScript({ content: observe });
    const faults: string[] = [];
    page.on("pageerror", ({ message }) => faults.push(message));
    page.on("console", (message) => { if (message.type() === "error") faults.push(message.text()); });
    await page.goto(address);
    await page.locator("[data-live=live]").waitFor({ timeout: 30_000 }).catch((error: unknown) => { throw new Error(`the page never called itself live; its console: ${faults.join("; ") || "empty"}`, { cause: error }); });
    await page.waitForTimeout(1000);
    const opening = await takeTasks(page);
    console.log(`    in Chromium ${browser.version()}: long tasks while it opens, which is before anybody scrolls: ${listed(opening)}`);
    await checkObserver(page);
    const all: number[] = [], busy: number[] = [];
    for (const way of WAYS) {
      // At its end the ledger hands the wheel on to the page, which then moves it from under the pointer.
      await page.locator('[role="group"]').first().hover();
      await browser.startTracing(page, { categories: ["toplevel", "disabled-by-default-devtools.timeline"] });
      const { gaps, moved } = await scroll(page, way);
      const tasks = await takeTasks(page), cpu = taskTimes(await browser.stopTracing());
      all.push(...tasks);
      busy.push(...cpu);
      console.log(`    ${way.name}: ${way.frames} turns over ${moved.toLocaleString("en-US")} px; long tasks ${listed(tasks)}; the longest took ${digits(Math.max(...cpu))} ms of CPU; a frame every ${told(spreadOf(gaps))} ms`);
    }
    aim(`no task over ${LONG} ms while scrolling, on the clock`, all.length === 0, all.length === 0 ? "none" : `${all.length}, the longest ${digits(Math.max(...all))} ms`);
    const over = busy.filter((ms) => ms > LONG);
    aim(`none over ${LONG} ms of CPU time, which what else runs on the machine lengthens less`, over.length === 0, `${over.length}; the longest ${digits(Math.max(...busy))} ms`);
  } finally {
    await browser.close();
  }
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** CPU time of the thread, microseconds. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** The CPU time of every task of the page's main thread in a trace, ms. */
function taskTimes(trace: Buffer): number[] {
  const { traceEvents: events } = JSON.parse(trace.toString()) as { traceEvents: TraceEvent[] };
  const mains = new Set(events.filter(({ name, args }) => name === "thread_name" && args?.name === "CrRendererMain").map(({ pid, tid }) => `${pid} ${tid}`));
  const tasks = events.filter(({ name, tdur, pid, tid }) => (name === "RunTask" || name === "ThreadControllerImpl::RunTask") && tdur !== undefined && mains.has(`${pid} ${tid}`));
  if (tasks.length === 0) throw new Error("the trace holds no task of the page");
  return tasks.map(({ tdur }) => tdur! / 1000);
}

function listed(tasks: readonly number[]): string {
  return tasks.length === 0 ? "none" : `${tasks.length}, ${told(spreadOf(tasks))} ms`;
}

interface Watched {
  benchTasks: number[];
  benchFrames: number[];
}

/** Runs in the page: keeps every long task and the time of every frame. As text: what compiles this file puts calls of its own into functions. */
const observe = `
  window.benchTasks = [];
  window.benchFrames = [];
  new PerformanceObserver((list) => window.benchTasks.push(...list.getEntries().map((entry) => entry.duration))).observe({ type: "longtask", buffered: true });
  requestAnimationFrame(function beat(at) { window.benchFrames.push(at); requestAnimationFrame(beat); });
`;

async function takeTasks(page: Page): Promise<number[]> {
  await page.waitForTimeout(300);
  return page.evaluate(() => (window as unknown as Watched).benchTasks.splice(0));
}

/** A measurement that sees nothing would call every page smooth: a task made long on purpose has to be told. */
async function checkObserver(page: Page): Promise<void> {
  await page.evaluate((ms) => new Promise<void>((done) => setTimeout(() => {
    for (const until = performance.now() + ms; performance.now() < until;) ;
    done();
  })), 2 * LONG);
  const tasks = await takeTasks(page);
  if (!tasks.some((ms) => ms >= 2 * LONG - 1)) throw new Error(`a task of ${2 * LONG} ms was not told by the browser: ${listed(tasks)}`);
}

/** Turns the wheel once a frame; how long each frame then took, and how far the ledger really went. */
async function scroll(page: Page, { step, frames }: Way): Promise<{ gaps: number[]; moved: number }> {
  const place = () => page.evaluate(() => { const { scrollLeft, scrollTop } = document.querySelector('[role="group"]')!; return { x: scrollLeft, y: scrollTop }; });
  await page.evaluate(() => void (window as unknown as Watched).benchFrames.splice(0));
  let moved = 0, before = await place();
  for (let frame = 0; frame < frames; frame++) {
    const due = performance.now() + FRAME, { x, y } = step(frame);
    await page.mouse.wheel(x, y);
    if (frame % 10 === 9) {
      const now = await place();
      moved += Math.abs(now.x - before.x) + Math.abs(now.y - before.y);
      before = now;
    }
    await page.waitForTimeout(Math.max(0, due - performance.now()));
  }
  if (moved === 0) throw new Error("the ledger did not scroll");
  const times = await page.evaluate(() => (window as unknown as Watched).benchFrames.splice(0));
  return { gaps: times.slice(1).map((at, i) => at - times[i]!), moved: Math.round(moved) };
}
