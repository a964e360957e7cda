/**
 * Shows a command's steps as they happen: what is being done, and when it is done, what came of it and how long it
 * took. `out` is where to: a command whose standard output is its result shows them on standard error.
 */
export function progressOn(out, { quiet = false } = {}) {
  // A terminal or pipe that was closed must not end the command before it has put things in order.
  out.on("error", () => undefined);
  const line = (mark, name, text, time) => `  ${mark} ${name.padEnd(12)} ${text}${time ? `  (${time})` : ""}`;

  /** Does `work(say)`; what it returns is shown as the outcome, nothing where it returns null. */
  async function step(name, doing, work) {
    const began = performance.now();
    let shown = false;
    const show = (text) => {
      clearTimeout(timer);
      if (quiet) return;
      if (out.isTTY) out.write(`\r\x1b[2K${line("·", name, `${text} …`)}`);
      else out.write(`${line("·", name, `${text} …`)}\n`);
      shown = true;
    };
    // Work of a moment needs no announcement.
    const timer = setTimeout(() => show(doing), out.isTTY ? 0 : 1000);
    try {
      const outcome = await work(show);
      clearTimeout(timer);
      if (out.isTTY && shown) out.write("\r\x1b[2K");
      if (typeof outcome === "string" && (!quiet || shown)) out.write(`${line("✓", name, outcome, seconds(began))}\n`);
      return outcome;
    } catch (error) {
      clearTimeout(timer);
      if (out.isTTY && shown) out.write("\r\x1b[2K");
      throw error;
    }
  }

  return { step, say: (text) => void out.write(`${text}\n`) };
}

const seconds = (began) => `${((performance.now() - began) / 1000).toFixed(1)} s`;
