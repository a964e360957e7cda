import { NightsTaken } from "@/lib/store/errors";
import { disconnect } from "@/lib/store/client";
import { bookStay } from "@/lib/store/stays";
import { ask, desk, park } from "./stays-requests";

/**
 * A process of its own that books, for the tests of several copies of the application on one database: all clients at
 * once for one night (`same <clients>`), or one night after another (`row <first> <nights>`). Each stay that was accepted
 * is told in a line as soon as it is, then each refusal.
 */
const [mode, ...numbers] = process.argv.slice(2);
const [first, count] = numbers.map(Number) as [number, number | undefined];

async function book(away: number): Promise<void> {
  try {
    const { stay } = await bookStay(desk, park, { request: ask(away, 1) });
    process.stdout.write(`accepted ${stay.id}\n`);
  } catch (error) {
    process.stdout.write(error instanceof NightsTaken ? `taken ${error.free.join(",")}\n` : `failed ${String(error)}\n`);
  }
}

if (mode === "same") await Promise.all(Array.from({ length: first }, () => book(30)));
else for (let i = 0; i < (count ?? 0); i += 8) await Promise.all(Array.from({ length: 8 }, (_, j) => book(first + i + j)));
await disconnect();
